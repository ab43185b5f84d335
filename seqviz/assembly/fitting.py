"""Fitting a part's holes on the holes beneath: which pose, how well, and what is left free."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seqviz.assembly.structure import PlacedPart
from seqviz.geometry.lines import Fit, fit_lines
from seqviz.geometry.pose import Array, unit
from seqviz.parts.part import Hole, Part

__all__ = [
    "Pair",
    "Placing",
    "best_fit",
    "default_face",
    "freedom",
    "hole_axis_of_side",
    "judged",
    "worst_misfit",
]

LINE = 0.5
"""mm: holes that stay this close to a straight line cannot tell which face lies down."""

TILT = 1.0
"""degrees: hole axes that differ by more do not belong together."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pair:
    """A hole of the part on a hole of a placed part.

    ``down`` and ``outward`` are unit vectors: the outward normal of the part's face that lies down (part
    frame), and that of the target's side (base frame). ``fastener`` is the thickness of what goes in, mm;
    ``slack`` how far off a measured part's holes may be besides, mm.
    """

    own: Hole
    target: Hole
    target_part: PlacedPart
    down: Array
    outward: Array
    fastener: float
    slack: float = 0.0

    @property
    def spot(self) -> Array:
        """``(3,)`` centre of the target's hole, base frame."""
        return self.target_part.pose.points(self.target.centre)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placing:
    """A fit with its verdict.

    ``turned`` is True where the holes only fit with the other face down; ``off`` is by how much the worst
    hole is too far off for its fastener, mm, 0 where all go together; ``tilt`` the worst angle, degrees.
    """

    fit: Fit
    turned: bool
    off: float
    tilt: float

    @property
    def good(self) -> bool:
        """Say whether the part lies as said."""
        return not self.turned and self.off == 0.0 and self.tilt <= TILT


def default_face(part: Part, hole: Hole) -> str:
    """Return the face that lies down where nobody says it: plates, skins and flat bars lie as drawn.

    Of a fitting, and of another model as one piece, the piece of the hole decides.
    """
    shape, flat = _own_flat(part, hole.flat)
    return "inside" if shape in ("skin", "plate") or (shape, flat) == ("bar", "top") else "outside"


def _own_flat(part: Part, flat: str) -> tuple[str, str]:
    """Return the shape and the flat's name of the innermost piece of ``part`` that ``flat`` belongs to."""
    for member in part.members:
        if flat in member.flats:
            return _own_flat(member.part, member.flats[flat])
    return part.shape, flat


def hole_axis_of_side(target: PlacedPart, hole: Hole, side: str | None, up: Array | None) -> Array:
    """Return the ``(3,)`` outward normal, base frame, of the target's face on ``side``.

    ``up`` is the base's upper direction where the target is the base, else None. Upper and lower are said of
    the base only: for other targets they mean outside.
    """
    axis = target.pose.vectors(hole.axis)
    if up is not None and side not in ("outside", "inside") and target.part.roll is not None:
        # The face that looks up at the line it is rolled about is the upper one all round.
        return np.asarray(axis * target.part.flats[hole.flat].outside * (-1.0 if side == "lower" else 1.0))
    if up is not None and side in (None, "upper", "lower") and abs(axis @ up) > np.cos(np.radians(60.0)):
        sign = np.sign(axis @ up) * (-1.0 if side == "lower" else 1.0)
        return np.asarray(axis * sign)
    return np.asarray(-axis if side == "inside" else axis)


def best_fit(pairs: list[Pair]) -> Placing:
    """Fit the pairs as said; where that fails, find out whether the other face would fit."""
    placing = _fitted(pairs, turned=False)
    if placing.good or not _out_of_line(pairs):
        return placing
    other = _fitted(pairs, turned=True)
    return other if other.off == 0.0 and other.tilt <= TILT else placing


def _fitted(pairs: list[Pair], *, turned: bool) -> Placing:
    sign = 1.0 if turned else -1.0
    fit = fit_lines(
        np.array([p.own.centre for p in pairs]),
        np.array([p.down for p in pairs]),
        np.array([p.spot for p in pairs]),
        np.array([p.outward * sign for p in pairs]),
    )
    return judged(pairs, fit, turned=turned)


def judged(pairs: list[Pair], fit: Fit, *, turned: bool) -> Placing:
    """Return a fit of the pairs with its verdict."""
    excess = [
        e if too_far(p.own.diameter, p.target.diameter, max(float(e) - p.slack, 0.0), p.fastener) else 0.0
        for p, e in zip(pairs, fit.residuals, strict=True)
    ]
    return Placing(fit=fit, turned=turned, off=float(max(excess)), tilt=float(np.max(fit.tilts)))


def too_far(one: float, other: float, offset: float, fastener: float) -> bool:
    """Say whether the largest pin through two holes ``offset`` mm apart is thinner than ``fastener``."""
    pin = min(one, other, (one + other) / 2 - offset)
    return pin < min(fastener, one, other) - 1e-6


def _out_of_line(pairs: list[Pair]) -> bool:
    """Say whether three or more holes stand out of one line, so that they tell which face lies down."""
    if len(pairs) < 3:
        return False
    spots = np.array([p.spot for p in pairs])
    return bool(np.linalg.svd(spots - spots.mean(axis=0), compute_uv=False)[1] > LINE)


def worst_misfit(pairs: list[Pair], fit: Fit) -> tuple[Pair, float]:
    """Return the pair that fits worst, and how far off it is, mm."""
    worst = int(np.argmax(fit.residuals))
    return pairs[worst], float(fit.residuals[worst])


def freedom(pairs: list[Pair], fit: Fit) -> str:
    """Return what the holes leave free: ``nothing``, ``height`` (along their common axis) or ``loose``.

    ``between``: along their axes as well, but it lies on faces that look opposite ways.
    """
    if len(fit.freedoms) == 0:
        return "nothing"
    turning, moving = fit.freedoms[0][:3], fit.freedoms[0][3:]
    if len(fit.freedoms) > 1 or np.linalg.norm(turning) >= 1e-6:
        return "loose"
    along = np.array([p.outward for p in pairs]) @ unit(moving)
    if np.abs(along).min() < np.cos(np.radians(TILT)):
        return "loose"
    return "between" if along.min() < 0.0 < along.max() else "height"
