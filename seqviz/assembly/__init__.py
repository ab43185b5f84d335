"""Placing parts by their holes, hole stacks, and what sits on what."""
