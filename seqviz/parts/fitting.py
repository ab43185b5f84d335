"""Fittings: a few plain pieces that are one part, each with the flats of its own shape."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import Array, Pose, any_across, cross, frozen
from seqviz.geometry.prism import Piece, Prism, Prismoid
from seqviz.geometry.separation import GUARD, TOLERANCE, close_pairs, depths
from seqviz.geometry.solids import Solids, joined, solids_of
from seqviz.parts.body import Body
from seqviz.parts.mistakes import bad_value, duplicate_name, numbers_text
from seqviz.parts.part import Flat, Hole, Member, Part
from seqviz.parts.tee import under_the_stem
from seqviz.parts.tube import rolled_up
from seqviz.records.model import FittingPiece, PieceShape, TeeShape, TubeShape

__all__ = ["PartOf", "drilled_pieces", "fitting_body", "moved_flat", "standing"]

PartOf = Callable[[str, PieceShape, At], Part | Finding]
"""Makes a part without holes from its name, shape and place in the file."""

_ALONE = ("face", "wall")
"""The flat of a piece with one: it goes by the name of the piece."""


def fitting_body(name: str, pieces: tuple[FittingPiece, ...], at: At, part_of: PartOf) -> Body | Finding:
    """Return the body of a fitting, or the first mistake in its description.

    Each piece has its own frame, flats and pieces, carried to where it stands in the fitting. Pieces may
    touch or overlap: together they are one part.
    """
    if not pieces:
        return bad_value(
            at,
            f"{name} has no pieces.",
            "A fitting is put together of plain pieces: plates, bars, blocks, rods.",
            "Write at least one piece.",
        )
    members: list[Member] = []
    for piece in pieces:
        part = part_of(f"{name} {piece.name}", piece.shape, piece.at)
        if isinstance(part, Finding):
            return part
        flats = {_called(piece.name, flat): flat for flat in part.flats}
        taken = next((m for m in members if m.flats.keys() & flats.keys()), None)
        if taken is not None:
            return _same_flat(piece, taken, flats)
        members.append(Member(name=piece.name, part=part, pose=piece.frame, flats=flats))
    return Body(
        flats={flat.name: flat for member in members for flat in _flats(member)},
        pieces=tuple(standing(piece, m.pose) for m in members for piece in m.part.pieces),
        piece_flats=tuple(_owner(m.name, flat) for m in members for flat in m.part.piece_flats),
        members=tuple(members),
    )


def drilled_pieces(part: Part, pieces: tuple[FittingPiece, ...]) -> tuple[Part, list[Finding]]:
    """Return a fitting whose rows were drilled, with each hole in its piece, and what was noticed.

    Holes of a tube are taken round it; holes that would run into another piece are told.
    """
    flats: dict[str, Flat] = {}
    holes = list(part.holes)
    members: list[Member] = []
    findings: list[Finding] = []
    for member, piece in zip(part.members, pieces, strict=True):
        own = [k for k, hole in enumerate(holes) if hole.flat in member.flats]
        there, back = member.pose.inverse(), member.pose
        drilled = replace(
            member.part, holes=tuple(_moved(holes[k], there, member.flats[holes[k].flat]) for k in own)
        )
        if isinstance(piece.shape, TeeShape):
            findings += under_the_stem(piece.shape, list(drilled.holes))
        if isinstance(piece.shape, TubeShape):
            drilled = rolled_up(drilled, piece.shape)
        for k, hole in zip(own, drilled.holes, strict=True):
            holes[k] = _moved(hole, back, _called(member.name, hole.flat))
        called = {_called(member.name, flat): flat for flat in drilled.flats}
        members.append(replace(member, part=drilled, flats=called))
        flats |= {flat.name: flat for flat in _flats(members[-1])}
    made = replace(part, flats=flats, holes=tuple(holes), members=tuple(members))
    return made, findings + _into_others(made)


def standing(piece: Piece, pose: Pose) -> Piece:
    """Return a convex piece carried by ``pose``."""
    if isinstance(piece, Prismoid):
        return Prismoid(bottom=frozen(pose.points(piece.bottom)), top=frozen(pose.points(piece.top)))
    return replace(piece, frame=pose.after(piece.frame))


def moved_flat(flat: Flat, pose: Pose, name: str) -> Flat:
    """Return a flat carried by ``pose``, called ``name``."""
    return replace(flat, name=name, frame=pose.after(flat.frame))


def _called(piece: str, flat: str) -> str:
    """Return what a flat of a piece is called: ``foot`` of a plate, ``web top`` of a block."""
    alone = next((word for word in _ALONE if flat.startswith(word)), None)
    return f"{piece} {flat}" if alone is None else f"{piece}{flat.removeprefix(alone)}"


def _owner(piece: str, flat: str | None) -> str | None:
    """Return the flat to which a convex piece belongs; a bend stays one, a rod goes by its own name."""
    if flat is None:
        return None
    return piece if flat == "rod" else _called(piece, flat)


def _flats(member: Member) -> list[Flat]:
    return [moved_flat(member.part.flats[own], member.pose, name) for name, own in member.flats.items()]


def _moved(hole: Hole, pose: Pose, flat: str) -> Hole:
    centre, axis = frozen(pose.points(hole.centre)), frozen(pose.vectors(hole.axis))
    return replace(hole, centre=centre, axis=axis, flat=flat)


def _into_others(part: Part) -> list[Finding]:
    """Return a finding for each row and each piece into which it would be drilled besides its own."""
    solids = [solids_of([standing(piece, m.pose) for piece in m.part.pieces]) for m in part.members]
    every: Solids = joined(solids)
    owner = np.repeat(np.arange(len(solids)), [len(each) for each in solids])
    of_flat = {flat: k for k, member in enumerate(part.members) for flat in member.flats}
    drills = solids_of([_drill(hole, part.flats[hole.flat].thickness) for hole in part.holes])
    pairs = close_pairs(drills, every)
    pairs = pairs[depths(drills, every, pairs) > TOLERANCE + GUARD]
    found: dict[tuple[str, int], dict[int, Hole]] = {}
    for one, piece in pairs.tolist():
        hole, other = part.holes[one], int(owner[piece])
        if other != of_flat[hole.flat] and not _goes_on(hole, part, part.members[other]):
            found.setdefault((hole.row, other), {})[hole.number] = hole
    return [
        bad_value(
            next(iter(row.values())).at,
            f"Row {name}: {numbers_text(row)} would be drilled into {part.members[other].name} as well.",
            "A hole of a fitting goes through its own piece only.",
            f"Move it, or write another row at that place on {part.members[other].name} to go on through it.",
        )
        for (name, other), row in found.items()
    ]


def _drill(hole: Hole, thickness: float) -> Prism:
    """Return the room of a hole, and a little more at both ends: what lies against its face is met too."""
    more = 2 * TOLERANCE
    across = any_across(hole.axis)
    turns = np.arange(8) * (np.pi / 4)
    ring: Array = np.column_stack([np.cos(turns), np.sin(turns)]) * (hole.diameter / 2)
    frame = Pose(
        rotation=frozen(np.column_stack([across, cross(hole.axis, across), hole.axis])),
        translation=frozen(hole.centre - hole.axis * (thickness / 2 + more)),
    )
    return Prism(polygon=frozen(ring), height=thickness + 2 * more, frame=frame)


def _goes_on(hole: Hole, part: Part, other: Member) -> bool:
    """Say whether a hole of the other piece lies in line with ``hole``."""
    for one in part.holes:
        if one.flat in other.flats and abs(float(one.axis @ hole.axis)) > 1 - 1e-4:
            off = one.centre - hole.centre
            if np.linalg.norm(off - hole.axis * (off @ hole.axis)) < hole.diameter / 2:
                return True
    return False


def _same_flat(piece: FittingPiece, taken: Member, flats: dict[str, str]) -> Finding:
    name = next(iter(taken.flats.keys() & flats.keys()))
    return duplicate_name(
        piece.at,
        f"The pieces {taken.name} and {piece.name} both have a flat called {name}.",
        "A flat is called by its piece and its own name.",
        "Call one of the pieces something else.",
    )
