"""Sub-assemblies with their steps in a list: their numbers, how they lie, where they may be named."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import Name
from seqviz.records.steps import Apart
from tests.records.written import MODEL, Place, loaded, places, said, sequence_of

NESTED = """\
- place: skin
- apart: long set
  up: rail left.Leg-2 Outside
  bench: trestles
  over the edge: rail left
  note: on the small table
  steps:
    - place: rail left
    - apart: short set
      up: lower
      steps:
        - place: cross 1
        - turn over: sideways
    - place: short set
- rivet: skin.cross 1
- place: long set
"""


def test_steps_are_numbered_where_they_stand(tmp_path: Path) -> None:
    read = sequence_of(tmp_path, NESTED)
    assert read.findings == []
    sequence = read.sequence
    assert sequence is not None
    assert sequence.broken == ()
    assert [(step.number, step.work, step.at.line) for step in sequence.steps] == [
        (1, None, 4),
        (2, "long set", 11),
        (3, "short set", 15),
        (4, "short set", 16),
        (5, "long set", 17),
        (6, None, 18),
        (7, None, 19),
    ]
    file = str(tmp_path / "sequence.yaml")

    def at(line: int, column: int) -> At:
        return At(file=file, line=line, column=column)

    assert sequence.apart == (
        Apart(
            name="long set",
            inside=None,
            up=(Name(text="rail left", at=at(6, 7)), "leg 2", "outside"),
            bench="trestles",
            first=2,
            last=5,
            at=at(5, 3),
            name_at=at(5, 10),
            over_the_edge=(Name(text="rail left", at=at(8, 18)),),
            note="on the small table",
        ),
        Apart(
            name="short set",
            inside="long set",
            up=None,
            up_side="lower",
            bench=None,
            first=3,
            last=4,
            at=at(12, 7),
            name_at=at(12, 14),
        ),
    )


def test_one_without_steps_has_none(tmp_path: Path) -> None:
    read = sequence_of(tmp_path, "- place: skin\n- apart: set\n  steps:\n- place: set\n")
    assert read.findings == []
    assert read.sequence is not None
    (apart,) = read.sequence.apart
    assert (apart.first, apart.last) == (2, 1)
    assert [step.number for step in read.sequence.steps] == [1, 2]


SET = "- apart: set\n  steps: [{place: rail left}]\n"


@pytest.mark.parametrize(
    "steps",
    [
        SET + "- place: [skin, set]\n  pins: all\n",
        SET + "- place: set\n- take off: set\n- place: set\n",
        SET + "- place: set\n- take off: rail left\n- place: rail left\n",
        SET + "- leave open: skin.rail\n  for: set\n- rivet: everything ready\n  through: [set, skin]\n",
        SET + "- rivet: skin.rail\n  head: on set\n  forward of: set\n- prime: [set, skin]\n",
        SET + "- turn over: {up: lower, over the edge: set}\n- pins: all\n  of: set\n",
        # Taken off before it goes into another work.
        "- place: rail left\n- take off: rail left\n" + SET + "- place: set\n",
        # The sub-assembly is taken apart again: its part is free.
        SET + "- place: set\n- take off: [set]\n- apart: two\n  steps: [{place: set}]\n- place: two\n",
        # Its parts lie in the main work then; twice in one work is for the replay to say.
        SET + "- place: set\n- place: rail left\n",
        # What is up is a part of a sub-assembly within.
        NESTED.replace("up: rail left.Leg-2", "up: cross 1.leg 1"),
    ],
)
def test_where_a_sub_assembly_may_stand(tmp_path: Path, steps: str) -> None:
    assert places(sequence_of(tmp_path, steps)) == []


@pytest.mark.parametrize(
    ("steps", "found", "broken"),
    [
        ("- apart: set\n", [("missing-word", 4, 3)], (0,)),
        ("- apart:\n  steps: [{place: rail}]\n", [("bad-value", 4, 3)], (1,)),
        ("- apart\n", [("bad-value", 4, 3)], (1,)),
        ("- apart: a.b\n  steps: [{place: rail}]\n", [("bad-value", 4, 10)], (1,)),
        ("- apart: set\n  steps: place rail\n", [("bad-value", 5, 10)], (0,)),
        ("- apart: set\n  steps: [{plce: rail}, {place: skin}]\n", [("unknown-word", 5, 12)], (1,)),
        ("- apart: set\n  steps: []\n  sequence: a.yaml\n", [("bad-value", 6, 3)], (0,)),
        ("- apart: set\n  steps: []\n  up: top\n", [("unknown-word", 6, 7)], (0,)),
        ("- apart: set\n  steps: []\n  bench: top\n", [("unknown-word", 6, 10)], (0,)),
        ("- apart: set\n  steps: []\n  finished: yes\n", [("unknown-word", 6, 3)], (0,)),
        ("- apart: set\n  place: rail left\n", [("bad-value", 5, 3)], (1,)),
        (SET + "  up: rail left.leg 3 inside\n", [("unknown-name", 6, 7)], (1,)),
        (SET + "  up: rail left.leg 1\n", [("bad-value", 6, 7)], (1,)),
        (SET + "  up: rail lft.leg 1 outside\n", [("unknown-name", 6, 7)], (1,)),
        (SET + "  up: rail right.leg 1 outside\n", [("bad-value", 6, 7)], (1,)),
        (SET + "  over the edge: rial\n", [("unknown-name", 6, 18)], (1,)),
        (SET + "- apart: set\n  steps: [{place: skin}]\n", [("duplicate-name", 6, 10)], (2,)),
        (SET.replace("set", "cross 1"), [("duplicate-name", 4, 10)], (1,)),
        (SET + "- place: st\n", [("unknown-name", 6, 10)], (2,)),
        (SET + "- rivet: set.foot\n", [("unknown-name", 6, 10)], (2,)),
        ("- place: set\n" + SET, [("bad-value", 4, 10)], (1,)),
        ("- apart: set\n  steps: [{place: rail left}, {place: set}]\n", [("bad-value", 5, 39)], (2,)),
        (SET + "- place: rail left\n", [("duplicate-name", 6, 10)], (2,)),
        (SET + "- place: rail\n", [("duplicate-name", 6, 10)], (2,)),
        ("- place: [skin, rail]\n" + SET, [("duplicate-name", 6, 19)], (2,)),
        (SET + "- place: set\n- take off: set\n- place: rail left\n", [("duplicate-name", 8, 10)], (4,)),
        (
            SET
            + "- apart: two\n  up: rial.leg 1 outside\n  steps: [{take off: rail left}]\n"
            + "- place: rail left\n",
            [("unknown-name", 7, 7)],
            (2,),
        ),
        (SET + SET.replace("set", "two"), [("duplicate-name", 7, 19)], (2,)),
        (
            SET + "- place: set\n- apart: two\n  steps: [{place: set}]\n",
            [("duplicate-name", 8, 19)],
            (3,),
        ),
    ],
)
def test_where_mistakes_stand(
    tmp_path: Path, steps: str, found: list[Place], broken: tuple[int, ...]
) -> None:
    read = sequence_of(tmp_path, steps)
    assert places(read) == found
    assert read.sequence is not None
    assert read.sequence.broken == broken


def test_what_hangs_on_a_wrong_one_is_muted(tmp_path: Path) -> None:
    # Its steps are left out, those of one within it too; they keep their numbers.
    steps = NESTED.replace("bench: trestles", "bench: table")
    read = sequence_of(tmp_path, steps + "- plce: x\n")
    assert places(read) == [("unknown-word", 7, 10), ("unknown-word", 20, 3)]
    assert read.sequence is not None
    assert read.sequence.broken == (2, 3, 4, 5, 8)
    assert [step.number for step in read.sequence.steps] == [1, 6, 7]
    assert read.sequence.apart == ()


def test_a_wrong_one_found_by_its_names_takes_those_within_along(tmp_path: Path) -> None:
    read = sequence_of(tmp_path, NESTED.replace("up: rail left.", "up: rial left."))
    assert places(read) == [("unknown-name", 6, 7)]
    assert read.sequence is not None
    assert (read.sequence.broken, read.sequence.apart) == ((2, 3, 4, 5), ())


def test_one_without_a_name_may_be_any(tmp_path: Path) -> None:
    read = sequence_of(tmp_path, "- apart:\n  steps: [{place: rail left}]\n- place: bracket set\n")
    assert places(read) == [("bad-value", 4, 3)]


def test_placed_before_it_is_joined(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- place: set\n" + SET))
    assert finding.message == "`set` is placed here, but is joined only further down."
    assert finding.fix == "Move `apart: set` with its steps before this one."
    assert [(related.at.line, related.at.column) for related in finding.related] == [(5, 10)]


def test_placed_in_two_works(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- place: skin\n" + SET + "- place: rail left\n"))
    expected = "`rail left` lies in the sub-assembly `set` already: step 2 placed it there."
    assert finding.message == expected
    assert [(related.at.line, related.at.column) for related in finding.related] == [(6, 12)]
    # Twice in the same work is for the replay to say: it may have been taken off.
    assert places(sequence_of(tmp_path, "- place: rail left\n- place: rail left\n")) == []
    # After a step that is left out it is not known where things lie.
    lost = SET + "- plce: x\n- place: rail left\n"
    assert places(sequence_of(tmp_path, lost)) == [("unknown-word", 6, 3)]


def test_orders_of_the_maker_may_name_sub_assemblies(tmp_path: Path) -> None:
    model = MODEL + "after:\n  - {first: set, then: [cross 1, sett], why: no room later}\n"
    assert places(loaded(tmp_path, model)) == []
    text = "format: 1\nmodel: model.yaml\nsteps:\n" + SET
    read = loaded(tmp_path, model, text)
    assert places(read) == [("unknown-name", 31, 34)]
    assert read.model.after == ()
