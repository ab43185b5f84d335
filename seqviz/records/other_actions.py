"""Actions that put nothing together: preparing surfaces, turning over, hold points, notes."""

from __future__ import annotations

from seqviz.records.action_table import Build, action
from seqviz.records.bench_words import Turn
from seqviz.records.hole_words import NamesOrHoles
from seqviz.records.kinds import Text
from seqviz.records.model import HoleChoice, Name
from seqviz.records.reading import Reading
from seqviz.records.steps import HoldPoint, Note, Prepare
from seqviz.records.tables import Field, Record, Values

__all__ = ["HOLD_ACTIONS", "NOTE_ACTIONS", "PREPARE_ACTIONS", "TURN_ACTIONS"]

_PREPARES = {
    "deburr": "Takes the burr off the edges or holes of placed parts.",
    "prime": "Puts primer on placed parts, or about holes.",
    "seal": "Puts sealant on placed parts, or about holes.",
}
_HOLDS = {
    "check": "A look before work goes on: what is looked at.",
    "inspect": "A look by somebody else before work goes on: what is looked at.",
    "fit": "Something is tried or trimmed until it fits: what.",
}


def _prepare(word: str) -> Build:
    def build(_reading: Reading, values: Values) -> Prepare:
        named = values.get(word)
        return Prepare(
            what=word,
            names=tuple(one for one in named if isinstance(one, Name)),
            holes=tuple(one for one in named if isinstance(one, HoleChoice)),
        )

    return build


def _hold(word: str) -> Build:
    return lambda _reading, values: HoldPoint(
        what=word, text=values.get(word), who=values.get("who"), value=values.get("value")
    )


_WHO_AND_VALUE = (
    Field(word="who", kind=Text(), help="Who looks."),
    Field(word="value", kind=Text(), help="What must come out, as it is written down: `0.5 mm at most`."),
)

TURN_ACTIONS: tuple[Record, ...] = (
    action(
        "turn over",
        Turn(),
        "Turns the work on the bench; among the steps of a sub-assembly that one.",
        lambda _reading, values: values.get("turn over"),
    ),
)
PREPARE_ACTIONS: tuple[Record, ...] = tuple(
    action(word, NamesOrHoles(), text, _prepare(word)) for word, text in _PREPARES.items()
)
HOLD_ACTIONS: tuple[Record, ...] = tuple(
    action(word, Text(label="a text that says what"), text, _hold(word), _WHO_AND_VALUE)
    for word, text in _HOLDS.items()
)
NOTE_ACTIONS: tuple[Record, ...] = (
    action("note", Text(), "Words for the builder.", lambda _reading, values: Note(text=values.get("note"))),
)
