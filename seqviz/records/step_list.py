"""The list of steps: which action each line is, and what stands in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.actions import ACTIONS
from seqviz.records.apart_words import apart_record, read_apart
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.step_lines import ReadApart, ReadSteps
from seqviz.records.steps import Action, Step
from seqviz.records.tables import Record
from seqviz.records.words import as_word, listed, meant

__all__ = ["Steps"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """The list of steps; a wrong one keeps its number. ``within``: those of a sub-assembly."""

    label: str = "a list of steps"
    unit: str = ""
    within: bool = False

    @property
    def alternatives(self) -> tuple[Record, ...]:
        """The tables of the actions."""
        return tuple(_TABLES.values())

    @property
    def nothing(self) -> ReadSteps:
        """What an empty value means."""
        return ReadSteps()

    def read(self, reading: Reading, node: Node) -> ReadSteps | None:
        """Return the lines, not numbered yet."""
        items = reading.items(node, self.label)
        return None if items is None else ReadSteps(lines=tuple(_line(reading, item) for item in items))

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema; steps within steps refer to those of the file."""
        if self.within:
            return {"$ref": "#/properties/steps"}
        return {"type": "array", "items": {"anyOf": [record.schema() for record in _TABLES.values()]}}


_APART = apart_record(Steps(within=True))
_TABLES = {**ACTIONS, _APART.fields[0].word: _APART}
"""Word -> the table of a line."""


def _line(reading: Reading, node: Node) -> Step | ReadApart | None:
    mapping = _step_mapping(reading, node)
    if mapping is None:
        return None
    word = _action_word(reading, mapping)
    if word is None:
        return None
    record = _TABLES[word]
    values = record.values(reading, mapping, mapping)
    if values is None:
        return None
    if record is _APART:
        return read_apart(reading, values)
    if values.failed:
        return None
    action: Action | None = record.build(reading, values)
    if action is None:
        return None
    note = values.get("note") if word != "note" else None
    return Step(number=0, action=action, at=reading.at(values.keys[word]), note=note)


def _step_mapping(reading: Reading, node: Node) -> Mapping | None:
    if isinstance(node, Scalar) and not node.lost and as_word(node.text) in _TABLES:
        word = as_word(node.text)
        label = _TABLES[word].fields[0].kind.label
        reading.bad(
            node, f"`{word}` has no value.", f"Here belongs {label}.", f"Write `{word}: ` and the value."
        )
        return None
    mapping = reading.mapping(node, "a step")
    if mapping is not None and not mapping.pairs:
        # All that stood in it was told while composing, or it is {}.
        _no_action(reading, mapping)
        return None
    return mapping


def _action_word(reading: Reading, mapping: Mapping) -> str | None:
    """Return the action of a step, None (with a finding) where it has none or two."""
    said = [(as_word(key.text), key) for key, _ in mapping.pairs]
    words = {word: key for word, key in reversed(said) if word in _TABLES}
    actions = {word: key for word, key in reversed(words.items()) if not _beside(word, words.keys() - {word})}
    if len(actions) > 1:
        first, second = list(actions.items())[:2]
        reading.bad(
            second[1],
            f"`{second[0]}` does not go with `{first[0]}`.",
            "One step is one action, so that each has a number of its own.",
            "Make it a step of its own: begin the line with a dash.",
        )
        return None
    if actions:
        return next(iter(actions))
    _guess(reading, mapping, [key for _, key in said])
    return None


def _beside(word: str, others: set[str]) -> bool:
    """Say whether an action word stands beside another one, as pins do beside place."""
    return any(word in _words_of(_TABLES[other]) for other in others)


def _words_of(record: Record) -> set[str]:
    refused = {as_word(word) for word, _ in record.refused}
    return {field.word for field in record.fields} | refused


def _guess(reading: Reading, mapping: Mapping, keys: list[Scalar]) -> None:
    beside = {field.word for record in _TABLES.values() for field in record.fields}
    odd = [key for key in keys if as_word(key.text) not in beside]
    if not odd:
        _no_action(reading, mapping)
        return
    near = [(key, meant(key.text, _TABLES)) for key in odd]
    key, word = next(((key, word) for key, word in near if word), near[0])
    reading.report(
        "unknown-word",
        key,
        f"`{key.text}` is no action.",
        f"The actions of a step: {listed(_TABLES, most=30)}.",
        f"Did you mean `{word}`?" if word else "Use one of these words, or write it as a note.",
    )


def _no_action(reading: Reading, mapping: Mapping) -> None:
    reading.report(
        "missing-word",
        mapping,
        "This step has no action.",
        f"The actions of a step: {listed(_TABLES, most=30)}.",
        "Add one of these words.",
    )
