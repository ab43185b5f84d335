"""Drawings for the bench: flat patterns as SVG and DXF."""
