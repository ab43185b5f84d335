"""Flat patterns as DXF, for whoever has the sheet cut: outline, holes and bend lines, in mm."""

from __future__ import annotations

import io

from seqviz.parts.flat_pattern import FlatPattern

__all__ = ["LAYERS", "NEEDS", "NoDxf", "flat_dxf"]

LAYERS = {"OUTLINE": "CONTINUOUS", "HOLES": "CONTINUOUS", "BENDS UP": "DASHED", "BENDS DOWN": "DASHED"}
"""Layer -> line type. Openings are cut like the outline and lie on its layer."""

NEEDS = (
    "DXF files need the package ezdxf, which is not installed. Install it with: pip install 'seqviz[dxf]'. "
    "SVG files need nothing."
)


class NoDxf(Exception):  # noqa: N818 - no mistake of ours: a package that is not there
    """The package that writes DXF is not installed."""


def flat_dxf(pattern: FlatPattern) -> str:
    """Return the DXF of a pattern, in its own coordinates.

    Raises
    ------
    NoDxf
        The package ezdxf is not installed.
    """
    try:
        from ezdxf.filemanagement import new
    except ImportError as reason:
        raise NoDxf(NEEDS) from reason
    drawing = new("R2010", setup=["linetypes"])
    drawing.header["$INSUNITS"] = 4  # mm
    drawing.header["$MEASUREMENT"] = 1  # metric
    for name, kind in LAYERS.items():
        drawing.layers.add(name, linetype=kind)
    space = drawing.modelspace()
    for ring in (pattern.outline, *pattern.openings):
        space.add_lwpolyline(ring.tolist(), close=True, dxfattribs={"layer": "OUTLINE"})
    for hole in pattern.holes:
        space.add_circle(hole.centre.tolist(), hole.diameter / 2, dxfattribs={"layer": "HOLES"})
    for bend in pattern.bend_lines:
        layer = {"layer": "BENDS UP" if bend.up else "BENDS DOWN"}
        space.add_line(bend.start.tolist(), bend.end.tolist(), dxfattribs=layer)
    written = io.StringIO()
    drawing.write(written)
    return written.getvalue()
