"""``take off``: parts and sub-assemblies that come off again, and what holds them back."""

from __future__ import annotations

from seqviz.findings import At
from seqviz.records.steps import TakeOff
from seqviz.sequence.held import Held
from seqviz.sequence.moving import free_way, obstacles, what_closes
from seqviz.sequence.place_step import first_moves, way_vectors
from seqviz.sequence.replay_types import HeadUnder, NoWayOut, OffWhenSet
from seqviz.sequence.tables import Way
from seqviz.sequence.whereabouts import Piece
from seqviz.sequence.work import Done, Work, place_of

__all__ = ["take_off"]


def take_off(work: Work, action: TakeOff) -> Done:
    """Take off one after the other; what is not there is passed over."""
    gone: dict[str, Way | None] = {}
    unpinned: list[int] = []
    for name in action.names:
        at = place_of(work.step, name, len(action.names))
        parts = work.shop.chooser.parts_named(name.text)
        for piece in work.shop.now.to_take_off(name.text, parts, work.name):
            known = any(part not in work.shop.assembly.muted for part in piece.parts)
            gone |= dict.fromkeys(piece.parts, _way_out(work, piece, at) if known else None)
            unpinned += _pulled(work, piece)
            work.shop.now.take_off(piece)
            work.there.difference_update(piece.parts)
    return Done(
        taken_off=tuple(gone),
        ways=way_vectors(gone),
        unpinned=tuple(unpinned),
        first_moves=first_moves(gone),
    )


def _way_out(work: Work, piece: Piece, at: At) -> Way | None:
    """Return a free way OUT of ``piece``; None, and at most one trouble noted, where something holds it."""
    held = [held for held in _held(work, piece) if not _spoiled(work, held)]
    rivets = sorted(one.fixing.stack for one in held if one.fixing.kind == "fastener")
    fresh = [stack for stack in rivets if stack not in work.shop.taken_off_when_set]
    if rivets:
        work.shop.taken_off_when_set.update(rivets)
        if fresh:
            work.shop.troubles.note(
                OffWhenSet(
                    step=work.number,
                    at=at,
                    part=piece.name,
                    stacks=tuple(fresh),
                    set_at=tuple(work.shop.filled[stack].step for stack in fresh),
                    members=piece.members,
                )
            )
        return None
    # What goes with the piece is not in its way, nor heads on which it was laid: that was told then.
    under = {k for laid in work.shop.troubles.of(HeadUnder) if laid.part in piece.parts for k in laid.stacks}
    staying = frozenset(
        fixing
        for fixing in work.fixings()
        if (fixing.kind == "pin" or fixing.stack not in under)
        and not _goes_along(work, fixing.stack, fixing.kind == "pin", piece)
    )
    there = obstacles(work, piece, staying)
    way = free_way(work, piece, there)
    if way is None:
        closed = what_closes(work, piece, there)
        work.shop.troubles.note(
            NoWayOut(
                step=work.number,
                at=at,
                part=piece.name,
                cause=closed.cause,
                blockers=closed.blockers,
                members=piece.members,
                way=closed.way,
            )
        )
    return way


def _held(work: Work, piece: Piece) -> list[Held]:
    """Return the pins and fasteners that hold ``piece`` to what stays."""
    stacks_of, moving = work.shop.assembly.stacks_of_part, frozenset(piece.parts)
    own = dict.fromkeys(k for part in piece.parts for k in stacks_of[part])
    return [
        held
        for held in work.shop.in_stacks(own)
        if work.has(held) and held.parts & moving and (held.parts - moving) & work.there
    ]


def _spoiled(work: Work, held: Held) -> bool:
    return work.shop.is_muted(work.shop.assembly.stacks[held.fixing.stack])


def _goes_along(work: Work, stack: int, pin: bool, piece: Piece) -> bool:
    held = (work.shop.pins if pin else work.shop.filled)[stack]
    return bool(held.parts) and not (held.parts - frozenset(piece.parts)) & work.there


def _pulled(work: Work, piece: Piece) -> list[int]:
    """Take the pins out that held ``piece`` to what stays, and those in a part that goes alone."""
    moving = frozenset(piece.parts)
    held = [one for one in _held(work, piece) if one.fixing.kind == "pin"]
    pulled = {one.fixing.stack for one in held}
    if not piece.members:
        pulled |= {stack for stack, one in work.shop.pins.items() if one.parts == moving}
    for stack in pulled:
        work.shop.pins.take(stack)
    return sorted(pulled)
