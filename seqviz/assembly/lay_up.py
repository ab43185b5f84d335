"""Who lies over whom, as said: targets, ``over``, ``under``; and the order in which parts can be placed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from seqviz.assembly.entries import Entry, own_placed

__all__ = ["LayUp", "Statement", "Woven", "lay_up"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Statement:
    """``upper`` lies over ``lower``, said in the entry of ``by``; a target is under without being said."""

    upper: str
    lower: str
    by: str
    target: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Woven:
    """Parts of which each is said to lie over the next, and the last over the first.

    ``left_out``: the statements that the heights take no notice of, so that there are heights at all.
    """

    circle: tuple[str, ...]
    left_out: tuple[Statement, ...]


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
    woven
        Circles of statements, in the order in which they were met.
    """

    order: tuple[str, ...]
    beneath: dict[str, frozenset[str]]
    below: dict[str, frozenset[str]]
    circular: tuple[str, ...]
    woven: tuple[Woven, ...]

    @property
    def left_out(self) -> tuple[Statement, ...]:
        """Statements left out of the heights because they contradict others."""
        return tuple(statement for one in self.woven for statement in one.left_out)


def lay_up(known: Mapping[str, Entry], targets: Mapping[str, Iterable[str]], base: str) -> LayUp:
    """Gather what the entries say; ``targets`` holds for each part the parts that it is matched to.

    A circle loses the ``over`` and ``under`` of its alphabetically last part.
    """
    statements = _statements(dict(known), targets, base)
    woven: list[Woven] = []
    circular: set[str] = set()
    names = [base, *sorted(known)]
    while circle := _circle(names, statements, circular):
        last = _last_with_words(circle, statements)
        if last is None:
            circular |= set(circle)
            continue
        gone = {s for s in statements if s.by == last and not s.target and {s.upper, s.lower} <= set(circle)}
        woven.append(Woven(circle=tuple(circle), left_out=tuple(sorted(gone))))
        statements -= gone
    under = _by_upper(statements, [name for name in names if name not in circular])
    order = _peeled(under)
    return LayUp(
        order=tuple(order),
        beneath=_beneath(order, statements),
        below=_closure(order, under),
        circular=tuple(sorted(circular)),
        woven=tuple(woven),
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
    under = _by_upper(statements, {name for name in names if name not in without})
    left = set(under).difference(_peeled(under))
    if not left:
        return []
    path = [min(left)]
    while True:
        following = next(name for name in under[path[-1]] if name in left)
        if following in path:
            return path[path.index(following) :]
        path.append(following)


def _by_upper(statements: Iterable[Statement], among: Iterable[str]) -> dict[str, list[str]]:
    """Return for each part ``among`` those of them that lie directly under it, sorted."""
    under: dict[str, list[str]] = {name: [] for name in among}
    for s in sorted(statements):
        if s.upper in under and s.lower in under:
            under[s.upper].append(s.lower)
    return under


def _peeled(under: Mapping[str, Iterable[str]]) -> list[str]:
    """Return layer by layer the parts all of whose parts beneath were returned before."""
    waits = {name: set(lower) for name, lower in under.items()}
    over: dict[str, list[str]] = {name: [] for name in under}
    for name, lower in waits.items():
        for other in lower:
            over[other].append(name)
    rank = {name: k for k, name in enumerate(under)}
    order: list[str] = []
    ready = [name for name, lower in waits.items() if not lower]
    while ready:
        order += ready
        freed: set[str] = set()
        for name in ready:
            for other in over[name]:
                waits[other].discard(name)
                if not waits[other]:
                    freed.add(other)
        ready = sorted(freed, key=rank.__getitem__)
    return order


def _last_with_words(circle: list[str], statements: set[Statement]) -> str | None:
    inside = set(circle)
    said = {s.by for s in statements if not s.target and {s.upper, s.lower} <= inside}
    return max(said, default=None)


def _beneath(order: list[str], statements: set[Statement]) -> dict[str, frozenset[str]]:
    said = _closure(order, _by_upper({s for s in statements if not s.target}, order))
    found = {name: set(said[name]) for name in order}
    for s in statements:
        if s.target and s.upper in found and s.lower in found:
            found[s.upper].add(s.lower)
    return {name: frozenset(under) for name, under in found.items()}


def _closure(order: list[str], under: Mapping[str, Iterable[str]]) -> dict[str, frozenset[str]]:
    below: dict[str, frozenset[str]] = {}
    for name in order:
        below[name] = frozenset(under[name]).union(*(below[lower] for lower in under[name]))
    return below
