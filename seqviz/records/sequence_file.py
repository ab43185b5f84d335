"""The sequence file: the table of its top level, and its steps in reading order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from seqviz.records.actions import ACTIONS, NOT_YET, SIDE
from seqviz.records.kinds import Choice, Kind, Length, NameText, Number, Text, Whole, YesNo
from seqviz.records.lists import Entries, ReadEntries
from seqviz.records.model_file import FORMAT
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.remarks import KNOWN
from seqviz.records.steps import Action, Sequence, Step
from seqviz.records.tables import Field, Record, Values
from seqviz.records.tools import TOOLS
from seqviz.records.words import as_word, listed, meant

__all__ = ["SEQUENCE", "ReadSteps", "Steps", "read_sequence"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadSteps:
    """The steps that are right, and the numbers of the others."""

    steps: tuple[Step, ...]
    broken: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """The list of steps; a wrong one keeps its number."""

    label: str = "a list of steps"
    unit: str = ""

    @property
    def alternatives(self) -> tuple[Record, ...]:
        """The tables of the actions."""
        return tuple(ACTIONS.values())

    @property
    def nothing(self) -> ReadSteps:
        """What an empty value means."""
        return ReadSteps(steps=(), broken=())

    def read(self, reading: Reading, node: Node) -> ReadSteps | None:
        """Return the steps, numbered from 1."""
        items = reading.items(node, self.label)
        if items is None:
            return None
        read = [(number, _step(reading, item, number)) for number, item in enumerate(items, start=1)]
        return ReadSteps(
            steps=tuple(step for _, step in read if step is not None),
            broken=tuple(number for number, step in read if step is None),
        )

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"type": "array", "items": {"anyOf": [record.schema() for record in ACTIONS.values()]}}


def _step(reading: Reading, node: Node, number: int) -> Step | None:
    mapping = _step_mapping(reading, node)
    if mapping is None:
        return None
    word = _action_word(reading, mapping)
    if word is None:
        return None
    record = ACTIONS[word]
    values = record.values(reading, mapping, mapping)
    if values is None or values.failed:
        return None
    action: Action = record.build(reading, values)
    note = values.get("note") if word != "note" else None
    return Step(number=number, action=action, at=reading.at(values.keys[word]), note=note)


def _step_mapping(reading: Reading, node: Node) -> Mapping | None:
    if isinstance(node, Scalar) and not node.lost and as_word(node.text) in ACTIONS:
        word = as_word(node.text)
        label = ACTIONS[word].fields[0].kind.label
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
    actions = {word: key for word, key in reversed(said) if word in ACTIONS and word != "note"}
    if len(actions) > 1:
        first, second = list(reversed(actions.items()))[:2]
        reading.bad(
            second[1],
            f"`{second[0]}` does not go with `{first[0]}`.",
            "One step is one action, so that each has a number of its own.",
            "Make it a step of its own: begin the line with a dash.",
        )
        return None
    if actions:
        return next(iter(actions))
    later = next((key for word, key in said if word in NOT_YET), None)
    if later is not None:
        reading.report(
            "unknown-word",
            later,
            f"This version of seqviz does not know `{as_word(later.text)}` yet.",
            f"The actions it knows: {listed(ACTIONS)}.",
            "Leave the step out for now, or write it as a note.",
        )
        return None
    if any(word == "note" for word, _ in said):
        return "note"
    _guess(reading, mapping, [key for _, key in said])
    return None


def _guess(reading: Reading, mapping: Mapping, keys: list[Scalar]) -> None:
    beside = {field.word for record in ACTIONS.values() for field in record.fields}
    odd = [key for key in keys if as_word(key.text) not in beside]
    if not odd:
        _no_action(reading, mapping)
        return
    near = [(key, meant(key.text, ACTIONS)) for key in odd]
    key, word = next(((key, word) for key, word in near if word), near[0])
    reading.report(
        "unknown-word",
        key,
        f"`{key.text}` is no action.",
        f"The actions of a step: {listed(ACTIONS)}.",
        f"Did you mean `{word}`?" if word else "Use one of these words, or write it as a note.",
    )


def _no_action(reading: Reading, mapping: Mapping) -> None:
    reading.report(
        "missing-word",
        mapping,
        "This step has no action.",
        f"The actions of a step: {listed(ACTIONS)}.",
        "Add one of these words.",
    )


def _by_name(kind: Kind, label: str) -> Entries:
    def entry(reading: Reading, _name: str, _key: Scalar, value: Node) -> Any | None:
        return kind.read(reading, value)

    return Entries(entry=entry, value=kind, label=label, name=NameText())


SEQUENCE = Record(
    title="a sequence",
    help="The order of work for one model.",
    fields=(
        FORMAT,
        Field(
            word="model",
            kind=Text(label="a path"),
            help="The model's path, seen from this file.",
            required=True,
        ),
        Field(word="name", kind=Text(), help="Of the sequence, for titles."),
        Field(word="up", kind=SIDE, help="The side of the base that is up at first; left out: upper."),
        Field(
            word="bench",
            kind=Choice(words=("flat", "trestles"), label="a bench"),
            help="flat (where it is left out) closes what faces it; trestles do not.",
        ),
        Field(
            word="finished",
            kind=YesNo(),
            help="Whether everything is placed and set at the end. Left out: no; what is open is no finding.",
        ),
        Field(word="tools", kind=TOOLS, help="The builder's tools, instead of the built-in ones."),
        Field(word="steps", kind=Steps(), help="The steps, numbered from 1.", required=True),
        Field(word="known", kind=KNOWN, help="Findings that are settled."),
        Field(
            word="pins owned",
            kind=_by_name(Whole(low=0), "counts by size"),
            help="How many pins there are, by size. Read, not used yet.",
        ),
        Field(
            word="minutes",
            kind=_by_name(Number(), "minutes by action"),
            help="How long things take. Read, not used yet.",
        ),
        Field(word="arm span", kind=Length(above=0.0), help="Of the builder. Read, not used yet."),
    ),
    build=lambda _reading, _values: True,
    not_yet=("measured to", "apart"),
)


def read_sequence(reading: Reading, root: Mapping) -> tuple[Sequence, Node | None]:
    """Read the whole sequence; return it and where the path of its model stands.

    `Sequence.model` is the path as written. A wrong word above the steps makes 0 one of the broken numbers.
    """
    values = SEQUENCE.values(reading, root, root)
    assert values is not None
    tools: ReadEntries | None = values.get("tools")
    steps: ReadSteps = values.get("steps", ReadSteps(steps=(), broken=()))
    head_stands = all(values.has(word) <= (word in values.found) for word in ("up", "bench", "tools"))
    head_stands = head_stands and not (tools is not None and tools.broken)
    sequence = Sequence(
        path=reading.file,
        model=values.get("model"),
        up=values.get("up", "upper"),
        bench=values.get("bench", "flat"),
        finished=values.get("finished", False),
        finished_at=_place_of(reading, values, "finished"),
        tools=tuple(tools.good.values()) if tools else None,
        steps=steps.steps,
        known=values.get("known", ()),
        at=reading.at(root),
        broken=steps.broken if head_stands else (0, *steps.broken),
    )
    return sequence, values.nodes.get("model")


def _place_of(reading: Reading, values: Values, word: str) -> Any:
    return reading.at(values.keys[word]) if values.has(word) else None
