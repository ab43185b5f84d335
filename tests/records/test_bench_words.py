"""How the work lies: up, bench, over the edge, turn over."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import Name
from seqviz.records.steps import TurnOver
from tests.records.written import MODEL, Place, loaded, places, said, sequence_of

HEAD = "format: 1\nmodel: model.yaml\nsteps: []\n"


def test_the_longer_form_of_a_turn(tmp_path: Path) -> None:
    steps = "- turn over: {up: Left-Side, bench: blocks, over_the_edge: [rail left, skin]}\n"
    read = sequence_of(tmp_path, steps)
    assert read.findings == []
    assert read.sequence is not None
    file = str(tmp_path / "sequence.yaml")
    assert read.sequence.steps[0].action == TurnOver(
        how="up",
        side="left side",
        bench="blocks",
        over_the_edge=(
            Name(text="rail left", at=At(file=file, line=4, column=61)),
            Name(text="skin", at=At(file=file, line=4, column=72)),
        ),
    )


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        ("- turn over: upside\n", ("unknown-word", 4, 14)),
        ("- turn over: [sideways]\n", ("bad-value", 4, 14)),
        ("- turn over: {bench: blocks}\n", ("missing-word", 4, 14)),
        ("- turn over: {up: lower, bench: table}\n", ("unknown-word", 4, 33)),
        ("- turn over: {up: lower, over the edge: tail}\n", ("unknown-name", 4, 41)),
        ("- turn over: {up: lower, edge: tail}\n", ("unknown-word", 4, 26)),
    ],
)
def test_slips_of_a_turn(tmp_path: Path, steps: str, place: Place) -> None:
    read = sequence_of(tmp_path, steps)
    assert places(read) == [place]
    assert read.sequence is not None
    assert read.sequence.broken == (1,)


def test_a_sub_assembly_is_turned_among_its_own_steps(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- turn over: bracket set\n"))
    assert finding.message == "`bracket set` is no way to turn the work."
    assert finding.fix == "Write one of these. A sub-assembly is turned by a step among its own."


def test_words_above_the_steps(tmp_path: Path) -> None:
    text = (
        HEAD
        + "up: skin.Face Outside\nbench: Blocks\nover the edge: [rail, skin]\n"
        + "pins owned: {small: 60, big: 0}\n"
    )
    read = loaded(tmp_path, MODEL, text)
    assert read.findings == []
    sequence = read.sequence
    assert sequence is not None
    assert sequence.up_flat is not None
    # The flat in its usual form; the side is what counts where a flat is not understood.
    assert (sequence.up, sequence.up_flat[0].text, sequence.up_flat[1:]) == (
        "upper",
        "skin",
        ("face", "outside"),
    )
    assert (sequence.bench, [name.text for name in sequence.over_the_edge]) == ("blocks", ["rail", "skin"])
    assert sequence.pins_owned == {"small": 60, "big": 0}
    assert sequence.broken == ()


@pytest.mark.parametrize(
    ("line", "place", "broken"),
    [
        ("up: top", ("unknown-word", 4, 5), (0,)),
        ("up: skin.face", ("bad-value", 4, 5), (0,)),
        ("up: skin outside", ("bad-value", 4, 5), (0,)),
        ("up: .face outside", ("bad-value", 4, 5), (0,)),
        ("up: sk/in.face outside", ("bad-value", 4, 5), (0,)),
        ("up: skinn.face outside", ("unknown-name", 4, 5), (0,)),
        ("up: skin.web outside", ("unknown-name", 4, 5), (0,)),
        ("up: rail.leg 1 outside", ("unknown-name", 4, 5), (0,)),
        ("up: cross 1.leg 3 inside", ("unknown-name", 4, 5), (0,)),
        ("bench: table", ("unknown-word", 4, 8), (0,)),
        ("over the edge: rial", ("unknown-name", 4, 16), (0,)),
        ("over the edge: []", ("bad-value", 4, 16), (0,)),
        ("pins owned: {smal: 60}", ("unknown-name", 4, 14), ()),
        ("pins owned: {small: many}", ("bad-value", 4, 21), ()),
        ("pins owned: {small: -1}", ("bad-value", 4, 21), ()),
    ],
)
def test_slips_above_the_steps(tmp_path: Path, line: str, place: Place, broken: tuple[int, ...]) -> None:
    read = loaded(tmp_path, MODEL, HEAD + line + "\n")
    assert places(read) == [place]
    assert read.sequence is not None
    assert read.sequence.broken == broken
    assert read.sequence.pins_owned == {}


def test_which_face_is_said(tmp_path: Path) -> None:
    finding = said(loaded(tmp_path, MODEL, HEAD + "up: skin.face\n"))
    assert finding.message == "`skin.face` does not say which face."
    assert finding.fix == "Write `skin.face outside`."
    finding = said(loaded(tmp_path, MODEL, HEAD + "up: skin.web outside\n"))
    assert (finding.message, finding.why) == ("`skin` has no flat `web`.", "There is face.")
    finding = said(loaded(tmp_path, MODEL, HEAD + "up: rail.leg 1 outside\n"))
    assert finding.fix == "Write rail left or rail right."
