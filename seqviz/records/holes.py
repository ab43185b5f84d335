"""Holes as they are chosen in texts: ``PLACED.ROW.N``, ``PLACED.ROW.N-M``, ``PLACED.ROW``, one or a list."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Match
from seqviz.records.nodes import Items, Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.words import as_name, name_mistake
from seqviz.units import Slip

__all__ = ["NUMBERS", "HoleText", "MatchPairs", "hole_choice", "hole_list"]

NUMBERS = r"[0-9]{1,6}(?:-[0-9]{1,6})?"
"""``N`` or ``N-M``."""

_ONLY = {
    "hole": "one hole `PLACED.ROW.N`",
    "run": "a row `PLACED.ROW`, or a part of it `PLACED.ROW.N-M`",
}
_WHY = "A hole is `PLACED.ROW.N`, a range `PLACED.ROW.N-M`, a row `PLACED.ROW`."


def hole_choice(text: str, at: At) -> HoleChoice | Slip:
    """Read one choice of holes, from the right."""
    name = as_name(text)
    if "," in name:
        return Slip(
            message=f"A comma stands in `{name}`.",
            why=_WHY,
            fix="Several holes are a list, each written out: [rail.foot.1, rail.foot.3].",
        )
    parts = [part.strip() for part in name.split(".")]
    numbers = parts.pop() if re.fullmatch(NUMBERS, parts[-1]) else None
    if len(parts) < 2 or not all(parts):
        return Slip(
            message=f"`{name}` names no hole.", why=_WHY, fix="Write the placed part, the row and the number."
        )
    wrong = name_mistake(" ".join(parts))
    if wrong is not None:
        return Slip(message=f"`{name}` holds `{wrong}`.", why=_WHY, fix=f"Write it without `{wrong}`.")
    first = last = None
    if numbers is not None:
        ends = [int(number) for number in numbers.split("-")]
        first, last = ends[0], ends[-1]
        if 0 in ends:
            return Slip(
                message=f"`{name}`: there is no hole 0.", why="Holes are numbered from 1.", fix="Correct it."
            )
    return HoleChoice(placed=parts[0], row=".".join(parts[1:]), first=first, last=last, at=at)


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleText:
    """Holes; ``several``: a list may stand here too; ``only``: just a ``hole``, or a ``run`` in one row."""

    several: bool = True
    only: str | None = None
    unit: str = ""

    @property
    def label(self) -> str:
        """In words."""
        if self.only:
            return _ONLY[self.only]
        return "holes `PLACED.ROW.N`, `PLACED.ROW.N-M`, `PLACED.ROW`, or a list of them"

    def read(self, reading: Reading, node: Node) -> Any | None:
        """Return a tuple of `HoleChoice` where several may stand, else one."""
        if self.several:
            return hole_list(reading, node, self.label)
        text = reading.text(node, self.label)
        if text is None:
            return None
        choice = hole_choice(text, reading.at(node))
        if isinstance(choice, Slip):
            reading.slip(node, choice)
            return None
        one = choice.first is not None and choice.first == choice.last
        if (self.only == "hole" and not one) or (self.only == "run" and one):
            reading.bad(
                node, f"`{as_name(text)}` is not {self.label}.", f"Here belongs {self.label}.", "Correct it."
            )
            return None
        return choice

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        one: dict[str, Any] = {"type": "string", "pattern": r"^[^,\[\]{}]+\.[^,\[\]{}]+$"}
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1}]} if self.several else one


def hole_list(reading: Reading, node: Node, label: str) -> tuple[HoleChoice, ...] | None:
    """Return the choices that stand at ``node``, one or a list; None where one is wrong."""
    items = node.items if isinstance(node, Items) else [node]
    if not items:
        reading.bad(node, "The list is empty.", f"Here belong {label}.", "Write the holes.")
        return None
    found: list[HoleChoice] = []
    wrong = split = False
    before = ""
    for item in items:
        text = reading.text(item, label)
        if text is None:
            wrong = True
            continue
        if re.fullmatch(NUMBERS, text.strip()):
            if not split:
                _number_alone(reading, item, text, before)
            wrong = split = True
            continue
        before = text
        choice = hole_choice(text, reading.at(item))
        if isinstance(choice, Slip):
            reading.slip(item, choice)
            wrong = True
        else:
            found.append(choice)
    return None if wrong else tuple(found)


def _number_alone(reading: Reading, item: Node, text: str, before: str) -> None:
    stem = before.rpartition(".")[0]
    reading.bad(
        item,
        f"`{text.strip()}` names no hole: a comma splits a list.",
        _WHY,
        f"Write each hole out: [{before}, {stem}.{text.strip()}]." if stem else "Write part, row and number.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchPairs:
    """The pairs of a ``match``: ``ROW.N`` of the part itself lies on a hole of a placed part."""

    label: str = "pairs `ROW.N: PLACED.ROW.N`"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> tuple[Match, ...] | None:
        """Return the pairs, None where one is wrong."""
        mapping = reading.mapping(node, self.label)
        if mapping is None:
            return None
        if not mapping.pairs:
            reading.bad(
                node,
                "No pair stands here.",
                "A part hangs on at least one hole.",
                "Write `ROW.N: PLACED.ROW.N`.",
            )
            return None
        seen: dict[tuple[str, int], Scalar] = {}
        pairs = [self._pair(reading, mapping, index, seen) for index in range(len(mapping.pairs))]
        good = tuple(pair for pair in pairs if pair is not None)
        return good if len(good) == len(pairs) else None

    def _pair(
        self, reading: Reading, mapping: Mapping, index: int, seen: dict[tuple[str, int], Scalar]
    ) -> Match | None:
        key, value = mapping.pairs[index]
        if isinstance(value, Scalar) and value.empty and not value.lost:
            before = mapping.pairs[index - 1][1] if index else None
            _no_target(reading, key, before)
            return None
        target = HoleText(several=False, only="hole").read(reading, value)
        own = _own_hole(key.text)
        if isinstance(own, Slip):
            reading.slip(key, own)
            return None
        if own in seen:
            reading.duplicate(f"`{own[0]}.{own[1]}`", key, seen[own])
            return None
        seen[own] = key
        return None if target is None else Match(row=own[0], number=own[1], target=target, at=reading.at(key))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        hole = HoleText(several=False, only="hole").schema()
        return {"type": "object", "minProperties": 1, "patternProperties": {r"^.+\.[0-9]+$": hole}}


def _own_hole(text: str) -> tuple[str, int] | Slip:
    name = as_name(text)
    row, _, number = (part.strip() for part in name.rpartition("."))
    # Rows within a piece that uses another model are `PLACED.ROW`.
    within = [part.strip() for part in row.split(".")]
    if all(within) and re.fullmatch(r"[0-9]{1,6}", number) and name_mistake(" ".join(within)) is None:
        return ".".join(within), int(number)
    return Slip(
        message=f"`{name}` is no hole of the part itself.",
        why="Before the colon stands `ROW.N` of the part itself, behind it the hole on which it lies.",
        fix="Write `ROW.N: PLACED.ROW.N`.",
    )


def _no_target(reading: Reading, key: Scalar, before: Node | None) -> None:
    left, colon, right = key.text.partition(":")
    if colon and right.strip():
        reading.bad(
            key,
            f"A colon without a space after it: `{key.text}`.",
            "The two holes of a pair are told apart by a colon and a space.",
            f"Write `{left}: {right}`.",
        )
    elif isinstance(before, Scalar) and re.fullmatch(NUMBERS, key.text.strip()):
        reading.bad(
            before,
            f"A comma splits `{before.text},{key.text}` in two.",
            "One hole of the part lies on one hole of its target.",
            "Write a pair for each: {foot.1: rail.foot.1, foot.3: rail.foot.3}.",
        )
    else:
        reading.bad(
            key, f"`{key.text}` has no value.", "A pair is `ROW.N: PLACED.ROW.N`.", "Write the target's hole."
        )
