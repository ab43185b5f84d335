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
from seqviz.assembly.heights import least_height, lying_floor
from seqviz.assembly.pairing import pairs_of
from seqviz.assembly.row_pairs import suspicion_of_fit
from seqviz.assembly.site import Site
from seqviz.assembly.structure import PlacedPart
from seqviz.findings import Finding
from seqviz.geometry.pose import Array, Pose, frozen, unit
from seqviz.parts.hand import other_hand
from seqviz.parts.part import Part

__all__ = ["Attempt", "place_entry"]


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
    return Attempt(part=placed)


def _at_its_height(entry: Entry, part: Part, pairs: list[Pair], placing: Placing, site: Site) -> PlacedPart:
    """Return the part where the fit puts it, moved out by the height rule where it is free to."""
    side = frozen(unit(np.sum([p.outward for p in pairs], axis=0)))
    free = freedom(pairs, placing.fit) == "height"
    pose = placing.fit.pose
    if free:
        move = _height(entry, part, pairs, pose, side, site)
        pose = Pose(rotation=pose.rotation, translation=frozen(pose.translation + move * side))
    depth = 1 + max(p.target_part.depth for p in pairs)
    return PlacedPart(
        name=entry.name, part=part, pose=pose, depth=depth, side=side, free=free, at=entry.record.at
    )


def _height(entry: Entry, part: Part, pairs: list[Pair], pose: Pose, side: Array, site: Site) -> float:
    """Return the move along ``side``, mm, by the height rule."""
    own = [pose.points(p.own.centre + p.down * part.thickness_at(p.own) / 2) @ side for p in pairs]
    beneath = [p.spot @ side + p.target_part.part.thickness_at(p.target) / 2 for p in pairs]
    floor = lying_floor(np.array(own), np.array(beneath))
    matched = {name for p in pairs for name in (p.own.column.flats if p.own.column else (p.own.flat,))}
    lying = [f for f in standing_flats(entry.name, part, pose) if f.flat.name in matched]
    lying = lying or list(standing_flats(entry.name, part, pose))
    others = [f for name in sorted(site.lay.beneath[entry.name]) for f in site.flats.get(name, ())]
    return least_height(lying, floor, others, side)
