"""``holes: same as PART``: a part that repeats the rows of another one, with changes of its own."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Any

from seqviz.records.holes import NUMBERS
from seqviz.records.kinds import NameText
from seqviz.records.lists import Entries, OneName
from seqviz.records.model import Name, OtherSize, PartRecord, Row, RowChange, SameHoles
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.rows import other_sizes
from seqviz.records.words import as_word, listed, meant

__all__ = ["PartHoles", "PartRows", "hanging", "repeated"]

_SAME = "same as"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PartRows:
    """What stands under ``holes``: own rows by name, and the part whose rows are repeated."""

    good: dict[str, Row]
    broken: frozenset[str]
    same: SameHoles | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartHoles:
    """The kind of ``holes``: rows by name, or ``same as PART``, or both."""

    value: Entries
    label: str = "rows of holes by name, or `same as PART`"
    unit: str = ""
    name: NameText = field(default_factory=NameText)

    @property
    def nothing(self) -> PartRows:
        """What an empty value means."""
        return PartRows(good={}, broken=frozenset())

    def read(self, reading: Reading, node: Node) -> PartRows | None:
        """Return the rows; None where ``node`` holds none."""
        if isinstance(node, Scalar):
            found = re.fullmatch(r"\s*same[\s_-]+as\s+(\S.*)", node.text)
            if found is not None:
                return self._same(reading, Scalar(found[1], node.line, node.column), [])
        if not isinstance(node, Mapping):
            read = self.value.read(reading, node)
            return None if read is None else PartRows(good=read.good, broken=read.broken)
        said = [pair for pair in node.pairs if as_word(pair[0].text) == _SAME and isinstance(pair[1], Scalar)]
        changed = [pair for pair in node.pairs if said and _is_change(pair[1])]
        own = [pair for pair in node.pairs if pair not in said and pair not in changed]
        read = self.value.read(reading, Mapping(own, node.line, node.column))
        if read is None or not said:
            return None if read is None else PartRows(good=read.good, broken=read.broken)
        if len(said) > 1:
            reading.duplicate(f"`{_SAME}`", said[1][0], said[0][0])
            return None
        same = self._same(reading, said[0][1], changed)
        return None if same is None else replace(same, good=read.good, broken=read.broken)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        numbers = {"type": "object", "patternProperties": {f"^{NUMBERS}$": {}}, "additionalProperties": False}
        changes = {"anyOf": [self.value.value.schema(), numbers, {"const": "none"}]}
        name = {"type": ["string", "number"]}
        rows = {
            "type": "object",
            "properties": {_SAME: name},
            "required": [_SAME],
            "additionalProperties": changes,
        }
        return {"anyOf": [self.value.schema(), rows, {"type": "string", "pattern": "^ *same[ _-]+as +.+$"}]}

    def _same(self, reading: Reading, part: Node, changed: list[tuple[Scalar, Node]]) -> PartRows | None:
        name = OneName.read(reading, part)
        changes = [_change(reading, key, value) for key, value in changed]
        if name is None or None in changes:
            return None
        good = tuple(change for change in changes if change is not None)
        return PartRows(good={}, broken=frozenset(), same=SameHoles(part=name, changes=good))


def _is_change(value: Node) -> bool:
    """Say whether a value changes a repeated row and makes none: ``none``, or numbers only."""
    if isinstance(value, Scalar):
        return as_word(value.text) == "none"
    return (
        isinstance(value, Mapping)
        and bool(value.pairs)
        and all(re.fullmatch(NUMBERS, key.text.strip()) for key, _ in value.pairs)
    )


def _change(reading: Reading, key: Scalar, value: Node) -> RowChange | None:
    row = OneName.read(reading, key)
    sizes: tuple[OtherSize, ...] | None = ()
    if isinstance(value, Mapping):
        sizes = other_sizes(reading, value.pairs)
    if row is None or sizes is None:
        return None
    return RowChange(row=row, exceptions=sizes, none=isinstance(value, Scalar))


def repeated(reading: Reading, parts: dict[str, PartRecord], broken: set[str]) -> dict[str, PartRecord]:
    """Return the parts with the rows that they repeat; those that cannot are added to ``broken``.

    A repeated row stands where it is asked for, and keeps in ``laid_out_on`` the part on which its numbers
    were written.
    """
    whole: dict[str, PartRecord] = {}
    for name in parts:
        _repeat(reading, name, (parts, whole, broken), ())
    return {name: whole[name] for name in parts}


def _repeat(
    reading: Reading,
    name: str,
    tables: tuple[dict[str, PartRecord], dict[str, PartRecord], set[str]],
    waiting: tuple[str, ...],
) -> None:
    """Make ``name`` whole, those first on which it hangs; ``waiting`` are the parts that asked for it."""
    parts, whole, broken = tables
    part = parts[name]
    if name in whole:
        return
    target = part.same.part if part.same else None
    if target is not None and target.text in (name, *waiting):
        _round(reading, target)
        broken.add(name)
    elif target is not None and target.text in parts:
        _repeat(reading, target.text, tables, (name, *waiting))
        rows = _rows(reading, part, whole.get(target.text, parts[target.text]))
        if target.text in broken or rows is None:
            broken.add(name)
        part = part if rows is None else replace(part, rows=rows)
    elif target is not None:
        if target.text not in broken:
            _unknown(reading, target, f"There is no part `{target.text}`.", parts)
        broken.add(name)
    whole[name] = part


def _rows(reading: Reading, part: PartRecord, original: PartRecord) -> tuple[Row, ...] | None:
    """Return the rows of ``original`` as ``part`` changes them, and then its own; None with a mistake."""
    assert part.same is not None
    own = {row.name: row for row in part.rows}
    there = {row.name: row for row in original.rows}
    changes: dict[str, RowChange] = {}
    wrong = False
    for change in part.same.changes:
        name = change.row.text
        if name in changes:
            reading.duplicate(f"`{name}`", change.row.at, changes[name].row.at)
            wrong = True
        elif name not in there:
            _unknown(reading, change.row, f"`{original.name}` has no row `{name}`.", there)
            wrong = True
        changes[name] = change
    for name in own.keys() & there.keys() - {row for row, change in changes.items() if change.none}:
        reading.duplicate(f"The row `{name}`, which `{original.name}` has too,", own[name].at, there[name].at)
        wrong = True
    rows = [
        _copy(row, original.name, changes.get(row.name), part.same.part)
        for row in original.rows
        if row.name not in changes or not changes[row.name].none
    ]
    return None if wrong else (*rows, *part.rows)


def _copy(row: Row, original: str, change: RowChange | None, asked: Name) -> Row:
    return replace(
        row,
        laid_out_on=row.laid_out_on or original,
        exceptions=row.exceptions + (change.exceptions if change else ()),
        at=change.row.at if change else asked.at,
    )


def _round(reading: Reading, target: Name) -> None:
    reading.bad(
        target.at,
        f"The holes of `{target.text}` are in the end those of `{target.text}` itself.",
        "`same as` leads to a part whose rows are written.",
        "Write the rows of one of these parts.",
    )


def _unknown(reading: Reading, name: Name, message: str, there: Iterable[str]) -> None:
    near = meant(name.text, there)
    why = f"There is {listed(there)}."
    fix = f"Did you mean `{near}`?" if near else "Write one of these names."
    reading.report("unknown-name", name.at, message, why, fix)


def hanging(parts: dict[str, PartRecord], broken: set[str]) -> set[str]:
    """Return the parts that repeat the rows of one that is in ``broken``, directly or not."""
    found: set[str] = set()
    for name, part in parts.items():
        seen = {name}
        while part.same is not None and part.same.part.text in parts and part.same.part.text not in seen:
            part = parts[part.same.part.text]  # noqa: PLW2901 - the next one in the chain
            seen.add(part.name)
        found |= {name} if (seen - {name}) & broken else set()
    return found
