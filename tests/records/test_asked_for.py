"""Orders of the maker, preparations, spaces that stay free."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import Before, KeptSpace, Name, Preparation
from tests.records.written import MODEL, Place, model_of, places, said

WRITTEN = (
    MODEL
    + """\
after:
  - {first: rail, then: [cross 1, skin], why: no room for the bar later}
preparation:
  - {between: [rail left, skin], what: Prime}
  - {between: [rail right, skin, cross 1], what: sealant, why: water}
keep clear:
  cable: {cylinder: 20 mm, from: [0, 5, 9], to: [1 in, 5, 9], why: the cable}
  hand: {cylinder: 90, from: [0, 0, 0], to: [0, 0, 50]}
"""
)


def test_they_are_read(tmp_path: Path) -> None:
    read = model_of(tmp_path, WRITTEN)
    assert read.findings == []
    file = str(tmp_path / "model.yaml")

    def at(line: int, column: int) -> At:
        return At(file=file, line=line, column=column)

    def name(text: str, line: int, column: int) -> Name:
        return Name(text=text, at=at(line, column))

    assert read.model.after == (
        Before(
            first=(name("rail", 31, 13),),
            then=(name("cross 1", 31, 26), name("skin", 31, 35)),
            why="no room for the bar later",
            at=at(31, 5),
        ),
    )
    prime, seal = read.model.preparation
    assert prime == Preparation(
        between=(name("rail left", 33, 16), name("skin", 33, 27)), what="prime", why=None, at=at(33, 5)
    )
    assert (seal.what, seal.why, len(seal.between)) == ("seal", "water", 3)
    assert read.model.keep_clear["cable"] == KeptSpace(
        name="cable",
        diameter=20.0,
        start=(0.0, 5.0, 9.0),
        end=(25.4, 5.0, 9.0),
        why="the cable",
        at=at(36, 3),
    )
    assert list(read.model.keep_clear) == ["cable", "hand"]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("after:\n  - {first: rail}\n", ("missing-word", 31, 5)),
        ("after:\n  - {then: rail}\n", ("missing-word", 31, 5)),
        ("after:\n  - {first: rail, then: []}\n", ("bad-value", 31, 25)),
        ("after:\n  - {first: rail, then: [skin, rail]}\n", ("bad-value", 31, 32)),
        ("after:\n  - {first: rail, than: skin}\n", ("unknown-word", 31, 19)),
        ("preparation:\n  - {between: [skin, rail]}\n", ("missing-word", 31, 5)),
        ("preparation:\n  - {between: [skin], what: prime}\n", ("bad-value", 31, 15)),
        ("preparation:\n  - {between: skin, what: prime}\n", ("bad-value", 31, 15)),
        ("preparation:\n  - {between: [skin, rial], what: prime}\n", ("unknown-name", 31, 22)),
        ("preparation:\n  - {between: [skin, rail], what: paint}\n", ("unknown-word", 31, 35)),
        ("keep clear:\n  a: {cylinder: 0, from: [0, 0, 0], to: [0, 0, 9]}\n", ("bad-value", 31, 17)),
        ("keep clear:\n  a: {cylinder: 5, from: [0, 0], to: [0, 0, 9]}\n", ("bad-value", 31, 26)),
        ("keep clear:\n  a: {cylinder: 5, from: [0, 0, 9], to: [0, 0, 9]}\n", ("bad-value", 31, 41)),
        ("keep clear:\n  a: {from: [0, 0, 0], to: [0, 0, 9]}\n", ("missing-word", 31, 3)),
        ("keep clear:\n  a: {cylinder: 5, to: [0, 0, 9]}\n", ("missing-word", 31, 3)),
        ("keep clear:\n  a.b: {cylinder: 5, from: [0, 0, 0], to: [0, 0, 9]}\n", ("bad-value", 31, 3)),
        ("keep clear:\n  - {cylinder: 5}\n", ("bad-value", 31, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, text: str, place: Place) -> None:
    read = model_of(tmp_path, MODEL + text)
    assert places(read) == [place]
    model = read.model
    # What is wrong is left out and spoils nothing else.
    assert (model.after, model.preparation, model.keep_clear) == ((), (), {})
    assert list(model.placed) == ["rail", "cross 1"]


def test_what_hangs_on_a_wrong_part_is_muted(tmp_path: Path) -> None:
    text = WRITTEN.replace("stock: light angle", "stock: light angel")
    assert [kind for kind, line, _ in places(model_of(tmp_path, text)) if line != 29] == []


def test_a_sub_assembly_cannot_be_told_from_a_slip_in_a_model_alone(tmp_path: Path) -> None:
    read = model_of(tmp_path, MODEL + "after:\n  - {first: bracket set, then: rail}\n")
    assert read.findings == []
    assert len(read.model.after) == 1


def test_a_preparation_is_a_step(tmp_path: Path) -> None:
    text = "preparation:\n  - {between: [skin, rail], what: paint}\n"
    assert said(model_of(tmp_path, MODEL + text)).why == "Here belongs a preparation: prime, seal or deburr."
