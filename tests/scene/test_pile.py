from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from seqviz.report.pile_document import pile_as_json
from seqviz.report.pile_text import pile_text
from seqviz.scene.lengths import weight_text
from tests.scene.pile_trial import HEAD, piece_called, pile

FLOOR = """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    material: 6061-T6
    how to tell: the only sheet
    outline: [[0, 0], [300, 0], [300, 120], [0, 120]]
    openings: {cable hole: {center: [150, 80], diameter: 40}}
    holes:
      rail: {along: left edge, in: 10, first: 20, last in: 20, count: 14, size: small, both sides: yes}
"""
RAIL = """\
  rail:
    shape: angle
    thickness: 1.0
    number: R-7
    drawing: sheet 2
    material: %s
    length: 300
    legs: [20, 25]
    bend radius: 2.4
    holes: {foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 14, size: small, 1-2: big}}
placed:
  rail: {part: rail, match: {foot.1: floor.rail.1, foot.14: floor.rail.14}, both sides: other hand}
"""


def test_sizes_and_weights_by_hand(tmp_path: Path) -> None:
    found = pile(tmp_path, FLOOR + RAIL % "2024-T3")
    floor, rail = piece_called(found, "floor"), piece_called(found, "rail left")
    assert floor.size == pytest.approx((300, 120, 0.8))
    assert floor.flat == pytest.approx((300, 120))
    # 300 x 120 less the opening and 28 holes, 0.8 thick, 2.70 g/cm3
    area = 300 * 120 - math.pi / 4 * 40**2 - 28 * math.pi / 4 * 3.3**2
    assert floor.weight == pytest.approx(area * 0.8 * 2.70e-3, rel=1e-3)
    assert rail.size == pytest.approx((300, 20, 25))
    # legs without their setback of 3.4, and pi / 2 x 2.9 between them
    wide = 16.6 + 21.6 + math.pi / 2 * 2.9
    assert rail.flat == pytest.approx((300, wide), abs=1e-5)
    holes = 12 * math.pi / 4 * 3.3**2 + 2 * math.pi / 4 * 4.1**2
    assert rail.weight == pytest.approx((wide * 300 - holes) * 2.78e-3, rel=1e-3)
    assert floor.weight is not None
    assert rail.weight is not None
    assert found.weight == pytest.approx(floor.weight + 2 * rail.weight)


def test_each_hand_is_counted(tmp_path: Path) -> None:
    found = pile(tmp_path, FLOOR + RAIL % "2024-T3")
    assert {piece.name: (len(piece.placed), piece.other_hand) for piece in found.pieces} == {
        "floor": (1, False),
        "rail left": (1, False),
        "rail right": (1, True),
    }


def test_rows_tell_what_is_different(tmp_path: Path) -> None:
    rail = piece_called(pile(tmp_path, FLOOR + RAIL % "2024-T3"), "rail left")
    (row,) = rail.rows
    assert (row.name, row.count) == ("foot", 14)
    assert row.sizes == ((3.3, tuple(range(3, 15))), (4.1, (1, 2)))
    assert (rail.number, rail.drawing, rail.holes) == ("R-7", "sheet 2", 14)


def test_the_text(tmp_path: Path) -> None:
    lines = pile_text(pile(tmp_path, FLOOR + RAIL % "2024-T3"), "mm").splitlines()
    assert lines[0].split() == ["part", "needed", "size", "flat", "sheet", "weight", "holes"]
    assert lines[1] == "floor       1       300 x 120 x 0.8  300 x 120    0.8    75 g    28"
    assert lines[2] == "rail left   1       300 x 20 x 25    300 x 42.76  1      35 g    14"
    text = "\n".join(lines)
    assert "floor: skin, 6061-T6\n" in text
    assert "rail right: angle, other hand, 2024-T3, number R-7, drawing sheet 2\n" in text
    assert "  Row foot: 14 holes of 3.3, but 1-2 of 4.1.\n" in text
    assert "  How to tell: The only sheet.\n" in text
    # 75 + 2 x 35
    assert text.endswith("3 pieces of 3 kinds, 145 g in all without fasteners. Lengths in mm.")


def test_a_material_that_is_not_listed_has_no_weight(tmp_path: Path) -> None:
    found = pile(tmp_path, FLOOR + RAIL % "oak")
    assert piece_called(found, "rail left").weight is None
    assert found.unweighed == ("rail left", "rail right")
    assert "Not weighed: rail left and rail right." in pile_text(found, "mm").replace("\n", " ")


def test_no_material_is_told_to_be_taken_as_aluminium(tmp_path: Path) -> None:
    found = pile(tmp_path, FLOOR.replace("    material: 6061-T6\n", ""))
    assert piece_called(found, "floor").weight is not None
    assert "aluminium of 2.70 g/cm3 is assumed." in pile_text(found, "mm").replace("\n", " ")


def test_a_sketch_has_its_rows_and_nothing_else(tmp_path: Path) -> None:
    text = (
        "parts:\n  floor: {shape: sketch, thickness: 0.8}\n  rail: {shape: sketch, thickness: 1.6}\n"
        "  spare: {shape: bar, length: 10, width: 10, thickness: 2}\n"
        "rows:\n  foot: {layers: [rail, floor], count: 30, size: small}\n"
    )
    found = pile(tmp_path, text)
    rail = piece_called(found, "rail")
    assert (rail.size, rail.flat, rail.thickness, rail.weight, rail.holes) == (None, None, 1.6, None, 30)
    assert rail.odd == ()
    told = pile_text(found, "mm")
    assert "rail   1       not known" in told
    assert "Not placed yet: spare." in told


def test_inches_weigh_in_ounces(tmp_path: Path) -> None:
    text = "parts:\n  floor: {shape: bar, length: 10, width: 4, thickness: 1/2}\n"
    found = pile(tmp_path, text, HEAD.replace("base:", "units: in\nbase:"))
    told = pile_text(found, "in")
    # 20 in3 x 16.387 cm3 x 2.70 g = 884.9 g = 31.2 oz = 1.95 lb
    assert "10 x 4 x 0.5 in" in told
    assert "1.95 lb" in told
    assert "Lengths in mm" not in told


@pytest.mark.parametrize(
    ("grams", "units", "told"),
    [(7.84, "mm", "7.8 g"), (72.4, "mm", "72 g"), (1234, "mm", "1.23 kg"), (28.35, "in", "1.00 oz")],
)
def test_weights_are_told_as_a_scale_shows_them(grams: float, units: str, told: str) -> None:
    assert weight_text(grams, units) == told


def test_the_document_holds_the_same(tmp_path: Path) -> None:
    found = json.loads(pile_as_json("m.yaml", pile(tmp_path, FLOOR + RAIL % "2024-T3")))
    assert (found["format"], found["model"], found["units"]) == (1, "m.yaml", {"length": "mm", "weight": "g"})
    rail = found["parts"][1]
    assert (rail["name"], rail["needed"], rail["placed"]) == ("rail left", 1, ["rail left"])
    assert rail["size"] == [300, 20, 25]
    assert rail["rows"] == [
        {
            "row": "foot",
            "holes": 14,
            "sizes": [
                {"diameter": 3.3, "numbers": list(range(3, 15))},
                {"diameter": 4.1, "numbers": [1, 2]},
            ],
        }
    ]
    assert rail["density source"].startswith("nominal density")
    assert found["weight"] == pytest.approx(145, abs=1)


def test_no_parts_at_all(tmp_path: Path) -> None:
    assert pile_text(pile(tmp_path, "parts: {}\n"), "mm") == "No parts.\n"
