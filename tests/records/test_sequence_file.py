"""Steps and the words above them."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Name
from seqviz.records.steps import (
    HoleFilter,
    LeaveOpen,
    MovePins,
    Note,
    OpenNoLonger,
    PinPattern,
    Place,
    PullPins,
    Rivet,
    Sequence,
    TurnOver,
)
from tests.records.written import MODEL, loaded, places, said, sequence_of
from tests.records.written import Place as Where


def read(folder: Path, steps: str) -> Sequence:
    result = sequence_of(folder, steps)
    assert result.findings == []
    assert result.sequence is not None
    return result.sequence


def test_all_actions(tmp_path: Path) -> None:
    sequence = read(
        tmp_path,
        """\
        - place: [rail left, rail right]
          pins: ends and every 4th
          note: mind the edge
        - Pull_Pins: skin.rail left.2-9
        - move pins: {holes: skin.rail left.1, to: lower}
        - leave open: skin.rail.28-30
          for: strap bracket
        - open no longer: skin.rail.28-30
        - turn over: {up: left side}
        - turn over: End-over-End
        - rivet: everything ready
        - note: done
        """,
    )
    file = str(tmp_path / "sequence.yaml")

    def at(line: int, column: int) -> At:
        return At(file=file, line=line, column=column)

    def choice(row: str, first: int, last: int, place: At) -> tuple[HoleChoice, ...]:
        return (HoleChoice(placed="skin", row=row, first=first, last=last, at=place),)

    assert [step.action for step in sequence.steps] == [
        Place(
            names=(Name(text="rail left", at=at(4, 11)), Name(text="rail right", at=at(4, 22))),
            pins=PinPattern(kind="every", every=4, holes=(), at=at(5, 9)),
            pins_from=None,
        ),
        PullPins(holes=choice("rail left", 2, 9, at(7, 14))),
        MovePins(holes=choice("rail left", 1, 1, at(8, 22)), to="lower"),
        LeaveOpen(holes=choice("rail", 28, 30, at(9, 15)), reason="strap bracket"),
        OpenNoLonger(holes=choice("rail", 28, 30, at(11, 19))),
        TurnOver(how="up", side="left side"),
        TurnOver(how="end over end"),
        Rivet(holes=None, narrowed=HoleFilter(), use=None, head=None),
        Note(text="done"),
    ]
    assert [step.number for step in sequence.steps] == list(range(1, 10))
    assert [step.at for step in sequence.steps[:3]] == [at(4, 3), at(7, 3), at(8, 3)]
    assert (sequence.steps[0].note, sequence.steps[8].note) == ("mind the edge", None)


def test_filters_of_rivet(tmp_path: Path) -> None:
    (step,) = read(
        tmp_path,
        """\
        - rivet: [skin.rail.1-3, skin.rail.30-20]
          through: skin
          size: big
          with: solid rivet 1/8
          forward of: X = 1 in
          except: skin.cross 1
          use: pull 4.0
          head: on rail left
        """,
    ).steps
    action = step.action
    assert isinstance(action, Rivet)
    assert action.holes is not None
    # 30-20 keeps its sense.
    assert [(choice.first, choice.last) for choice in action.holes] == [(1, 3), (30, 20)]
    narrowed = action.narrowed
    assert narrowed.size is not None
    assert narrowed.fastener is not None
    assert [name.text for name in narrowed.through] == ["skin"]
    assert (narrowed.size.text, narrowed.fastener.text, narrowed.forward_of) == (
        "big",
        "solid rivet 1/8",
        ("x", 25.4),
    )
    assert [(choice.row, choice.first) for choice in narrowed.excluded] == [("cross 1", None)]
    assert action.use is not None
    assert action.head is not None
    assert (action.use.text, action.head.text) == ("pull 4.0", "on rail left")


@pytest.mark.parametrize(
    ("pins", "kind", "every"),
    [
        ("all", "all", None),
        ("None", "none", None),
        ("ends and every 2nd", "every", 2),
        ("Ends and every 12", "every", 12),
        ("skin.rail left.1", "holes", None),
        ("[skin.rail left.1, skin.rail right]", "holes", None),
    ],
)
def test_pins(tmp_path: Path, pins: str, kind: str, every: int | None) -> None:
    (step,) = read(tmp_path, f"- place: rail left\n  pins: {pins}\n  pins from: Lower\n").steps
    assert isinstance(step.action, Place)
    assert step.action.pins is not None
    assert (step.action.pins.kind, step.action.pins.every, step.action.pins_from) == (kind, every, "lower")


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        ("- plce: rail left\n", ("unknown-word", 4, 3)),
        ("- place: rail lft\n", ("unknown-name", 4, 10)),
        ("- place: [rail left, skn]\n", ("unknown-name", 4, 22)),
        ("- place: []\n", ("bad-value", 4, 10)),
        ("- place: rail left\n  rivet: everything ready\n", ("bad-value", 5, 3)),
        ("- place: rail left\n  place: rail right\n", ("duplicate-name", 5, 3)),
        ("- place: rail left\n  pins: some\n", ("bad-value", 5, 9)),
        ("- place: rail left\n  pins: ends and every 0th\n", ("bad-value", 5, 9)),
        ("- place: rail left\n  pins from: top\n", ("unknown-word", 5, 14)),
        ("- place: rail left\n  size: small\n", ("unknown-word", 5, 3)),
        ("- place: rail left\n  on: yes\n", ("unknown-word", 5, 3)),
        ("- place:rail left\n- rivet: skin.rail\n", ("bad-value", 4, 3)),
        ("- place\n", ("bad-value", 4, 3)),
        ("- place:\n", ("bad-value", 4, 3)),
        ("- place: # rail left\n", ("value-lost", 4, 10)),
        ("- size: small\n", ("missing-word", 4, 3)),
        ("- {}\n", ("missing-word", 4, 3)),
        ("- turn over: upside\n", ("unknown-word", 4, 14)),
        ("- turn over: {up: top}\n", ("unknown-word", 4, 19)),
        ("- turn over: {}\n", ("missing-word", 4, 14)),
        ("- move pins: skin.rail.1\n", ("bad-value", 4, 14)),
        ("- move pins: {holes: skin.rail.1}\n", ("missing-word", 4, 14)),
        ("- rivet: [skin.rail.1,3,5]\n", ("bad-value", 4, 23)),
        ("- rivet: skin.rail.1,3\n", ("bad-value", 4, 10)),
        ("- rivet: skin\n", ("bad-value", 4, 10)),
        ("- rivet: skin.rail.0\n", ("bad-value", 4, 10)),
        ("- rivet: skin.rail left.31\n", ("unknown-name", 4, 10)),
        ("- rivet: skin.rail left.28-31\n", ("unknown-name", 4, 10)),
        ("- rivet: rail left.foot.4\n", ("unknown-name", 4, 10)),
        ("- rivet: cross 1.cross 1.12\n", ("unknown-name", 4, 10)),
        ("- rivet: everything redy\n", ("bad-value", 4, 10)),
        ("- rivet: everything ready\n  size: smal\n", ("unknown-name", 5, 9)),
        ("- rivet: everything ready\n  with: pull 9\n", ("unknown-name", 5, 9)),
        ("- rivet: everything ready\n  head: front\n", ("unknown-word", 5, 9)),
        ("- rivet: everything ready\n  head: on rial\n", ("unknown-name", 5, 9)),
        ("- rivet: everything ready\n  through: [skin, rial]\n", ("unknown-name", 5, 19)),
        ("- rivet: everything ready\n  forward of: rial\n", ("unknown-name", 5, 15)),
        ("- rivet: everything ready\n  forward of: x=1,5\n", ("bad-value", 5, 15)),
        ("- rivet: everything ready\n  except: skin.rial\n", ("unknown-name", 5, 11)),
        ("- note: use #30 drill\n", ("value-lost", 4, 13)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, steps: str, place: Where) -> None:
    result = sequence_of(tmp_path, steps)
    assert places(result) == [place]
    assert result.sequence is not None
    assert result.sequence.broken == (1,)


@pytest.mark.parametrize(
    "steps",
    [
        "- place: skin\n",  # the base may be placed by a step
        "- place: rail\n",  # both of them
        "- rivet: skin.rail.3\n",  # the bare name of twin rows
        "- rivet: rail.foot.3\n",  # and of twin parts
        "- rivet: skin.edge.99\n",  # how many there are is known to its edge only
        "- rivet: rail left.foot.1-8\n",  # a range may run over holes that are left out
        "- note: 'use #30 drill'\n",
        "- note: |\n    # not a comment\n",
        "- leave open: skin.cross 1\n  for: a thing that is nowhere\n",
    ],
)
def test_what_is_no_mistake(tmp_path: Path, steps: str) -> None:
    assert places(sequence_of(tmp_path, steps)) == []


def test_steps_keep_their_numbers(tmp_path: Path) -> None:
    result = sequence_of(tmp_path, "- place: rail left\n- plce: skin\n- rivet: skin.rial\n- note: end\n")
    assert result.sequence is not None
    assert [step.number for step in result.sequence.steps] == [1, 4]
    assert result.sequence.broken == (2, 3)


def test_a_comma_says_how_to_write_the_list(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- rivet: [skin.rail.1,3,5]\n"))
    assert finding.fix == "Write each hole out: [skin.rail.1, skin.rail.3]."


def test_words_above_the_steps(tmp_path: Path) -> None:
    text = "format: 1\nmodel: model.yaml\nsteps: []\n"
    plain = loaded(tmp_path, MODEL, text).sequence
    assert plain is not None
    assert (plain.up, plain.bench, plain.finished, plain.finished_at, plain.tools) == (
        "upper",
        "flat",
        False,
        None,
        None,
    )
    said_all = text + "up: Aft-End\nbench: trestles\nfinished: yes\npins owned: {small: 60}\narm span: 700\n"
    full = loaded(tmp_path, MODEL, said_all + "minutes: {rivet: 0.5}\nname: Evening\n")
    assert full.findings == []
    assert full.sequence is not None
    assert (full.sequence.up, full.sequence.bench, full.sequence.finished) == ("aft end", "trestles", True)
    assert full.sequence.finished_at == At(file=str(tmp_path / "sequence.yaml"), line=6, column=1)


def test_a_wrong_word_above_the_steps_is_broken_number_0(tmp_path: Path) -> None:
    text = "format: 1\nmodel: model.yaml\nup: top\nfinished: maybe\nsteps: []\n"
    result = loaded(tmp_path, MODEL, text)
    assert places(result) == [("unknown-word", 3, 5), ("bad-value", 4, 11)]
    assert result.sequence is not None
    assert result.sequence.broken == (0,)
