"""Parts and stock: every shape's record, and where its mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.model import AngleShape, BarShape, BlockShape, Opening, PlateShape
from tests.records.written import MODEL, Place, changed, loaded, model_of, places, said


def test_shapes_are_read_in_mm(tmp_path: Path) -> None:
    read = model_of(
        tmp_path,
        """\
        format: 1
        units: in
        base: gusset
        parts:
          gusset:
            shape: Plate
            thickness: 1
            outline: [[0, 0], [1, 0], [0, 25.4 mm]]
            openings:
              eye: {center: [0.2, 0.2], diameter: 1/8}
              slot: {outline: [[0, 0], [1 mm, 0], [0, 1 mm]]}
            how to tell: "the #1"
          clip: {shape: angle, thickness: 0.04, length: 2, legs: [1, 1/2], Angle: 83°}
          strap: {shape: bar, length: 2, width: 1, thickness: 1/4}
          lug: {shape: block, length: 1, width: 1, height: 1, made by: me, number: 010}
        """,
    )
    assert read.findings == []
    parts = read.model.parts
    plate = parts["gusset"].shape
    assert isinstance(plate, PlateShape)
    assert plate.thickness == 25.4
    assert plate.outline == ((0.0, 0.0), (25.4, 0.0), (0.0, 25.4))
    eye, slot = plate.openings
    assert isinstance(eye, Opening)
    assert (eye.name, eye.center, eye.diameter, eye.outline) == ("eye", (5.08, 5.08), 3.175, ())
    assert (slot.center, slot.outline[1]) == (None, (1.0, 0.0))
    assert parts["gusset"].how_to_tell == "the #1"
    # Bend radius left out: 1.5 x 0.04 in = 0.06 in = 1.524 mm.
    clip = parts["clip"].shape
    assert isinstance(clip, AngleShape)
    assert (clip.legs, clip.angle, clip.length) == ((25.4, 12.7), 83.0, 50.8)
    assert clip.bend_radius == pytest.approx(1.524)
    assert parts["strap"].shape == BarShape(length=50.8, width=25.4, thickness=6.35)
    assert parts["lug"].shape == BlockShape(length=25.4, width=25.4, height=25.4)
    assert (parts["lug"].made_by, parts["lug"].number, parts["strap"].made_by) == ("me", "010", "kit")
    assert (parts["clip"].at.line, parts["clip"].at.column) == (13, 3)


def test_stock_has_no_length(tmp_path: Path) -> None:
    stock = loaded(tmp_path, MODEL).model.stock["light angle"]
    # Bend radius left out: 1.5 x 0.6 = 0.9.
    assert isinstance(stock.shape, AngleShape)
    assert stock.shape.bend_radius == pytest.approx(0.9)
    assert (stock.shape.length, stock.shape.legs, stock.shape.angle) == (0.0, (18.0, 18.0), 90.0)
    assert (stock.row_in, stock.ends, stock.at.line) == (9.0, 12.0, 10)


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("thickness: 0.8", "thicknes: 0.8", ("unknown-word", 14, 5)),
        ("thickness: 0.8", "thickness: 0,8", ("bad-value", 14, 16)),
        ("thickness: 0.8", "thickness: #30", ("value-lost", 14, 16)),
        ("thickness: 0.8", "thickness: # 30", ("value-lost", 14, 16)),
        ("thickness: 0.8", "thickness:", ("bad-value", 14, 5)),
        ("thickness: 0.8", "thickness: 0", ("bad-value", 14, 16)),
        ("thickness: 0.8", "thickness: [1]", ("bad-value", 14, 16)),
        ("thickness: 0.8", "thickness: 200 m", ("bad-value", 14, 16)),
        ("thickness: 0.8", "thickness: 200000", ("bad-value", 14, 16)),
        ("    thickness: 0.8\n", "", ("missing-word", 12, 3)),
        ("shape: skin", "shape: skinn", ("unknown-word", 13, 12)),
        ("    shape: skin\n", "", ("missing-word", 12, 3)),
        ("    shape: skin\n", "    shape: skin\n    joggles: 3\n", ("unknown-word", 14, 5)),
        ("[[0, 0], [620, 0], [620, 360], [0, 360]]", "[[0, 0], [620, 0]]", ("bad-value", 15, 14)),
        ("[620, 360]", "[620, 360,5]", ("bad-value", 15, 33)),
        ("legs: [20, 25]", "legs: [20,5, 25]", ("bad-value", 24, 11)),
        ("legs: [20, 25]", "legs: [20, 25]\n    angle: 180", ("bad-value", 25, 12)),
        ("legs: [20, 25]", "legs: [20, 25]\n    bend radius: -1", ("bad-value", 25, 18)),
        (
            "legs: [20, 25]",
            "legs: [20, 25]\n    bend_radius: 2\n    Bend-Radius: 2",
            ("duplicate-name", 26, 5),
        ),
        ("legs: [20, 25]", "legs: [20, 25]\n    made by: factory", ("unknown-word", 25, 14)),
        ("row in: 9, ends: 12", "row in: 9, ends: 12, length: 3", ("unknown-word", 10, 84)),
        ("row in: 9, ends: 12", "row in: 9", ("missing-word", 10, 3)),
        ("  rail:\n    shape: angle", "  ra,il:\n    shape: angle", ("bad-value", 20, 3)),
        ("  rail:\n    shape: angle", "  skin:\n    shape: angle", ("duplicate-name", 20, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, old: str, new: str, place: Place) -> None:
    read = loaded(tmp_path, changed(old, new))
    assert [one for one in places(read) if one[0] != "unknown-name"] == [place]


def test_one_mistake_in_a_part_is_one_finding(tmp_path: Path) -> None:
    read = loaded(tmp_path, changed("thickness: 0.8", "thicknes: 0.8"))
    assert places(read) == [("unknown-word", 14, 5)]
    assert said(read).fix == "Did you mean `thickness`?"
    # The base is broken, so all that hangs on it is muted; sizes and stock stand.
    assert list(read.model.parts) == ["rail"]
    assert read.model.placed == {}
    assert {"skin", "rail left", "rail right", "cross 1"} <= read.model.broken
    assert list(read.model.sizes) == ["small", "big"]


@pytest.mark.parametrize(
    ("opening", "place"),
    [
        ("{center: [9, 9]}", ("missing-word", 17, 7)),
        ("{diameter: 9}", ("missing-word", 17, 7)),
        ("{center: [9, 9], outline: [[0, 0], [1, 0], [0, 1]]}", ("bad-value", 17, 11)),
        ("{center: [9, 9], diameter: 0}", ("bad-value", 17, 37)),
    ],
)
def test_openings(tmp_path: Path, opening: str, place: Place) -> None:
    with_opening = f"    openings:\n      o: {opening}\n    holes:\n      rail:"
    read = loaded(tmp_path, changed("    holes:\n      rail:", with_opening))
    assert places(read) == [place]


def test_the_model_says_who_made_its_parts_and_a_part_may_say_otherwise(tmp_path: Path) -> None:
    text = changed("base: skin", "base: skin\nmade by: me")
    text = text.replace("    legs: [20, 25]\n", "    legs: [20, 25]\n    made by: kit\n")
    model = loaded(tmp_path, text).model
    assert model.made_by == "me"
    assert (model.parts["skin"].made_by, model.parts["rail"].made_by) == ("me", "kit")


def test_parts_are_the_kits_where_nobody_says(tmp_path: Path) -> None:
    model = loaded(tmp_path, changed("base: skin", "base: skin")).model
    assert (model.made_by, {part.made_by for part in model.parts.values()}) == ("kit", {"kit"})


def test_a_maker_nobody_knows_is_told_once(tmp_path: Path) -> None:
    found = loaded(tmp_path, changed("base: skin", "base: skin\nmade by: factory")).findings
    assert [finding.kind for finding in found] == ["unknown-word"]
