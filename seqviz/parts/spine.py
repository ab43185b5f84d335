"""The line that a long part follows: kinks and joggles carry what was straight to where it comes to lie."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen

__all__ = ["STRAIGHT", "Crease", "Shift", "Spine", "Stretch"]

_SAME = 1e-5  # mm: corners this near to a station lie on it
_MIRROR = np.array([1.0, -1.0, 1.0])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Crease:
    """A kink: at ``x`` what lies beyond leans ``towards`` (3,), about a line through ``middle`` (3,).

    ``half`` is the tangent of half its angle: both sides end in the plane that halves it. ``turn`` is the
    motion of what lies beyond, and ``reach`` how far from x the two sides are cut aslant, mm.
    """

    x: float
    half: float
    middle: Array
    towards: Array
    turn: Pose
    reach: float

    def mitre(self, points: Array) -> Array:
        """Return the x, mm, at which the side before the kink ends, at straight points ``(n, 3)``."""
        return np.asarray(self.x - self.half * ((points - self.middle) @ self.towards))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shift:
    """A joggle: the section moves by ``by`` (3,) times the ``shares`` at the ``knots`` on x, mm."""

    by: Array
    knots: tuple[float, ...]
    shares: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretch:
    """What lies between two stations on x, mm: moved as one by ``pose``, or a ramp.

    ``before`` and ``after`` are the kinks that cut its ends aslant; None: the end is square.
    """

    start: float
    stop: float
    ramp: bool
    before: Crease | None
    after: Crease | None
    pose: Pose


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spine:
    """Kinks from the start on, and joggles; ``mirrored``: of the other hand, y -> -y of all of it."""

    creases: tuple[Crease, ...] = ()
    shifts: tuple[Shift, ...] = ()
    mirrored: bool = False

    @property
    def stations(self) -> list[float]:
        """Where something begins or ends, on x, mm."""
        found = {crease.x for crease in self.creases} | {
            knot for shift in self.shifts for knot in shift.knots
        }
        return sorted(found)

    @property
    def other_hand(self) -> Spine:
        """The spine of the other hand."""
        return replace(self, mirrored=not self.mirrored)

    def stretches(self, low: float, high: float) -> list[Stretch]:
        """Return what lies between the stations, and beyond the last ones as far as ``low`` and ``high``."""
        ends = [low, *self.stations, high]
        kinks = {crease.x: crease for crease in self.creases}
        return [
            Stretch(
                start=start,
                stop=stop,
                ramp=any(self._shares(shift, start) != self._shares(shift, stop) for shift in self.shifts),
                before=kinks.get(start),
                after=kinks.get(stop),
                pose=self._pose((start + stop) / 2),
            )
            for start, stop in pairwise(ends)
        ]

    def carried(self, points: Array) -> Array:
        """Return where ``(n, 3)`` points of the straight part come to lie, mm, part frame.

        On a station they lie where both sides meet.
        """
        hand = _MIRROR if self.mirrored else np.ones(3)
        straight = points * hand
        moved = straight + sum(
            (np.interp(straight[:, 0], s.knots, s.shares)[:, None] * s.by for s in self.shifts),
            start=np.zeros(3),
        )
        # The last kink first: each moves all that lies beyond it, later kinks with it.
        for crease in reversed(self.creases):
            on_it = np.abs(straight[:, 0] - crease.x) < _SAME
            moved[on_it, 0] = crease.mitre(moved[on_it])
            beyond = straight[:, 0] > crease.x + _SAME
            moved[beyond] = crease.turn.points(moved[beyond])
        return np.asarray(moved * hand)

    def _pose(self, x: float) -> Pose:
        shift = sum((self._shares(one, x) * one.by for one in self.shifts), start=np.zeros(3))
        pose = Pose(rotation=IDENTITY.rotation, translation=frozen(shift))
        for crease in reversed(self.creases):
            pose = crease.turn.after(pose) if x > crease.x else pose
        return pose

    @staticmethod
    def _shares(shift: Shift, x: float) -> float:
        return float(np.interp(x, shift.knots, shift.shares))


STRAIGHT = Spine()
"""Neither kinked nor joggled."""
