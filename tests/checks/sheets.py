"""Small models of one's own parts for the rules of edges, pitch, bends and rivets for sheets."""

from pathlib import Path

from seqviz.findings import Finding
from tests.checks.expect import found_as_marked

__all__ = ["HEAD", "SPACING", "mine", "of_kind", "pair"]

SPACING = ("edge-distance", "hole-pitch", "bend-radius", "rivet-for-sheet")

HEAD = """\
format: 1
name: Trial
base: floor
made by: me
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  big: {diameter: 4.9, with: solid rivet 4.8}
  flush: {diameter: 3.3, with: solid rivet 3.2, countersunk: yes}
  bolt: {diameter: 6.4, with: bolt 6.4}
"""


def pair(
    row: str, strap: str, *, outline: str = "[[0, 0], [100, 0], [100, 40], [0, 40]]", more: str = ""
) -> str:
    """Return a floor of 300 x 200 with ``row``, and under it a strap with the same row moved by 100, 100.

    ``strap`` is the strap's row with its mark; ``more`` are further words of the strap, each line indented.
    """
    return (
        HEAD
        + f"""\
parts:
  floor:
    shape: skin
    thickness: 1.2
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      mid: {row}
  strap:
    shape: plate
    thickness: 1.2
    outline: {outline}
{more}    holes:
      eye: {strap}
placed:
  strap: {{part: strap, match: {{eye.1: floor.mid.1, eye.2: floor.mid.2}}}}
"""
    )


def mine(folder: Path, text: str) -> list[Finding]:
    """Return what is found of the four kinds, which stands exactly where it is marked."""
    return of_kind(found_as_marked(folder, text), *SPACING)


def of_kind(findings: list[Finding], *kinds: str) -> list[Finding]:
    """Return those of ``kinds``."""
    return [finding for finding in findings if finding.kind in kinds]
