from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.pile_trial import pile

FLOOR = """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [600, 0], [600, 120], [0, 120]]
    holes:
      rail: {along: left edge, in: 10, first: 20, last in: 20, count: 14, size: small, both sides: yes}
"""
RAIL = """\
  rail:
    shape: angle
    thickness: 1.0
    length: 600
    legs: [20, 25]
    holes: {foot: {flat: leg 1, from: [20, 10], to: [580, 10], count: 14, size: small%s}}
placed:
  rail: {part: rail, match: {foot.1: floor.rail.1, foot.14: floor.rail.14}, both sides: other hand}
"""


def angle(name: str, length: float = 300, first: str = "20", extra: str = "", thickness: float = 1) -> str:
    return (
        f"  {name}:\n    shape: angle\n    thickness: {thickness}\n    length: {length}\n    legs: [20, 25]\n"
        "    bend radius: 1.5\n"
        "    holes:\n"
        f"      foot: {{flat: leg 1, from: [{first}, 10], to: [280, 10], count: 14, size: small{extra}}}\n"
    )


def test_hands_are_mirror_images_and_the_odd_holes_tell_which(tmp_path: Path) -> None:
    assert pile(tmp_path, FLOOR + RAIL % ", 1-2: big").alike == (
        "rail left and rail right are mirror images: foot 1-2 (4.1) lies left of the middle on rail left, "
        "right of the middle on rail right, seen from the outside with leg 1 below.",
    )


def test_hands_that_are_alike_are_one_piece(tmp_path: Path) -> None:
    assert pile(tmp_path, FLOOR + RAIL % "").alike == (
        "rail left and rail right are the same piece: either goes in the other's place.",
    )


def test_other_sizes_of_holes_are_counted(tmp_path: Path) -> None:
    text = FLOOR + angle("one") + angle("two", extra=", 7-8: big")
    assert pile(tmp_path, text).alike == (
        "one and two are of one size: one has 14 of 3.3, two has 12 of 3.3 and 2 of 4.1.",
    )


def test_other_places_name_a_hole_without_a_partner(tmp_path: Path) -> None:
    text = FLOOR + angle("one") + angle("two", first="26")
    # 14 holes from 26 to 280: hole 1 lies 6 mm beside that of the other, which is the first to have none
    assert pile(tmp_path, text).alike == (
        "one and two are of one size and have the same number of holes, in other places: "
        "one.foot.1 has no partner.",
    )


@pytest.mark.parametrize(("length", "found"), [(302, 1), (303, 0)])
def test_two_millimetres_are_hardly_seen_in_the_pile(length: float, found: int, tmp_path: Path) -> None:
    text = FLOOR + angle("one") + angle("two", length=length)
    assert len(pile(tmp_path, text).alike) == found


def test_another_sheet_is_felt_in_the_hand(tmp_path: Path) -> None:
    assert pile(tmp_path, FLOOR + angle("one") + angle("two", thickness=1.2)).alike == ()


def test_a_crowd_is_told_in_one_sentence(tmp_path: Path) -> None:
    rows = ["", ", 1: big", ", 1-2: big", ", 1-3: big", ", 1-4: big"]
    text = FLOOR + "".join(angle(f"piece {n}", extra=extra) for n, extra in enumerate(rows, start=1))
    (told,) = pile(tmp_path, text).alike
    assert told.startswith("piece 1 (14 holes), piece 2 (14 holes), ")
    assert told.endswith("are of one size and differ in their holes.")


@pytest.mark.parametrize(("count", "last"), [(13, "piece 13"), (14, "2 more")])
def test_a_long_list_of_names_is_cut(count: int, last: str, tmp_path: Path) -> None:
    (told,) = pile(tmp_path, FLOOR + "".join(angle(f"piece {n + 1}") for n in range(count))).alike
    assert told.startswith("piece 1, piece 2, ")
    assert f"piece 12 and {last} are the same piece" in told


def test_another_material_is_another_piece(tmp_path: Path) -> None:
    hard = angle("two").replace("thickness", "material: 2024-T3\n    thickness")
    assert pile(tmp_path, FLOOR + angle("one") + hard).alike == (
        "one and two differ in their material only: one names none, two is of 2024-T3.",
    )


def test_hole_sizes_are_told_in_inches_as_they_are_written(tmp_path: Path) -> None:
    # 0.13 in is 3.302 mm: two decimals of a millimetre would make 0.1299 in of it.
    text = """\
sizes: {small: {diameter: 0.13, with: blind rivet 1/8}, big: {diameter: 0.19}}
parts:
  floor: {shape: skin, thickness: 0.06, outline: [[0, 0], [9, 0], [9, 4], [0, 4]]}
  one: {shape: bar, length: 4, width: 1, thickness: .1, holes: {foot: {at: [[1, .5], [3, .5]], size: small}}}
  two: {shape: bar, length: 4, width: 1, thickness: 0.1, holes: {foot: {at: [[1, .5], [3, .5]], size: big}}}
"""
    assert pile(tmp_path, text, "format: 1\nname: Pile\nunits: in\nbase: floor\n").alike == (
        "one and two are of one size: one has 2 of 0.13 in, two has 2 of 0.19 in.",
    )
