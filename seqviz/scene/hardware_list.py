"""What to lay out or to order, as data: fasteners by kind, size and length, washers and nuts with bolts."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from seqviz.assembly.fastening import sunk_in
from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.scene.fasteners import choice_in, fastener_of
from seqviz.sequence.choose import Chooser
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choice_reasons import reasons
from seqviz.trade.choice_words import take_words
from seqviz.trade.fasteners import BOLT, KINDS

__all__ = ["LEAST_SPARE", "NOT_NAMED", "SPARES", "HardwareList", "HardwareRow", "Inside", "hardware_of"]

SPARES = 10.0
"""Percent of each sort that are spares where nobody says else (project choice)."""

LEAST_SPARE = 2
"""So many spares of each sort at least, where any are wanted at all (project choice)."""

FLUSH = "flush head"
"""What is added to ``take`` where the manufactured head lies flush."""

NOT_NAMED = "not named"
"""The kind of a fastener that nobody named."""

_WASHER, _NUT = "washer", "nut"
_ORDER = (*KINDS, _WASHER, _NUT, NOT_NAMED)
_EQUAL = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareRow:
    """One sort.

    Attributes
    ----------
    kind
        ``blind rivet``, ``solid rivet``, ``bolt``, ``washer``, ``nut``, or `NOT_NAMED`.
    name
        What the model calls it; of a washer or nut what its standard calls it, or whose it is.
    diameter
        mm, of the shank.
    take
        ``length 6``, ``length 5/16 in (4-5), flush head``, ``AN3-5``; empty where no length is known or fits.
    length
        mm, where there is one.
    grips
        (least, greatest) that they go into, mm.
    needed, spare
        How many.
    why
        Sentences: why there is no length.
    """

    kind: str
    name: str
    diameter: float
    take: str
    length: float | None
    grips: tuple[float, float]
    needed: int
    spare: int
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Another model that is placed as one piece: its fasteners are counted in its own list.

    ``path`` of its file; ``placed``: the pieces made of it.
    """

    path: str
    placed: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareList:
    """All sorts, in the order of a hardware drawer: rivets, bolts, washers, nuts, the thin ones first.

    Attributes
    ----------
    rows
        One a sort.
    fasteners
        How many rivets and bolts, spares apart.
    unset
        How many of them go into holes that no step fills yet; 0 for some steps only, and without steps.
    again
        How many of them replace one that was drilled out.
    later
        Holes that ``later`` names: nothing is counted for them.
    inside
        Models placed as one piece.
    percent
        Of spares.
    """

    rows: tuple[HardwareRow, ...]
    fasteners: int
    unset: int
    again: int
    later: int
    inside: tuple[Inside, ...]
    percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sort:
    kind: str
    name: str
    diameter: float
    take: str
    length: float | None
    why: str = ""


def hardware_of(build: Build, steps: Collection[int] | None = None, percent: float = SPARES) -> HardwareList:
    """Return what is needed for the whole, or for some ``steps`` by their numbers.

    A hole that is filled again after its fastener was drilled out counts once more. The whole also counts
    the holes that no step fills yet; of a model alone that is all of them.
    """
    filled = list(_filled(build, steps))
    unset, later = ([], 0) if steps is not None else _unset(build)
    counts: Counter[_Sort] = Counter()
    grips: dict[_Sort, list[float]] = {}
    for stack, use in [*filled, *((stack, None) for stack in unset)]:
        for sort, number in _sorts(build, stack, use):
            counts[sort] += number
            grips.setdefault(sort, []).append(stack.clamped)
    rows = [_row(sort, number, grips[sort], percent) for sort, number in counts.items()]
    return HardwareList(
        rows=tuple(sorted(rows, key=_place)),
        fasteners=len(filled) + len(unset),
        unset=len(unset) if build.replay else 0,
        again=len(filled) - len({stack.index for stack, _ in filled}),
        later=later,
        inside=_inside(build),
        percent=percent,
    )


