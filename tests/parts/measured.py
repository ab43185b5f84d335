"""What the tests of closed formulas measure with: a part from its text, and how far facets let it be off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from textwrap import indent

import pytest

from seqviz.geometry.volume import volume_of
from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from tests.records.written import loaded

__all__ = ["SAGITTA", "Case", "Holes", "Slack", "bend_slack", "check", "lost", "opening_slack", "part_of"]

SAGITTA = 0.01
"""mm: how far a facet may be off the true surface."""

_HEAD = "format: 1\nbase: piece\nsizes: {small: {diameter: 3.3, with: blind rivet 3.2}}\nparts:\n  piece:\n"
_CORNERS = 16
"""Of a hole in the mesh."""
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """By how much facets may make a volume (mm3) and an area (mm2) less, and more, than the true ones."""

    less_volume: float = 0.0
    less_area: float = 0.0
    more_volume: float = 0.0
    more_area: float = 0.0

    def __add__(self, other: Slack) -> Slack:
        return Slack(
            less_volume=self.less_volume + other.less_volume,
            less_area=self.less_area + other.less_area,
            more_volume=self.more_volume + other.more_volume,
            more_area=self.more_area + other.more_area,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Holes:
    """Rivet holes of one diameter through one thickness, mm."""

    count: int
    diameter: float
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A part as it is written, and what the closed formulas say of it without its rivet holes.

    ``size`` and ``sheet`` are those of the flat pattern, None where it has none.
    """

    text: str
    volume: float
    area: float
    size: tuple[float, float] | None = None
    sheet: float | None = None
    holes: tuple[Holes, ...] = ()
    slack: Slack = Slack()


def part_of(folder: Path, text: str) -> Part:
    """Return the part that the lines below its name describe."""
    read = loaded(folder, _HEAD + indent(text.strip("\n"), "    ") + "\n")
    parts, findings = make_parts(read.model)
    said = [finding.message for finding in (*read.findings, *findings)]
    assert not said, said
    return parts["piece"]


def lost(radius: float) -> tuple[float, float]:
    """Return which share of its area, and of its length, an arc loses when it is cut into facets.

    A chord over t radians stands off by radius x (1 - cos(t / 2)); of the sector it keeps sin(t) / t, of the
    arc sin(t / 2) / (t / 2).
    """
    t = 2 * math.acos(1 - SAGITTA / radius)
    return 1 - math.sin(t) / t, 1 - math.sin(t / 2) / (t / 2)


def bend_slack(turn: float, thickness: float, radius: float, length: float) -> Slack:
    """Return the slack of a bend by ``turn`` degrees; its facets are counted on its outer radius."""
    arc, outer = math.radians(turn), radius + thickness
    of_area, of_length = lost(outer)
    section = arc / 2 * (outer**2 - radius**2) * of_area
    return Slack(
        less_volume=section * length,
        less_area=arc * (outer + radius) * length * of_length + 2 * section,
    )


def opening_slack(diameter: float, thickness: float) -> Slack:
    """Return the slack of a round opening: its polygon is smaller, so that more is left of the sheet."""
    of_area, of_length = lost(diameter / 2)
    more = math.pi / 4 * diameter**2 * of_area
    return Slack(
        more_volume=more * thickness, more_area=2 * more, less_area=math.pi * diameter * thickness * of_length
    )


def check(part: Part, case: Case) -> None:
    """Compare pieces, mesh and flat pattern with the formulas."""
    import trimesh

    pieces = sum(volume_of(piece) for piece in part.pieces)
    _within(pieces, case.volume, case.slack.less_volume, case.slack.more_volume)
    mesh = mesh_of(part, segments=_CORNERS)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    volume, area = case.volume, case.area
    for holes in case.holes:
        # A polygon of n corners on a circle: n / 8 d2 sin(2 pi / n), and n d sin(pi / n) round it.
        mouth = _CORNERS / 8 * holes.diameter**2 * math.sin(2 * math.pi / _CORNERS)
        rim = _CORNERS * holes.diameter * math.sin(math.pi / _CORNERS)
        volume -= holes.count * mouth * holes.thickness
        area += holes.count * (rim * holes.thickness - 2 * mouth)
    _within(float(solid.volume), volume, case.slack.less_volume, case.slack.more_volume)
    _within(float(solid.area), area, case.slack.less_area, case.slack.more_area)
    pattern = flat_pattern(part)
    assert (pattern is None) == (case.size is None)
    if pattern is not None and case.size is not None and case.sheet is not None:
        assert pattern.size == pytest.approx(case.size, abs=1e-5)
        drilled = sum(holes.count * math.pi / 4 * holes.diameter**2 for holes in case.holes)
        more = case.slack.more_volume / pattern.thickness
        assert case.sheet - 1e-3 <= pattern.area + drilled <= case.sheet + more + 1e-3


def _within(found: float, true: float, less: float, more: float) -> None:
    rounding = true * _ROUNDING
    assert true - less - rounding <= found <= true + more + rounding, (true - less, found, true + more)
