"""Preparing surfaces, hold points."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Name
from seqviz.records.steps import HoldPoint, Prepare
from tests.records.written import Place, places, said, sequence_of


def test_preparing_is_read(tmp_path: Path) -> None:
    read = sequence_of(
        tmp_path,
        "- deburr: [skin.rail.1-9, rail, skin.edge]\n- prime: skin\n- Seal: skin.edge\n  note: thin\n",
    )
    assert read.findings == []
    assert read.sequence is not None
    file = str(tmp_path / "sequence.yaml")
    deburr, prime, seal = read.sequence.steps
    assert deburr.action == Prepare(
        what="deburr",
        names=(Name(text="rail", at=At(file=file, line=4, column=27)),),
        holes=(
            HoleChoice(placed="skin", row="rail", first=1, last=9, at=At(file=file, line=4, column=12)),
            HoleChoice(placed="skin", row="edge", first=None, last=None, at=At(file=file, line=4, column=33)),
        ),
    )
    assert isinstance(prime.action, Prepare)
    assert (prime.action.what, [name.text for name in prime.action.names]) == ("prime", ["skin"])
    assert isinstance(seal.action, Prepare)
    assert (seal.action.what, seal.action.names, len(seal.action.holes), seal.note) == ("seal", (), 1, "thin")


def test_hold_points_are_read(tmp_path: Path) -> None:
    read = sequence_of(
        tmp_path,
        """\
        - check: square by the diagonals
          value: 0.5 mm at most
        - inspect: the bucked tails
          who: second pair of eyes
        - fit: the forward tab
          note: file, do not bend
        """,
    )
    assert read.findings == []
    assert read.sequence is not None
    assert [step.action for step in read.sequence.steps] == [
        HoldPoint(what="check", text="square by the diagonals", who=None, value="0.5 mm at most"),
        HoldPoint(what="inspect", text="the bucked tails", who="second pair of eyes", value=None),
        HoldPoint(what="fit", text="the forward tab", who=None, value=None),
    ]
    assert read.sequence.steps[2].note == "file, do not bend"


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        ("- prime: rial\n", ("unknown-name", 4, 10)),
        ("- prime: [skin, skin.rial]\n", ("unknown-name", 4, 17)),
        ("- prime: [skin, skin.edge.0]\n", ("bad-value", 4, 17)),
        ("- deburr: []\n", ("bad-value", 4, 11)),
        ("- deburr:\n", ("bad-value", 4, 3)),
        ("- seal: [[skin]]\n", ("bad-value", 4, 10)),
        ("- seal: ra/il\n", ("bad-value", 4, 9)),
        ("- seal: skin\n  with: goo\n", ("unknown-word", 5, 3)),
        ("- check:\n", ("bad-value", 4, 3)),
        ("- check\n", ("bad-value", 4, 3)),
        ("- check: # diagonals\n", ("value-lost", 4, 10)),
        ("- check: square\n  when: now\n", ("unknown-word", 5, 3)),
        ("- inspect: square\n  who: [a, b]\n", ("bad-value", 5, 8)),
        ("- fit: {a: b}\n", ("bad-value", 4, 8)),
        ("- chekc: square\n", ("unknown-word", 4, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, steps: str, place: Place) -> None:
    read = sequence_of(tmp_path, steps)
    assert places(read) == [place]
    assert read.sequence is not None
    assert read.sequence.broken == (1,)


def test_a_check_says_what_is_looked_at(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- check:\n"))
    assert finding.message == "`check` has no value."
    assert finding.why == "Here belongs a text that says what."
