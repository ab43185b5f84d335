"""Entries of ``placed``."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import FixedPose, HoleChoice, Match
from tests.records.written import MODEL, Place, changed, loaded, places

RAIL = "rail: {part: rail, match: {foot.1: skin.rail.1, foot.30: skin.rail.30}, both sides: other hand}"
"""Stands in line 28, column 3, of MODEL."""
CROSS = "cross 1: {stock: light angle, along: skin.cross 1, over: [rail left, rail right]}"
"""Stands in line 29, column 3, of MODEL."""


def test_entries_are_read(tmp_path: Path) -> None:
    placed = loaded(tmp_path, MODEL).model.placed
    file = str(tmp_path / "model.yaml")
    rail, cross = placed["rail"], placed["cross 1"]
    assert rail.part is not None
    assert (rail.part.text, rail.stock, rail.both_sides, rail.at.line) == ("rail", None, "other hand", 28)
    assert rail.match[1] == Match(
        row="foot",
        number=30,
        target=HoleChoice(placed="skin", row="rail", first=30, last=30, at=At(file=file, line=28, column=60)),
        at=At(file=file, line=28, column=51),
    )
    assert rail.match_at == At(file=file, line=28, column=22)
    assert cross.along == HoleChoice(
        placed="skin", row="cross 1", first=None, last=None, at=At(file=file, line=29, column=40)
    )
    assert [name.text for name in cross.over] == ["rail left", "rail right"]
    assert (cross.face, cross.side, cross.standing_leg, cross.under, cross.pose) == (
        None,
        None,
        None,
        (),
        None,
    )


def test_words_beside_the_match(tmp_path: Path) -> None:
    text = RAIL.replace(
        "both sides: other hand", "face: Inside, side: upper, standing leg: outboard, under: cross 1"
    )
    text_without = changed(RAIL, text).replace(", over: [rail left, rail right]", "")
    read = loaded(tmp_path, text_without)
    assert read.findings == []
    rail = read.model.placed["rail"]
    assert rail.standing_leg is not None
    assert (rail.face, rail.side, rail.standing_leg.text) == ("inside", "upper", "outboard")
    assert [name.text for name in rail.under] == ["cross 1"]


def test_a_part_at_a_point(tmp_path: Path) -> None:
    text = "post: {part: rail, at: [1, 2, 0.5 in], x along: up, y along: aft}"
    read = loaded(tmp_path, changed(CROSS, text))
    assert read.findings == []
    assert read.model.placed["post"].pose == FixedPose(
        point=(1.0, 2.0, 12.7),
        x_along="up",
        y_along="aft",
        at=At(file=str(tmp_path / "model.yaml"), line=29, column=26),
    )


@pytest.mark.parametrize(
    ("entry", "place"),
    [
        ("cross 1: {part: ral, match: {foot.1: skin.rail left.1}}", ("unknown-name", 29, 19)),
        ("cross 1: {stock: ligt angle, along: skin.cross 1}", ("unknown-name", 29, 20)),
        ("cross 1: {match: {foot.1: skin.rail left.1}}", ("missing-word", 29, 3)),
        ("cross 1: {part: rail}", ("missing-word", 29, 3)),
        ("cross 1: {part: rail, match: {}}", ("bad-value", 29, 32)),
        (
            "cross 1: {part: rail, match: {foot.1: skin.rail left.1, foot.1: skin.edge.1}}",
            ("duplicate-name", 29, 59),
        ),
        ("cross 1: {part: rail, match: {foot.1:skin.rail left.1}}", ("bad-value", 29, 33)),
        ("cross 1: {part: rail, match: {foot.1: skin.rail left.1,3}}", ("bad-value", 29, 41)),
        ("cross 1: {part: rail, match: {foot: skin.rail left.1}}", ("bad-value", 29, 33)),
        ("cross 1: {part: rail, match: {foot.1: skin.rail left}}", ("bad-value", 29, 41)),
        ("cross 1: {part: rail, match: {foot.1: skin.rail left.1-3}}", ("bad-value", 29, 41)),
        ("cross 1: {part: rail, match: {foot.31: skin.rail left.1}}", ("unknown-name", 29, 33)),
        ("cross 1: {part: rail, match: {foot.4: skin.rail left.1}}", ("unknown-name", 29, 33)),
        ("cross 1: {part: rail, match: {foot.7: skin.rail left.1}}", ("unknown-name", 29, 33)),
        ("cross 1: {part: rail, match: {fot.1: skin.rail left.1}}", ("unknown-name", 29, 33)),
        ("cross 1: {part: rail, match: {foot.1: skin.rail left.31}}", ("unknown-name", 29, 41)),
        ("cross 1: {part: rail, match: {foot.1: skin.rial.1}}", ("unknown-name", 29, 41)),
        ("cross 1: {part: rail, match: {foot.1: skni.rail.1}}", ("unknown-name", 29, 41)),
        ("cross 1: {part: rail, match: {foot.1: cross 1.foot.1}}", ("bad-value", 29, 41)),
        ("cross 1: {part: rail, along: skin.cross 1, match: {foot.1: skin.edge.1}}", ("bad-value", 29, 46)),
        (
            "cross 1: {part: rail, match: {foot.1: skin.edge.1, foot.2: skin.edge.2}, ends: 9}",
            ("bad-value", 29, 76),
        ),
        ("cross 1: {stock: light angle, along: skin.cross 1, row in: 9}", ("bad-value", 29, 54)),
        ("cross 1: {part: rail, along: skin.cros 1}", ("unknown-name", 29, 32)),
        ("cross 1: {stock: light angle, along: skin.cross 1, part: rail}", ("bad-value", 29, 54)),
        ("cross 1: {stock: light angle, along: skin.cross 1.2}", ("bad-value", 29, 40)),
        ("cross 1: {stock: light angle, along: skin.cross 1, at: [1, 2, 3]}", ("bad-value", 29, 54)),
        ("cross 1: {stock: light angle}", ("missing-word", 29, 3)),
        ("cross 1: {part: rail, at: [1, 2, 3], x along: up}", ("missing-word", 29, 3)),
        ("cross 1: {part: rail, at: [1, 2, 3], x along: up, y along: down}", ("bad-value", 29, 62)),
        ("cross 1: {part: rail, at: [1, 2], x along: up, y along: aft}", ("bad-value", 29, 29)),
        (
            "cross 1: {part: rail, at: [1, 2, 3], x along: up, y along: aft, face: inside}",
            ("bad-value", 29, 67),
        ),
        (
            "cross 1: {stock: light angle, along: skin.cross 1, standing leg: outbord}",
            ("unknown-word", 29, 68),
        ),
        (
            "cross 1: {stock: light angle, along: skin.cross 1, over: [rail left, rial]}",
            ("unknown-name", 29, 72),
        ),
        ("cross 1: {stock: light angle, along: skin.cross 1, over: cross 1}", ("bad-value", 29, 60)),
        ("cross 1: {part: rail, match: {foot.1: rail left.foot.1}, side: upper}", ("bad-value", 29, 66)),
        (
            "cross 1: {stock: light angle, along: skin.cross 1, both sides: mirrored}",
            ("unknown-word", 29, 66),
        ),
        ("rail: {stock: light angle, along: skin.cross 1}", ("duplicate-name", 29, 3)),
        ("rail left: {stock: light angle, along: skin.cross 1}", ("duplicate-name", 29, 3)),
        ("skin: {part: skin, match: {cross 1.1: rail left.foot.1}}", ("duplicate-name", 29, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, entry: str, place: Place) -> None:
    assert places(loaded(tmp_path, changed(CROSS, entry))) == [place]
