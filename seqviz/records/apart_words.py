"""``apart``: the table of a sub-assembly that is joined for itself."""

from __future__ import annotations

from seqviz.records.bench_words import BENCH, OVER_THE_EDGE, Up
from seqviz.records.kinds import Kind, Text
from seqviz.records.lists import OneName, Word
from seqviz.records.reading import Reading
from seqviz.records.step_lines import ReadApart
from seqviz.records.tables import Field, Record, Values

__all__ = ["apart_record", "read_apart"]

_WHY = "The steps of a sub-assembly stand in a list (steps), or in a file of their own (sequence)."


def apart_record(steps: Kind) -> Record:
    """Return the table of ``apart``; ``steps`` is the kind of the steps within."""
    return Record(
        title="a sub-assembly `apart`",
        help="Parts that are joined apart from the main work and then placed as one piece: `place: NAME`. "
        "The line has no number; its steps are numbered where it stands. There may be sub-assemblies within.",
        fields=(
            Field(word="apart", kind=OneName, help="Its name, which no placed part has.", required=True),
            Field(word="steps", kind=steps, help="Its steps."),
            Field(
                word="sequence",
                kind=Word(of=Text(label="a path")),
                help="Instead of `steps`: the path of a sequence for the same model, seen from this file. "
                "Its `up`, `bench` and `over the edge` count where none stands here, its `known` too; "
                "its tools and pins only where it is checked alone.",
            ),
            Field(word="up", kind=Up(), help="What faces up at first; left out: as in the main work."),
            Field(word="bench", kind=BENCH, help="What it lies on; left out: as the main work."),
            OVER_THE_EDGE,
            Field(word="note", kind=Text(), help="Words beside it."),
        ),
        build=lambda _reading, values: values,
    )


def read_apart(reading: Reading, values: Values) -> ReadApart:
    """Return the sub-assembly; a wrong one too, so that its steps keep their numbers."""
    steps, file = values.get("steps"), values.get("sequence")
    wrong = values.failed
    if values.has("steps") and values.has("sequence"):
        reading.bad(
            values.keys["sequence"], "`sequence` does not go with `steps`.", _WHY, "Keep one of them."
        )
        wrong, file = True, None
    elif not values.has("steps") and not values.has("sequence"):
        reading.report(
            "missing-word",
            values.keys["apart"],
            "`steps` or `sequence` is missing.",
            _WHY,
            "Add `steps:` and the list, further in than `apart`.",
        )
        wrong = True
    return ReadApart(
        name=values.get("apart"),
        at=reading.at(values.keys["apart"]),
        up=values.get("up"),
        bench=values.get("bench"),
        over_the_edge=values.get("over the edge", ()),
        note=values.get("note"),
        file=file,
        steps=steps,
        wrong=wrong,
    )
