from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.pile_trial import HEAD, piece_called, pile


def told(folder: Path, text: str, name: str, head: str = HEAD) -> tuple[str, ...]:
    return piece_called(pile(folder, text, head), name).odd


def sheet(name: str = "floor", *more: str) -> str:
    lines = [
        f"parts:\n  {name}:",
        "    shape: skin",
        "    thickness: 0.8",
        "    outline: [[0, 0], [300, 0], [300, 120], [0, 120]]",
        *(f"    {line}" for line in more),
    ]
    return "\n".join(lines) + "\n"


EVEN = "holes: {edge: {from: [20, 10], to: [280, 10], count: 14, size: small, both sides: yes}}"


def test_nothing_odd_looks_the_same_however_it_is_turned(tmp_path: Path) -> None:
    assert told(tmp_path, sheet("floor", EVEN), "floor") == ("It looks the same however it is turned.",)


def test_an_opening_off_the_middle_is_the_odd_hole_in_bench_words(tmp_path: Path) -> None:
    text = sheet("floor", EVEN, "openings: {cable hole: {center: [150, 80], diameter: 40}}")
    # y 80 of 120, forward +x: left
    assert told(tmp_path, text, "floor") == (
        "Odd hole: cable hole (40 wide), left of the middle.",
        "It looks the same turned over end over end.",
    )


@pytest.mark.parametrize(("forward", "said"), [("-x", "right of"), ("+y", "forward of"), ("-y", "aft of")])
def test_bench_words_follow_forward(forward: str, said: str, tmp_path: Path) -> None:
    text = sheet("floor", EVEN, "openings: {cable hole: {center: [150, 80], diameter: 40}}")
    head = HEAD.replace("forward: +x", f"forward: {forward}")
    assert told(tmp_path, text, "floor", head)[0] == f"Odd hole: cable hole (40 wide), {said} the middle."


def test_a_bigger_hole_is_odd_and_the_small_one_across_is_not(tmp_path: Path) -> None:
    even = "holes: {edge: {from: [20, 60], to: [280, 60], count: 14, size: small, 3: big}}"
    assert told(tmp_path, sheet("floor", even), "floor")[0] == "Odd hole: edge 3 (4.1), aft of the middle."


def test_a_part_that_is_not_the_base_is_told_as_on_its_flat_pattern(tmp_path: Path) -> None:
    text = sheet("floor") + (
        "  doubler:\n    shape: plate\n    thickness: 1\n"
        "    outline: [[0, 0], [80, 0], [80, 40], [0, 40]]\n"
        "    holes:\n      foot: {from: [10, 20], to: [70, 20], count: 4, size: small}\n"
        "      odd: {at: [[60, 30]], size: big}\n"
    )
    assert told(tmp_path, text, "doubler")[0] == (
        "Odd hole: odd 1 (4.1), right of the middle and above it, seen from the outside."
    )


def test_a_shape_that_no_turn_leaves_as_it_is(tmp_path: Path) -> None:
    text = sheet("floor") + (
        "  gusset: {shape: plate, thickness: 1, outline: [[0, 0], [60, 0], [60, 80], [40, 80], [0, 20]]}\n"
    )
    assert told(tmp_path, text, "gusset") == ("Its shape tells how it lies.",)


ANGLE = (
    "  rail:\n    shape: angle\n    thickness: 1\n    length: 300\n    legs: [20, 25]\n"
    "    holes: {foot: {flat: leg 1, from: [20, 10], to: [280, 10], count: 14, size: small%s}}\n"
)


def test_an_angle_that_does_for_both_hands(tmp_path: Path) -> None:
    assert told(tmp_path, sheet("floor") + ANGLE % "", "rail") == (
        "It is its own mirror image: one piece does for both hands.",
    )


def test_an_angle_with_an_odd_end(tmp_path: Path) -> None:
    assert told(tmp_path, sheet("floor") + ANGLE % ", 1-2: big", "rail") == (
        "Odd holes: foot 1-2 (4.1), left of the middle, seen from the outside with leg 1 below.",
    )


def test_equal_legs_and_one_row_say_which_leg(tmp_path: Path) -> None:
    text = sheet("floor") + (ANGLE % "").replace("[20, 25]", "[20, 20]")
    assert told(tmp_path, text, "rail") == (
        "Odd holes: row foot (3.3), on leg 1.",
        "It is its own mirror image: one piece does for both hands.",
    )


def test_a_block_is_told_by_its_flats(tmp_path: Path) -> None:
    text = sheet("floor") + (
        "  lug:\n    shape: block\n    length: 40\n    width: 20\n    height: 10\n"
        "    holes: {foot: {flat: top, at: [[10, 10]], size: small}}\n"
    )
    assert told(tmp_path, text, "lug")[0] == "Odd hole: foot 1 (3.3), towards back."


def test_a_rolled_sheet_is_told_as_it_lies_flat(tmp_path: Path) -> None:
    text = sheet("floor") + (
        "  nose:\n    shape: skin\n    thickness: 0.8\n"
        "    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]\n"
        "    rolled: {about: [[0, 100], [300, 100]], radius: 40, angle: 120}\n"
        "    holes: {edge: {from: [20, 190], to: [280, 190], count: 8, size: small}}\n"
    )
    assert told(tmp_path, text, "nose") == (
        "Odd holes: row edge (3.3), above the middle, seen from the outside.",
        "It is its own mirror image: one piece does for both hands.",
    )
