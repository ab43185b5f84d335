"""Slips of a builder in a sequence file: steps swapped, dropped, done too early, holes filled that wait."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from tests.mutations.read import Entry, dumped, listed

__all__ = ["KINDS", "Mutation", "all_lists", "mutations"]


@dataclass(frozen=True, eq=False)
class Mutation:
    """``file``: as it is then; ``moved``: entries that are new or elsewhere; ``was``: id -> clean entry."""

    kind: str
    what: str
    file: Entry
    moved: list[Entry]
    was: dict[int, Entry] = field(default_factory=dict)


def mutations(clean: Entry, count: int, seed: int) -> Iterator[Mutation]:
    """Yield ``count`` different ones, of all kinds in turn as long as there are new ones."""
    dice, seen = random.Random(seed), {dumped(clean)}
    kinds = list(KINDS)
    while count and kinds:
        for kind in tuple(kinds):
            made = next((m for _ in range(50) if (m := _one(clean, kind, dice)) and _is_new(m, seen)), None)
            if made is None:
                kinds.remove(kind)
            elif count:
                count -= 1
                yield made


def all_lists(file: Entry) -> list[list[Entry]]:
    """Return the list of steps and those of all sub-assemblies."""
    return [file["steps"], *(entry["steps"] for entry in file["steps"] if "apart" in entry)]


def _is_new(mutation: Mutation, seen: set[str]) -> bool:
    text = dumped(mutation.file)
    new = text not in seen
    seen.add(text)
    return new


def _one(clean: Entry, kind: str, dice: random.Random) -> Mutation | None:
    file = copy.deepcopy(clean)
    was = {
        id(new): old
        for fresh, known in zip(all_lists(file), all_lists(clean), strict=True)
        for new, old in zip(fresh, known, strict=True)
    }
    lists = all_lists(file)
    steps = dice.choices(lists, [len(one) for one in lists])[0]
    made = KINDS[kind](steps, dice)
    return Mutation(kind, made[0], file, made[1], was) if made else None


Made = tuple[str, list[Entry]] | None


def _swap(steps: list[Entry], dice: random.Random) -> Made:
    if len(steps) < 2:
        return None
    i, j = sorted(dice.sample(range(len(steps)), 2))
    steps[i], steps[j] = steps[j], steps[i]
    return f"{_said(steps[i])} <-> {_said(steps[j])}", [steps[i], steps[j]]


def _drop(steps: list[Entry], dice: random.Random) -> Made:
    if len(steps) < 2:
        return None
    gone = steps.pop(dice.randrange(len(steps)))
    return f"without {_said(gone)}", [gone]


def _earlier(steps: list[Entry], dice: random.Random) -> Made:
    found = [i for i, entry in enumerate(steps) if i and "place" in entry]
    if not found:
        return None
    at = dice.choice(found)
    return _moved(steps, at, range(at), dice)


def _forget(steps: list[Entry], dice: random.Random) -> Made:
    found = [i for i, entry in enumerate(steps) if "turn over" in entry]
    if not found:
        return None
    at = dice.choice(found)
    if dice.random() < 0.5:
        gone = steps.pop(at)
        return f"without {_said(gone)}", [gone]
    return _moved(steps, at, range(len(steps)), dice)


def _fill(steps: list[Entry], dice: random.Random) -> Made:
    found = [i for i, entry in enumerate(steps) if "leave open" in entry]
    if not found:
        return None
    at = dice.choice(found)
    row = dice.choice(listed(steps[at]["leave open"]))
    hole = row if row.count(".") == 2 else f"{row}.{dice.randint(1, 8)}"
    new = {"rivet": hole}
    steps.insert(dice.randint(at + 1, min(at + 6, len(steps))), new)
    return f"more: {_said(new)}", [new]


def _moved(steps: list[Entry], at: int, to: range, dice: random.Random) -> Made:
    entry = steps.pop(at)
    where = dice.choice([k for k in to if k != at])
    steps.insert(where, entry)
    return f"{_said(entry)} {where - at:+d}", [entry]


def _said(entry: Entry) -> str:
    word = next(iter(entry))
    return f"{word}: {entry[word]}"[:60]


KINDS: dict[str, Callable[[list[Entry], random.Random], Made]] = {
    "swap two steps": _swap,
    "drop a step": _drop,
    "place earlier": _earlier,
    "forget a turn-over": _forget,
    "fill a hole left open": _fill,
}