def _filled(build: Build, steps: Collection[int] | None) -> Iterator[tuple[Stack, str | None]]:
    """Yield the stack and the ``use`` of every fastener that a step sets."""
    for state in build.replay.states if build.replay else ():
        if steps is None or state.step.number in steps:
            use = getattr(state.step.action, "use", None)
            for index in state.filled:
                yield build.assembly.stacks[index], use.text if use else None


def _unset(build: Build) -> tuple[list[Stack], int]:
    """Return the joints that are empty at the end, and how many of them ``later`` names."""
    filled = build.replay.filled_at if build.replay else {}
    empty = [stack for stack in build.assembly.stacks if stack.joins and stack.index not in filled]
    later = Chooser(build.model, build.assembly).later()
    wanted = [stack for stack in empty if stack.index not in later]
    return wanted, len(empty) - len(wanted)


def _sorts(build: Build, stack: Stack, use: str | None) -> Iterator[tuple[_Sort, int]]:
    """Yield what goes into one hole, and how many of each."""
    units = build.model.units
    name, choice = use or stack.fastener, choice_in(build.model, stack, use)
    if name is None:
        why = "Nobody said which fastener goes in: give the row a size with a fastener."
        yield _Sort(kind=NOT_NAMED, name="", diameter=stack.diameter, take="", length=None, why=why), 1
        return
    one = fastener_of(build.model, stack, use)
    fits = choice is not None and choice.verdict == "fits"
    take = choice.number if fits and choice and one.kind == BOLT else ""
    take = take or (take_words(choice, units) if fits and choice else "")
    flush = sunk_in(build.model, name, stack.diameter, countersunk=stack.countersunk)
    yield (
        _Sort(
            kind=one.kind,
            name=name,
            diameter=one.diameter,
            # Rivets with flush heads lie in another drawer, whatever the model calls them.
            take=", ".join(words for words in (take, FLUSH if flush else "") if words),
            length=choice.length if choice else None,
            why="" if fits else _why_none(choice, units),
        ),
        1,
    )
    if one.kind == BOLT:
        yield from _with_bolt(choice, name, one.diameter)


def _with_bolt(choice: LengthChoice | None, name: str, diameter: float) -> Iterator[tuple[_Sort, int]]:
    """Yield washers and nut of a bolt; of one that no table lists one of each."""
    whose = f"for {name}"
    washers = Counter(washer.name for washer in choice.washers) if choice else Counter()
    for washer, number in (washers or Counter([""])).items():
        yield _Sort(kind=_WASHER, name=washer or whose, diameter=diameter, take="", length=None), number
    nut = choice.nut.name if choice and choice.nut else whose
    yield _Sort(kind=_NUT, name=nut, diameter=diameter, take="", length=None), 1


def _why_none(choice: LengthChoice | None, units: str) -> str:
    if choice is None:
        return "There is nothing to join, or nobody knows this fastener."
    return reasons(choice, units)[0]


def _row(sort: _Sort, needed: int, grips: list[float], percent: float) -> HardwareRow:
    spare = max(LEAST_SPARE, math.ceil(needed * percent / 100 - _EQUAL)) if percent > 0 else 0
    return HardwareRow(
        kind=sort.kind,
        name=sort.name,
        diameter=sort.diameter,
        take=sort.take,
        length=sort.length,
        grips=(min(grips), max(grips)),
        needed=needed,
        spare=spare,
        why=sort.why,
    )


def _place(row: HardwareRow) -> tuple[int, float, str, float, str]:
    return _ORDER.index(row.kind), row.diameter, row.name, row.length or row.grips[0], row.take


def _inside(build: Build) -> tuple[Inside, ...]:
    """Return the models placed as one piece, each with its pieces."""
    pieces: dict[str, list[str]] = {}
    for entry, used in build.model.uses.items():
        path = used.sequence_path or used.path
        at = build.model.placed[entry].at
        placed = [name for name, part in build.assembly.placed.items() if part.at == at]
        pieces.setdefault(path, []).extend(placed)
    return tuple(Inside(path=path, placed=tuple(names)) for path, names in pieces.items() if names)
