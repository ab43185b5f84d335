"""The line that a long part follows: kinks and joggles carry what was straight to where it comes to lie."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from seqviz.geometry.pose import IDENTITY, Array, Pose, frozen

__all__ = ["Crease", "Shift", "Spine", "Stretch"]

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
    """What lies between two stations on x: moved as one by ``pose``, or a ramp.

    ``creased`` tells of its two ends whether a kink cuts them aslant.
    """

    start: float
    stop: float
    ramp: bool
    creased: tuple[bool, bool]
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
        found = {fold.x for fold in self.creases} | {knot for shift in self.shifts for knot in shift.knots}
        return sorted(found)

    @property
    def other_hand(self) -> Spine:
        """The spine of the other hand."""
        return replace(self, mirrored=not self.mirrored)

    def stretches(self, low: float, high: float) -> list[Stretch]:
        """Return what lies between the stations, and beyond the last ones as far as ``low`` and ``high``."""
        ends = [low, *self.stations, high]
        kinks = {fold.x for fold in self.creases}
        return [
            Stretch(
                start=start,
                stop=stop,
                ramp=any(self._shares(shift, start) != self._shares(shift, stop) for shift in self.shifts),
                creased=(start in kinks, stop in kinks),
                pose=self._pose((start + stop) / 2),
            )
            for start, stop in zip(ends, ends[1:], strict=False)
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
        for fold in reversed(self.creases):
            on_it = np.abs(straight[:, 0] - fold.x) < _SAME
            moved[on_it, 0] = fold.mitre(moved[on_it])
            beyond = straight[:, 0] > fold.x + _SAME
            moved[beyond] = fold.turn.points(moved[beyond])
        return np.asarray(moved * hand)

    def _pose(self, x: float) -> Pose:
        shift = sum((self._shares(one, x) * one.by for one in self.shifts), start=np.zeros(3))
        pose = Pose(rotation=IDENTITY.rotation, translation=frozen(shift))
        for fold in reversed(self.creases):
            pose = fold.turn.after(pose) if x > fold.x else pose
        return pose

    @staticmethod
    def _shares(shift: Shift, x: float) -> float:
        return float(np.interp(x, shift.knots, shift.shares))
