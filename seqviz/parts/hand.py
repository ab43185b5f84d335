"""The other hand of a part."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Piece, Prism, Prismoid
from seqviz.parts.part import Flat, Hole, Member, Part, Worked
from seqviz.parts.surface import Mesh

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
        surface=_surface(part.surface) if part.surface else None,
        roll=part.roll.mirrored if part.roll else None,
        facets=tuple(_flat(facet) for facet in part.facets),
        worked=_worked(part.worked) if part.worked else None,
    )


def _worked(worked: Worked) -> Worked:
    return Worked(
        straight=other_hand(worked.straight), blank=worked.blank.other_hand, spine=worked.spine.other_hand
    )


def _frame(frame: Pose) -> Pose:
    rotation = frame.rotation * _MIRROR[:, None] * _MIRROR
    return Pose(rotation=frozen(rotation), translation=frozen(frame.translation * _MIRROR))


def _ring(ring: Array) -> Array:
    return frozen((ring * _MIRROR_2D)[::-1])


def _flat(flat: Flat) -> Flat:
    openings = tuple(_ring(opening) for opening in flat.openings)
    drawn = None if flat.drawn is None else _ring(flat.drawn)
    frame, outline = _frame(flat.frame), _ring(flat.outline)
    return replace(flat, frame=frame, outline=outline, openings=openings, drawn=drawn)


def _piece(piece: Piece) -> Piece:
    if isinstance(piece, Prismoid):
        return Prismoid(bottom=frozen(piece.bottom * _MIRROR), top=frozen(piece.top * _MIRROR))
    return Prism(polygon=_ring(piece.polygon), height=piece.height, frame=_frame(piece.frame))


def _hole(hole: Hole) -> Hole:
    return replace(hole, centre=frozen(hole.centre * _MIRROR), axis=frozen(hole.axis * _MIRROR))


def _member(member: Member) -> Member:
    return replace(member, part=other_hand(member.part), pose=_frame(member.pose))


def _surface(surface: Mesh) -> Mesh:
    return Mesh(vertices=frozen(surface.vertices * _MIRROR), faces=surface.faces[:, ::-1])
