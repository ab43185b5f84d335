"""Place, take off, pins as a step of their own."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Name
from seqviz.records.steps import PinPattern, Place, PutPins, TakeOff
from tests.records.written import Place as Where
from tests.records.written import places, said, sequence_of


def test_pins_are_a_step_and_a_word_of_place(tmp_path: Path) -> None:
    read = sequence_of(
        tmp_path,
        """\
        - place: rail left
          pins: none
        - Pins: Ends and every 5th
          pins from: lower
        - pins: all
          of: [rail left, skin]
          note: the long ones
        - pins: [skin.rail left.2-4]
        - take_off: [rail left, skin]
          note: to deburr
        """,
    )
    assert read.findings == []
    assert read.sequence is not None
    file = str(tmp_path / "sequence.yaml")

    def at(line: int, column: int) -> At:
        return At(file=file, line=line, column=column)

    place, ends, every, holes, off = (step.action for step in read.sequence.steps)
    assert isinstance(place, Place)
    assert place.pins is not None
    assert place.pins.kind == "none"
    assert ends == PutPins(
        pattern=PinPattern(kind="every", every=5, holes=(), at=at(6, 9)), pins_from="lower", of=()
    )
    assert every == PutPins(
        pattern=PinPattern(kind="all", every=None, holes=(), at=at(8, 9)),
        pins_from=None,
        of=(Name(text="rail left", at=at(9, 8)), Name(text="skin", at=at(9, 19))),
    )
    chosen = HoleChoice(placed="skin", row="rail left", first=2, last=4, at=at(11, 10))
    assert holes == PutPins(
        pattern=PinPattern(kind="holes", every=None, holes=(chosen,), at=at(11, 9)), pins_from=None
    )
    assert off == TakeOff(names=(Name(text="rail left", at=at(12, 14)), Name(text="skin", at=at(12, 25))))
    assert [step.note for step in read.sequence.steps] == [None, None, "the long ones", None, "to deburr"]


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        ("- pins: some\n", ("bad-value", 4, 9)),
        ("- pins: skin.rial\n", ("unknown-name", 4, 9)),
        ("- pins: all\n  of: rial\n", ("unknown-name", 5, 7)),
        ("- pins: skin.rail\n  of: skin\n", ("bad-value", 5, 3)),
        ("- pins: all\n  pins from: top\n", ("unknown-word", 5, 14)),
        ("- pins: all\n", ("missing-word", 4, 3)),
        ("- rivet: skin.rail\n  pins: all\n", ("bad-value", 5, 3)),
        ("- take off: rail left\n  pins: all\n", ("unknown-word", 5, 3)),
        ("- take off: rial\n", ("unknown-name", 4, 13)),
        ("- take off: []\n", ("bad-value", 4, 13)),
        ("- take off\n", ("bad-value", 4, 3)),
        ("- take off: skin.rail\n", ("bad-value", 4, 13)),
        ("- take of: skin\n", ("unknown-word", 4, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, steps: str, place: Where) -> None:
    read = sequence_of(tmp_path, steps)
    assert places(read) == [place]
    assert read.sequence is not None
    assert read.sequence.broken == (1,)


def test_pins_of_nothing(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- pins: ends and every 2nd\n"))
    assert finding.message == "`of` is missing: no part was placed before."
    # Where a step is lost it may have placed something.
    assert places(sequence_of(tmp_path, "- plce: rail\n- pins: all\n")) == [("unknown-word", 4, 3)]


def test_two_actions_in_one_line(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- drill out: skin.rail.1\n  rivet: skin.rail.1\n"))
    assert (finding.at.line, finding.at.column) == (5, 3)
    assert finding.message == "`rivet` does not go with `drill out`."
