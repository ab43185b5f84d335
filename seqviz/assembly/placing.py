"""Placing one entry after another: holes fitted as lines, heights by the lay-up, words checked."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from seqviz.assembly import mistakes
from seqviz.assembly.directions import UP, pose_from_words
from seqviz.assembly.entries import Entry
from seqviz.assembly.facing import faces_otherwise
from seqviz.assembly.fitting import Pair, Placing, best_fit, freedom, worst_misfit
from seqviz.assembly.flats import standing_flats
from seqviz.assembly.heights import least_height, lying_floor, rolled_stays
from seqviz.assembly.pairing import pairs_of
from seqviz.assembly.row_pairs import suspicion_of_fit
from seqviz.assembly.seating import face_points, seated
from seqviz.assembly.site import Site
from seqviz.assembly.structure import PlacedPart
from seqviz.findings import Finding
from seqviz.geometry.pose import Array, Pose, frozen, unit
from seqviz.parts.hand import other_hand
from seqviz.parts.part import Part

__all__ = ["Attempt", "place_entry"]

_OPPOSED = 1e-6
"""A shorter sum of unit vectors says nothing: the faces look opposite ways."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Attempt:
    """What came of placing an entry: the placed part or None, and what was noticed. ``spoiled``: mute it."""

    part: PlacedPart | None
    findings: tuple[Finding, ...] = field(default=())
    spoiled: bool = False

    @property
    def clean(self) -> bool:
        """Say whether it went without a remark."""
        return self.part is not None and not self.findings


def place_entry(entry: Entry, part: Part, site: Site, *, other: bool) -> Attempt:
    """Place ``part`` (its other hand where ``other``) as ``entry`` says; its targets already stand."""
    piece = other_hand(part) if other else part
    if entry.record.pose is not None:
        return _by_words(entry, piece, site)
    pairs, finding = pairs_of(entry, piece, site)
    if finding is not None or not pairs:
        return Attempt(part=None, findings=(finding,) if finding else ())
    placing = best_fit(pairs)
    if freedom(pairs, placing.fit) == "loose":
        return Attempt(part=None, findings=(mistakes.loose(entry, pairs),))
    if site.lay.beneath[entry.name] <= {pair.target_part.name for pair in pairs}:
        placing = seated(piece, pairs, placing)
    placed = _at_its_height(entry, piece, pairs, placing, site)
    if placing.turned:
        return Attempt(part=placed, findings=(mistakes.other_face(entry, pairs),), spoiled=True)
    if not placing.good:
        pair, off = worst_misfit(pairs, placing.fit)
        suspect = suspicion_of_fit(entry.name, pairs, piece.holes)
        finding = mistakes.bad_fit(entry, (pair, off), placing, suspect, site.model.units)
        return Attempt(part=placed, findings=(finding,), spoiled=True)
    wrong = faces_otherwise(entry, pairs, placed, site.model)
    return Attempt(part=placed, findings=(wrong,) if wrong else (), spoiled=wrong is not None)


def _by_words(entry: Entry, part: Part, site: Site) -> Attempt:
    assert entry.record.pose is not None
    if not part.pieces:
        return Attempt(part=None, findings=(mistakes.all_sketches(entry, part),))
    pose = pose_from_words(entry.record.pose, site.model)
    if pose is None:
        return Attempt(part=None, findings=(mistakes.not_square(entry),))
    placed = PlacedPart(
        name=entry.name, part=part, pose=pose, depth=1, side=UP, free=False, at=entry.record.at
    )
    wrong = faces_otherwise(entry, [], placed, site.model)
    return Attempt(part=placed, findings=(wrong,) if wrong else (), spoiled=wrong is not None)


def _at_its_height(entry: Entry, part: Part, pairs: list[Pair], placing: Placing, site: Site) -> PlacedPart:
    """Return the part where the fit puts it, moved out by the height rule where it is free to."""
    left = freedom(pairs, placing.fit)
    facing = np.sum([p.outward for p in pairs], axis=0) if left != "between" else pairs[0].outward
    side = frozen(unit(facing if np.linalg.norm(facing) > _OPPOSED else pairs[0].outward))
    free = left == "height"
    pose = placing.fit.pose
    if left == "between":
        move = _between(part, pairs, pose, side)
        pose = Pose(rotation=pose.rotation, translation=frozen(pose.translation + move * side))
    if free:
        move = _height(entry, part, pairs, pose, side, site)
        pose = Pose(rotation=pose.rotation, translation=frozen(pose.translation + move * side))
    depth = 1 + max(p.target_part.depth for p in pairs)
    return PlacedPart(
        name=entry.name, part=part, pose=pose, depth=depth, side=side, free=free, at=entry.record.at
    )


def _between(part: Part, pairs: list[Pair], pose: Pose, side: Array) -> float:
    """Return the move along ``side``, mm, that shares out what is too wide or too narrow to both walls."""
    own, beneath = _levels(part, pairs, pose, side)
    ahead = np.array([p.outward @ side > 0.0 for p in pairs])
    moves = beneath - own
    return float(moves[ahead].mean() + moves[~ahead].mean()) / 2


def _levels(part: Part, pairs: list[Pair], pose: Pose, side: Array) -> tuple[Array, Array]:
    """Return the levels along ``side``, mm, of the faces that lie down, and of those that they lie on."""
    own, beneath = face_points(part, pairs, pose)
    return own @ side, beneath @ side


def _height(entry: Entry, part: Part, pairs: list[Pair], pose: Pose, side: Array, site: Site) -> float:
    """Return the move along ``side``, mm, by the height rule."""
    floor = lying_floor(*_levels(part, pairs, pose, side))
    matched = {name for p in pairs for name in (p.own.column.flats if p.own.column else (p.own.flat,))}
    lying = [f for f in standing_flats(entry.name, part, pose) if f.flat.name in matched]
    lying = lying or list(standing_flats(entry.name, part, pose))
    under = [site.placed[name] for name in sorted(site.lay.beneath[entry.name]) if name in site.placed]
    plane = [] if part.roll else [other.name for other in under if other.part.roll is None]
    others = [f for name in plane for f in site.flats.get(name, ())]
    here = PlacedPart(
        name=entry.name, part=part, pose=pose, depth=0, side=side, free=True, at=entry.record.at
    )
    met = rolled_stays(here, {f.flat.name for f in lying}, under, floor)
    return least_height(lying, floor, others, side, met)
