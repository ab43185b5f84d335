"""Rolled sheet: from its flat pattern to where it lies once it is rolled about parallel lines, and back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np

from seqviz.geometry.pose import Array, Pose, frozen

__all__ = ["Roll"]


@dataclass(frozen=True, kw_only=True, eq=False)
class Roll:
    """How a flat pattern is rolled up.

    Between two lines the middle of the sheet keeps its length and runs on one arc, or straight on.

    Attributes
    ----------
    origin, along
        ``(2,)`` mm and unit vector, pattern: the line at which the part keeps the frame of its pattern.
        Across it s counts in mm, positive to the left of ``along``.
    lines
        ``(k,)``, mm, ascending: the s at which facets begin and end; beyond them the sheet is plane.
    turns
        ``(k,)``, radians: how far the sheet is turned at each line, towards +z where s grows; 0 at s = 0.
    thickness
        mm; the pattern fills 0 <= z <= thickness.
    """

    origin: Array
    along: Array
    lines: Array
    turns: Array
    thickness: float

    @property
    def left(self) -> Array:
        """``(2,)`` unit vector in which s grows, pattern."""
        return np.array([-self.along[1], self.along[0]])

    @property
    def mirrored(self) -> Roll:
        """The roll of the mirror image: y -> -y."""
        flip = np.array([1.0, -1.0])
        # The line runs the other way, so that left of it stays left of it.
        return replace(self, origin=frozen(self.origin * flip), along=frozen(-self.along * flip))

    def across(self, points: Array) -> Array:
        """Return ``(..., 2)``: the way along the line and s, mm, of points of the pattern."""
        return np.asarray((points - self.origin) @ np.column_stack([self.along, self.left]))

    def turn(self, s: Array) -> Array:
        """Return how far the sheet is turned at ``s``, radians."""
        return np.interp(s, self.lines, self.turns)

    def points(self, points: Array, levels: Array | float) -> Array:
        """Return where ``(n, 2)`` points of the pattern lie, ``(n, 3)`` part frame, on the true curve.

        ``levels`` is their z on the flat sheet, mm.
        """
        way, s = self.across(points).T
        return self._lifted(way, self._middle(s) + self._out(self.turn(s), levels))

    def on_facets(self, points: Array, levels: Array | float) -> Array:
        """Return the same on the facets, which have their corners on the true curve."""
        way, s = self.across(points).T
        first, last = self.ends
        knots = np.concatenate([[first], self.lines, [last]])
        corners = self._middle(knots) + self._out(self.turn(knots), levels)
        return self._lifted(way, np.column_stack([np.interp(s, knots, corners[:, k]) for k in (0, 1)]))

    def normals(self, points: Array) -> Array:
        """Return the ``(n, 3)`` unit normals on the pattern's +z side at ``(n, 2)`` points of it."""
        turn = self.turn(self.across(points)[:, 1])
        return self._directions(-np.sin(turn), np.cos(turn))

    def unrolled(self, points: Array) -> Array:
        """Return the ``(n, 2)`` points of the pattern that lie nearest to ``(n, 3)`` points of the part."""
        flat = self.across(points[:, :2])
        profile = np.column_stack([flat[:, 1], points[:, 2] - self.thickness / 2])
        best, least = np.zeros(len(points)), np.full(len(points), np.inf)
        first, last = self.ends
        knots = np.concatenate([[first], self.lines, [last]])
        for start, end in pairwise(knots):
            s = np.clip(self._foot(profile, start, end), start, end)
            off = np.linalg.norm(self._middle(s) - profile, axis=1)
            best, least = np.where(off < least - 1e-9, s, best), np.minimum(off, least)
        return np.asarray(self.origin + np.outer(flat[:, 0], self.along) + np.outer(best, self.left))

    @property
    def ends(self) -> tuple[float, float]:
        """Two values of s far beyond every sheet."""
        return float(self.lines[0]) - 1e6, float(self.lines[-1]) + 1e6

    @property
    def arcs(self) -> tuple[tuple[float, float, float], ...]:
        """Each arc: the s at which it begins and ends, mm, and by how much it turns, radians."""
        found: list[tuple[float, float, float]] = []
        for k, (turn, length) in enumerate(zip(np.diff(self.turns), np.diff(self.lines), strict=True)):
            if abs(turn) < 1e-12:
                continue
            start, end = float(self.lines[k]), float(self.lines[k + 1])
            before = found[-1] if found else (0.0, -np.inf, 0.0)
            bend = before[2] / (before[1] - before[0])
            if before[1] == start and abs(bend - turn / length) < 1e-9:
                found[-1] = (before[0], end, before[2] + float(turn))
            else:
                found.append((start, end, float(turn)))
        return tuple(found)

    def facet(self, start: float, end: float) -> tuple[Pose, float]:
        """Return the frame of the facet between two lines next to each other, and half of its turn, radians.

        The frame stands in the middle of the sheet, half way between the lines: x along the line, y across
        it, z on the pattern's +z side; it is seen from the part.
        """
        turns = self.turn(np.array([start, end]))
        middle = self._middle(np.array([start, end])).mean(axis=0)
        lean = float(turns.mean())
        axes = [
            np.array([*self.along, 0.0]),
            self._directions(np.array([np.cos(lean)]), np.array([np.sin(lean)]))[0],
            self._directions(np.array([-np.sin(lean)]), np.array([np.cos(lean)]))[0],
        ]
        place = self._lifted(np.zeros(1), middle[None])[0]
        frame = Pose(rotation=frozen(np.column_stack(axes)), translation=frozen(place))
        return frame, float(turns[1] - turns[0]) / 2

    def _out(self, turns: Array, levels: Array | float) -> Array:
        """Return the ``(n, 2)`` way from the middle of the sheet to ``levels``."""
        normals = np.column_stack([-np.sin(turns), np.cos(turns)])
        return normals * np.reshape(np.asarray(levels) - self.thickness / 2, (-1, 1))

    def _directions(self, across: Array, up: Array) -> Array:
        return np.column_stack([np.outer(across, self.left), up])

    def _lifted(self, way: Array, profile: Array) -> Array:
        flat = self.origin + np.outer(way, self.along) + np.outer(profile[:, 0], self.left)
        return np.column_stack([flat, profile[:, 1] + self.thickness / 2])

    @cached_property
    def _corners(self) -> Array:
        """``(k, 2)`` the middle of the sheet at the lines, up to a shift."""
        steps = _chord(self.turns[:-1], np.diff(self.turns), np.diff(self.lines))
        return np.concatenate([np.zeros((1, 2)), np.cumsum(steps, axis=0)])

    @cached_property
    def _shift(self) -> Array:
        return np.asarray(self._loose(np.zeros(1))[0])

    def _middle(self, s: Array) -> Array:
        """Return the ``(n, 2)`` middle of the sheet at ``s``: across the line and up, 0 at the line."""
        return self._loose(s) - self._shift

    def _loose(self, s: Array) -> Array:
        index = np.clip(np.searchsorted(self.lines, s, side="right") - 1, 0, len(self.lines) - 1)
        start = self.turns[index]
        return self._corners[index] + _chord(start, self.turn(s) - start, s - self.lines[index])

    def _foot(self, profile: Array, start: float, end: float) -> Array:
        """Return the s at which the curve between two lines, carried on, is nearest to ``(n, 2)`` points."""
        turns = self.turn(np.array([start, end]))
        begin = self._middle(np.array([start]))[0]
        away = profile - begin
        forward = np.array([np.cos(turns[0]), np.sin(turns[0])])
        upward = np.array([-forward[1], forward[0]])
        if abs(turns[1] - turns[0]) < 1e-12:
            return np.asarray(start + away @ forward)
        radius = (end - start) / (turns[1] - turns[0])
        sense = np.sign(radius)
        x, y = away @ forward, sense * (away @ upward)
        return np.asarray(start + abs(radius) * np.arctan2(x, abs(radius) - y))


def _chord(turn: Array, change: Array, length: Array) -> Array:
    """Return the ``(n, 2)`` chords of arcs that begin at ``turn`` and turn by ``change`` over ``length``."""
    shorter = length * np.sinc(change / (2 * np.pi))
    lean = turn + change / 2
    return np.column_stack([shorter * np.cos(lean), shorter * np.sin(lean)])
