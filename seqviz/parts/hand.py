"""The other hand of a part."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.part import Flat, Hole, Member, Part

__all__ = ["other_hand"]

_MIRROR = np.array([1.0, -1.0, 1.0])  # y -> -y
_MIRROR_2D = np.array([1.0, -1.0])


def other_hand(part: Part) -> Part:
    """Return the mirror image of ``part``: y -> -y of its frame.

    Frames stay right-handed, so the y of each mirrored frame turns round and every y in its coordinates
    changes its sign; outlines stay anticlockwise. Holes keep their names, their axes keep pointing to the
    outside. The other hand of the other hand is the part again.
    """
    return replace(
        part,
        flats={name: _flat(flat) for name, flat in part.flats.items()},
        pieces=tuple(_piece(piece) for piece in part.pieces),
        holes=tuple(_hole(hole) for hole in part.holes),
        mirrored=not part.mirrored,
        members=tuple(_member(member) for member in part.members),
    )


def _frame(frame: Pose) -> Pose:
    rotation = frame.rotation * _MIRROR[:, None] * _MIRROR
    return Pose(rotation=frozen(rotation), translation=frozen(frame.translation * _MIRROR))


def _ring(ring: Array) -> Array:
    return frozen((ring * _MIRROR_2D)[::-1])


def _flat(flat: Flat) -> Flat:
    openings = tuple(_ring(opening) for opening in flat.openings)
    return replace(flat, frame=_frame(flat.frame), outline=_ring(flat.outline), openings=openings)


def _piece(piece: Prism) -> Prism:
    return Prism(polygon=_ring(piece.polygon), height=piece.height, frame=_frame(piece.frame))


def _hole(hole: Hole) -> Hole:
    return replace(hole, centre=frozen(hole.centre * _MIRROR), axis=frozen(hole.axis * _MIRROR))


def _member(member: Member) -> Member:
    return Member(name=member.name, part=other_hand(member.part), pose=_frame(member.pose))
