"""A floor, a rail on it and a short strap on the rail: what the order tests start from."""

from tests.checks.expect import MODEL

__all__ = ["STRAPPED", "with_parts"]

STRAP = """\
  strap:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [100, 0], [100, 20], [0, 20]]
    holes:
      eye: {from: [10, 10], to: [90, 10], count: 3, size: small}
"""
PLACED = """\
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
"""
STRAPPED = (
    MODEL + STRAP + PLACED + "  strap: {part: strap, match: {eye.1: rail.foot.2, eye.3: rail.foot.4}}\n"
)
"""Holes 2 to 4 of the rail are stacks of three: strap, rail, floor."""


def with_parts(parts: str, placed: str) -> str:
    """Return floor and rail with more parts and more entries of ``placed``."""
    return MODEL + parts + PLACED + placed
