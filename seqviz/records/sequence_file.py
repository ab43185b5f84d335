"""The sequence file: the table of its top level, and what is read from it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from seqviz.records.bench_words import BENCH, OVER_THE_EDGE, Facing, Up
from seqviz.records.kinds import Kind, Length, NameText, Number, Text, Whole, YesNo
from seqviz.records.lists import Entries, ReadEntries
from seqviz.records.model import Name
from seqviz.records.model_file import FORMAT
from seqviz.records.nodes import Mapping, Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.remarks import KNOWN
from seqviz.records.step_lines import ReadSteps
from seqviz.records.step_list import Steps
from seqviz.records.steps import Sequence
from seqviz.records.tables import Field, Record
from seqviz.records.tools import TOOLS

__all__ = ["APART_FILE", "SEQUENCE", "ReadSequence", "read_sequence"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadSequence:
    """A sequence as read: the words above the steps, and the lines, not numbered yet.

    Attributes
    ----------
    sequence
        Without steps; ``model`` is the path as written. ``broken`` is (0,) where a word above the steps is
        wrong.
    lines
        Its steps and sub-assemblies.
    model_at
        Where the path of its model stands.
    up, bench
        What is said of the work, None where nothing is.
    owned
        The sizes of ``pins owned``, with their places.
    """

    sequence: Sequence
    lines: ReadSteps
    model_at: Node | None
    up: str | Facing | None
    bench: str | None
    owned: tuple[Name, ...] = ()


def _by_name(kind: Kind, label: str) -> Entries:
    def entry(reading: Reading, _name: str, _key: Scalar, value: Node) -> Any | None:
        return kind.read(reading, value)

    return Entries(entry=entry, value=kind, label=label, name=NameText())


def _owned(reading: Reading, name: str, key: Scalar, value: Node) -> tuple[Name, int] | None:
    count = _COUNT.read(reading, value)
    return None if count is None else (Name(text=name, at=reading.at(key)), count)


_COUNT = Whole(low=0)
_MODEL = Field(
    word="model",
    kind=Text(label="a path"),
    help="The model's path, seen from this file. A file that is only named at `apart` needs none.",
    required=True,
)

SEQUENCE = Record(
    title="a sequence",
    help="The order of work for one model.",
    fields=(
        FORMAT,
        _MODEL,
        Field(word="name", kind=Text(), help="Of the sequence, for titles."),
        Field(
            word="up",
            kind=Up(),
            help="The side of the base that is up at first; left out: upper. Of a sub-assembly in a file of "
            "its own: one face of a flat of one of its parts.",
        ),
        Field(
            word="bench",
            kind=BENCH,
            help="flat (where it is left out) closes what faces it; trestles and blocks do not.",
        ),
        OVER_THE_EDGE,
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
            kind=Entries(entry=_owned, value=_COUNT, label="counts by size"),
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
    not_yet=("measured to",),
)
"""The table of a file that is checked by itself."""

APART_FILE = replace(
    SEQUENCE,
    fields=tuple(replace(field, required=False) if field is _MODEL else field for field in SEQUENCE.fields),
)
"""That of a file which another one names at ``apart``."""

_HEAD = ("up", "bench", "over the edge", "tools")


def read_sequence(reading: Reading, root: Mapping, table: Record = SEQUENCE) -> ReadSequence:
    """Read the whole file; files that it names are not read yet."""
    values = table.values(reading, root, root)
    assert values is not None
    tools: ReadEntries | None = values.get("tools")
    owned: ReadEntries | None = values.get("pins owned")
    stands = all(values.has(word) <= (word in values.found) for word in _HEAD)
    stands = stands and not (tools is not None and tools.broken)
    up: str | Facing | None = values.get("up")
    sequence = Sequence(
        path=reading.file,
        model=values.get("model"),
        up=up if isinstance(up, str) else "upper",
        up_flat=up if isinstance(up, tuple) else None,
        bench=values.get("bench", "flat"),
        over_the_edge=values.get("over the edge", ()),
        finished=values.get("finished", False),
        finished_at=reading.at(values.keys["finished"]) if values.has("finished") else None,
        tools=tuple(tools.good.values()) if tools else None,
        pins_owned={size: count for size, (_, count) in owned.good.items()} if owned else {},
        steps=(),
        known=values.get("known", ()),
        at=reading.at(root),
        broken=() if stands else (0,),
    )
    return ReadSequence(
        sequence=sequence,
        lines=values.get("steps", ReadSteps()),
        model_at=values.nodes.get("model"),
        up=up,
        bench=values.get("bench"),
        owned=tuple(name for name, _ in owned.good.values()) if owned else (),
    )
