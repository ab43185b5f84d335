"""Findings made while placing: the words for each mistake, and where it stands."""

from __future__ import annotations

import numpy as np

from seqviz.assembly.directions import direction
from seqviz.assembly.entries import Entry
from seqviz.assembly.fitting import Pair, Placing
from seqviz.assembly.row_pairs import Suspicion
from seqviz.findings import At, Finding, Related
from seqviz.geometry.pose import Array
from seqviz.parts.part import ANOTHER_MODEL, Part
from seqviz.records.model import HoleChoice, Match, Model, Name
from seqviz.units import length_text

__all__ = [
    "bad_fit",
    "bent_row",
    "circular",
    "faces_elsewhere",
    "loose",
    "no_direction",
    "no_own_hole",
    "no_such_hole",
    "not_square",
    "other_face",
    "say_lay_up",
    "short_row",
]


def _holes(entry: Entry, pairs: list[Pair]) -> tuple[str, ...]:
    return tuple(f"{entry.name}.{p.own.name}" for p in pairs)


def loose(entry: Entry, pairs: list[Pair]) -> Finding:
    """Its holes do not hold the part in one place."""
    return Finding(
        kind="loose-part",
        severity="error",
        at=entry.record.at,
        message=f"{entry.name} is loose: the matched holes let it turn or slide.",
        why="One hole lets a part turn about it. Two holes apart, or holes on two flats, hold it.",
        fix="Match a second hole that is well away from the first.",
        parts=(entry.name,),
        holes=_holes(entry, pairs),
    )


def other_face(entry: Entry, pairs: list[Pair]) -> Finding:
    """The holes fit with the other face down only."""
    face = f"its {entry.record.face}" if entry.record.face else "its usual face"
    return Finding(
        kind="faces-wrong-way",
        severity="error",
        at=entry.record.at,
        message=f"{entry.name} fits the other way up, or is the other hand: not with {face} down.",
        why="Three or more holes out of one line tell which face lies down. They tell the other one.",
        fix="Say which face lies down (`face: outside`, `face: inside`), or on which face of the target "
        "(`side: inside`, `side: lower`). Or it is the other hand: `both sides: other hand`.",
        parts=(entry.name,),
        holes=_holes(entry, pairs),
    )


def bad_fit(
    entry: Entry, fit: tuple[Pair, float], placing: Placing, suspect: Suspicion | None, units: str
) -> Finding:
    """No pose brings all the matched holes together; ``suspect``: the number that looks wrong."""
    worst, off = fit
    own, target = f"{entry.name}.{worst.own.name}", f"{worst.target_part.name}.{worst.target.name}"
    tilted = placing.off == 0.0
    message = (
        f"The holes of {entry.name} do not fit: some lean by {placing.tilt:.1f} degrees."
        if tilted
        else f"The holes of {entry.name} do not fit: {own} misses {target} by {length_text(off, units)}."
    )
    return Finding(
        kind="holes-off",
        severity="error",
        at=entry.record.match_at,
        message=f"{message} {suspect.says}" if suspect else message,
        why="seqviz shares the error among all matched holes, so each is off by less than one of them alone "
        "would be. Still no fastener passes.",
        fix=f"{suspect.asks + ' ' if suspect else ''}Look for a wrong hole number or a wrong measure "
        "in one of the two rows.",
        parts=(entry.name, worst.target_part.name),
        holes=(own, target),
        related=(
            Related(at=worst.own.at, message=f"row {worst.own.row}"),
            Related(at=worst.target.at, message=f"row {worst.target.row} of {worst.target_part.name}"),
        ),
        figure=None if tilted else off,
    )


