"""Who lies over whom, as said: targets, ``over``, ``under``; and the order in which parts can be placed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from seqviz.assembly.entries import Entry, own_placed

__all__ = ["LayUp", "Statement", "lay_up"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Statement:
    """``upper`` lies over ``lower``, said in the entry of ``by``; a target is under without being said."""

    upper: str
    lower: str
    by: str
    target: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LayUp:
    """The lay-up as said.

    Attributes
    ----------
    order
        Names in an order in which each comes after its targets and after all that it lies over.
    beneath
        For each part what it lies over: its targets, and all that ``over`` and ``under`` say, through any
        number of statements. What a target lies on is not in it: that is on the target's other side.
    below
        For each part all that it hangs on or lies over, through targets too.
    circular
        Parts whose matches go round in a circle: they cannot be placed.
    left_out
        Statements left out of the heights because they contradict others.
    """

    order: tuple[str, ...]
    beneath: dict[str, frozenset[str]]
    below: dict[str, frozenset[str]]
    circular: tuple[str, ...]
    left_out: tuple[Statement, ...]


def lay_up(known: Mapping[str, Entry], targets: Mapping[str, Iterable[str]], base: str) -> LayUp:
    """Gather what the entries say; ``targets`` holds for each part the parts that it is matched to.

    A circle loses the ``over`` and ``under`` of its alphabetically last part.
    """
    statements = _statements(dict(known), targets, base)
    left_out: list[Statement] = []
    circular: set[str] = set()
    names = [base, *sorted(known)]
    while circle := _circle(names, statements, circular):
        last = _last_with_words(circle, statements)
        if last is None:
            circular |= set(circle)
            continue
        gone = {s for s in statements if s.by == last and not s.target and {s.upper, s.lower} <= set(circle)}
        left_out += sorted(gone)
        statements -= gone
    order = _order([n for n in names if n not in circular], statements)
    return LayUp(
        order=order,
        beneath=_beneath(order, statements),
        below=_closure(order, statements),
        circular=tuple(sorted(circular)),
        left_out=tuple(left_out),
    )


def _statements(known: dict[str, Entry], targets: Mapping[str, Iterable[str]], base: str) -> set[Statement]:
    found: set[Statement] = set()
    for name, entry in known.items():
        found |= {Statement(upper=name, lower=t, by=name, target=True) for t in targets.get(name, ())}
        for word in entry.record.over:
            for other in own_placed(word.text, entry, known, base):
                found.add(Statement(upper=name, lower=other, by=name, target=False))
        for word in entry.record.under:
            for other in own_placed(word.text, entry, known, base):
                found.add(Statement(upper=other, lower=name, by=name, target=False))
    return {s for s in found if s.upper != s.lower}


def _circle(names: list[str], statements: set[Statement], without: set[str]) -> list[str]:
    """Return the parts of one circle of statements, or nothing."""
    left = {name for name in names if name not in without}
    under: dict[str, list[str]] = {name: [] for name in left}
    for s in sorted(statements):
        if s.upper in left and s.lower in left:
            under[s.upper].append(s.lower)
    while loose := {name for name in left if not left & set(under[name])}:
        left -= loose
    if not left:
        return []
    path = [min(left)]
    while True:
        following = next(name for name in under[path[-1]] if name in left)
        if following in path:
            return path[path.index(following) :]
        path.append(following)


def _last_with_words(circle: list[str], statements: set[Statement]) -> str | None:
    inside = set(circle)
    said = {s.by for s in statements if not s.target and {s.upper, s.lower} <= inside}
    return max(said, default=None)


def _order(names: list[str], statements: set[Statement]) -> tuple[str, ...]:
    """Return ``names`` with each after all that it lies over; ties in the order given."""
    waits = {name: {s.lower for s in statements if s.upper == name and s.lower in names} for name in names}
    order: list[str] = []
    while waits:
        ready = [name for name, needs in waits.items() if not needs & waits.keys()]
        order += ready
        for name in ready:
            del waits[name]
    return tuple(order)


def _beneath(order: tuple[str, ...], statements: set[Statement]) -> dict[str, frozenset[str]]:
    said = _closure(order, {s for s in statements if not s.target})
    found = {name: set(said[name]) for name in order}
    for s in statements:
        if s.target and s.upper in found and s.lower in found:
            found[s.upper].add(s.lower)
    return {name: frozenset(under) for name, under in found.items()}


def _closure(order: tuple[str, ...], statements: set[Statement]) -> dict[str, frozenset[str]]:
    below: dict[str, frozenset[str]] = {}
    for name in order:
        direct = {s.lower for s in statements if s.upper == name and s.lower in below}
        below[name] = frozenset(direct.union(*(below[d] for d in direct)))
    return below
