"""``place``: parts and sub-assemblies in the order written, the way in of each, and the pins that follow."""

from __future__ import annotations

from dataclasses import replace

from seqviz.findings import At
from seqviz.geometry.pose import Array, frozen
from seqviz.records.model import Name
from seqviz.records.steps import Place
from seqviz.sequence.moving import free_way, obstacles, what_closes
from seqviz.sequence.open_holes import close_windows
from seqviz.sequence.pin_steps import put_pins
from seqviz.sequence.replay_types import HeadUnder, NoWay, PlacedTwice
from seqviz.sequence.tables import Fixing, Way
from seqviz.sequence.under_set import note_under_set
from seqviz.sequence.whereabouts import Piece
from seqviz.sequence.work import Done, Work, place_of

__all__ = ["first_moves", "place", "way_vectors"]


def place(work: Work, action: Place) -> Done:
    """Place one after the other; what is there already is left where it is."""
    placed: dict[str, Way | None] = {}
    fixings = work.fixings()
    for name in action.names:
        at = place_of(work.step, name, len(action.names))
        pieces = _pieces(work, name, at)
        for piece in pieces:
            way = _way_in(work, piece, at, fixings) if _is_known(work, piece) else None
            placed |= dict.fromkeys(piece.parts, way)
            work.shop.now.place(piece, work.name, work.number)
            work.there.update(piece.parts)
            if piece.members or _has_something_in_it(work, piece):
                # What is in its holes has come with it.
                fixings = work.fixings()
    close_windows(work.shop, work.number)
    pinned = put_pins(work, tuple(placed), action.pins, action.pins_from)
    return Done(
        placed=tuple(placed), ways=way_vectors(placed), pinned=pinned, first_moves=first_moves(placed)
    )


def way_vectors(ways: dict[str, Way | None]) -> dict[str, Array | None]:
    """Return the last moves OUT as vectors."""
    return {part: None if way is None else frozen(way.out) for part, way in ways.items()}


def first_moves(ways: dict[str, Way | None]) -> dict[str, Array]:
    """Return the first, short moves OUT, mm, of the parts that go in two."""
    return {
        part: frozen([way.length * value for value in way.first])
        for part, way in ways.items()
        if way is not None and way.first is not None
    }


def _pieces(work: Work, name: Name, at: At) -> list[Piece]:
    """Return what ``name`` brings in; note what is there already."""
    shop = work.shop
    parts = [part for part in shop.chooser.parts_named(name.text) if part in shop.assembly.placed]
    pieces = shop.now.to_place(name.text, parts, work.name)
    new = {piece.name for piece in pieces}
    for twice in shop.now.there_already(name.text, parts):
        if twice not in new:
            since = shop.now.since.get(twice, 0)
            shop.troubles.note(PlacedTwice(step=work.number, at=at, part=twice, since=since))
    return pieces


def _has_something_in_it(work: Work, piece: Piece) -> bool:
    stacks_of = work.shop.assembly.stacks_of_part
    return any(True for part in piece.parts for _ in work.shop.in_stacks(stacks_of[part]))


def _is_known(work: Work, piece: Piece) -> bool:
    return any(part not in work.shop.assembly.muted for part in piece.parts)


def _way_in(work: Work, piece: Piece, at: At, fixings: frozenset[Fixing]) -> Way | None:
    """Return a free way OUT of ``piece``; None, and a trouble noted, where there is none."""
    there = obstacles(work, piece, fixings)
    under = _laid_over_heads(work, piece, at, there.fixings)
    if under:
        there = replace(there, fixings=there.fixings - under)
    way = free_way(work, piece, there)
    if under or note_under_set(work, piece, at):
        return way
    if way is None:
        closed = what_closes(work, piece, there)
        work.shop.troubles.note(
            NoWay(
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


def _laid_over_heads(work: Work, piece: Piece, at: At, fixings: frozenset[Fixing]) -> frozenset[Fixing]:
    """Return the set fasteners whose heads or tails parts of ``piece`` are laid over; note them."""
    all_under = frozenset[Fixing]()
    for part in piece.parts:
        under = work.shop.tables.heads_under(part, fixings) if part not in work.shop.assembly.muted else None
        if under:
            stacks = tuple(sorted(fixing.stack for fixing in under))
            work.shop.troubles.note(HeadUnder(step=work.number, at=at, part=part, stacks=stacks))
            all_under |= under
    return all_under