def not_square(entry: Entry) -> Finding:
    """``x along`` and ``y along`` do not make a corner."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=entry.record.pose.at if entry.record.pose else entry.record.at,
        message=f"`x along` and `y along` of {entry.name} do not make a square corner.",
        why="The two words must name directions at right angles, such as forward and left.",
        fix="Write for instance `x along: forward, y along: left`.",
        parts=(entry.name,),
    )


_FACING = {
    "standing leg": (
        "The standing leg of",
        "stands",
        "of its rivets",
        "a leg, flange or foot that lies down",
    ),
    "web faces": ("The web of", "faces", "", "one web, as a channel, a zed or a frame has it"),
    "flange faces": ("A flange of", "reaches", "", "a flange that does not lie down"),
}


def no_direction(entry: Entry, word: str, said: Name, *, turned: bool) -> Finding:
    """A direction that says nothing here; ``turned``: the part has what it speaks of."""
    needs = _FACING[word][3]
    return Finding(
        kind="bad-value",
        severity="error",
        at=said.at,
        message=f"`{word}: {said.text}` says nothing about {entry.name}.",
        why="Inboard and outboard need a `mirror line` and a part off it."
        if turned
        else f"`{word}` is for a part with {needs}.",
        fix="Leave the words out, or give the model a `mirror line`." if turned else "Leave the words out.",
        parts=(entry.name,),
    )


def faces_elsewhere(entry: Entry, word: str, said: Name, way: Array, model: Model) -> Finding:
    """A leg, web or flange faces another way than said."""
    names = ("forward", "aft", "left", "right", "up", "down")
    vectors = [direction(name, model, np.zeros(3)) for name in names]
    cosines = [float(way @ v) if v is not None else -1.0 for v in vectors]
    really = names[int(np.argmax(cosines))]
    what, does, where, _ = _FACING[word]
    fixed = entry.record.pose is not None
    where = "" if fixed else where
    turned = "correct `x along` and `y along`" if fixed else "match the holes the other way round"
    return Finding(
        kind="faces-wrong-way",
        severity="error",
        at=entry.record.at,
        message=f"{what} {entry.name} {does} {really}{where and f' {where}'}, not {said.text}.",
        why="`at`, `x along` and `y along` put it there." if fixed else "The matched holes put it there.",
        fix=f"Write `{word}: {really}`, {turned}, or use the other hand.",
        parts=(entry.name,),
        related=(Related(at=said.at, message=f"said here: {said.text}"),),
    )


def no_such_hole(choice: HoleChoice, row: str) -> Finding:
    """A hole number that the row does not have."""
    return Finding(
        kind="unknown-name",
        severity="error",
        at=choice.at,
        message=f"There is no hole {choice.first} in {row}.",
        why="Holes are numbered from 1; places without a hole keep their number.",
        fix="Look up the row's count.",
    )


def set_inside(at: At, hole: str, file: str) -> Finding:
    """A hole within another model in which its sequence has set a fastener."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=at,
        message=f"{hole} is no longer open: {file} sets a fastener in it.",
        why="Another model as one piece comes as its sequence leaves it: what is set there stays. "
        "Only its open holes take a fastener here.",
        fix="Name a hole that is open, or leave this one open in that sequence until the piece is placed.",
        parts=(hole.partition(".")[0],),
        holes=(hole,),
    )


def no_own_hole(entry: Entry, match: Match, part: Part) -> Finding | None:
    """A hole to match that the part does not have; None where the row itself is not there."""
    file = part.filled.get(f"{match.row}.{match.number}")
    if file is not None:
        return set_inside(match.at, f"{entry.name}.{match.row}.{match.number}", file)
    rows = {h.row for h in part.holes}
    if match.row not in rows:
        return _without_place(entry, match, part) if part.shape == ANOTHER_MODEL else None
    return Finding(
        kind="unknown-name",
        severity="error",
        at=match.at,
        message=f"{part.name} has no hole {match.row}.{match.number}.",
        why="Holes are numbered from 1; places without a hole keep their number.",
        fix="Look up the row's count.",
    )


def _without_place(entry: Entry, match: Match, part: Part) -> Finding:
    """A hole of another model that stands nowhere, because its part is a sketch or hangs on rows alone."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=match.at,
        message=f"{entry.name}.{match.row}.{match.number} has no place in {part.name} yet.",
        why="Another model as one piece hangs on holes of parts that have dimensions and a place in it.",
        fix="Give the part its shape and its place in that model, or match other holes.",
        parts=(entry.name,),
    )


def all_sketches(entry: Entry, part: Part) -> Finding:
    """Another model in which nothing has dimensions, placed at a point."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=entry.record.at,
        message=f"{entry.name} cannot stand at a point: nothing in {part.name} has dimensions yet.",
        why="Only what has dimensions has a place.",
        fix="Give the parts of that model their shapes, or leave the entry out for now.",
        parts=(entry.name,),
    )


def short_row(choice: HoleChoice) -> Finding:
    """A row of one hole gives no direction."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=choice.at,
        message=f"{choice.row} has one hole only: it gives no direction to lay a piece along.",
        why="`along` takes length and direction from the first and the last hole.",
        fix="Use `match` with a part of its own.",
    )


def bent_row(choice: HoleChoice) -> Finding:
    """A row that is no straight line."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=choice.at,
        message=f"The holes of {choice.row} are not in a straight line.",
        why="`along` lays a straight piece of stock.",
        fix="Choose the straight run, for instance `along: PART.ROW.1-8`.",
    )


def circular(entry: Entry, others: tuple[str, ...]) -> Finding:
    """Matches that go round in a circle."""
    return Finding(
        kind="bad-value",
        severity="error",
        at=entry.record.match_at,
        message=f"{entry.name} is matched to parts that are themselves matched to it.",
        why=f"These parts wait for each other: {', '.join(others)}. None of them leads back to the base.",
        fix="Match one of them to the base, or to a part that stands without it.",
        parts=(entry.name,),
    )


def say_lay_up(entry: Entry, other: str) -> Finding:
    """Two parts that overlap, and nobody said which is over."""
    return Finding(
        kind="say-over-or-under",
        severity="error",
        at=entry.record.at,
        message=f"{entry.name} and {other} overlap: which of them lies over the other?",
        why="The order in the file means nothing. The lay-up is said by `over` and `under`.",
        fix=f"Write `over: {other}` or `under: {other}` here."
        + ("" if entry.record.side else " If it lies on the other face of its target, say `side: inside`."),
        parts=(entry.name, other),
    )
