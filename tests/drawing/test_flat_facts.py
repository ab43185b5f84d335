from __future__ import annotations

import math
from pathlib import Path

import pytest

from seqviz.drawing.flat_facts import flat_facts, why_not_flat
from seqviz.trade.bends import FORMULAS
from tests.drawing.trial import MODEL, built, facts_of, kind_called


def test_what_stands_on_the_sheet_of_a_skin(tmp_path: Path) -> None:
    facts = facts_of(tmp_path, "taper")
    assert facts.lines == (
        "Skin of 0.8 mm sheet, 6061-T6. Cut out flat: 420 mm by 240 mm.",
        "Number T-12.",
        "1 piece: taper.",
        "Seen from the outside.",
    )
    assert facts.openings == ("cable hole, diameter 70 mm", "slot, 80 mm by 20 mm")
    assert facts.bends == ()
    assert not any("bend" in note for note in facts.notes)


def test_holes_at_one_place_count_once_and_groups_go_by_number(tmp_path: Path) -> None:
    facts = facts_of(tmp_path, "taper")
    # fore: 9, of which 2-3 big; same.1 lies on fore.1; rail: 4 on both sides
    assert [(group.diameter, group.sizes, len(group.holes)) for group in facts.groups] == [
        (3.3, ("small",), 7 + 8),
        (4.1, ("big",), 2),
    ]


def test_bends_are_told_with_their_place_and_formula(tmp_path: Path) -> None:
    facts = facts_of(tmp_path, "rail left")
    # leg 1 without its setback 20 - 3.4 = 16.6; the bend pi / 2 x 2.9 = 4.56; its middle at 16.6 + 2.28
    assert math.pi / 2 * 2.9 == pytest.approx(4.56, abs=0.005)
    assert facts.bends == ("B1 down 90°, R 2.4 mm",)
    assert facts.notes[0] == (
        "B1, leg 1 to leg 2: bend down 90 degrees, inside radius 2.4 mm. Its middle is 18.88 mm from the "
        "lower edge; the bend takes 4.56 mm, from 16.6 mm to 21.16 mm."
    )
    assert any(FORMULAS["neutral axis"] in note for note in facts.notes)
    assert "The designer's drawing governs." in facts.notes


def test_the_other_hand_says_so(tmp_path: Path) -> None:
    hands = {name: facts_of(tmp_path, name).lines for name in ("rail left", "rail right")}
    mirrored = [name for name, lines in hands.items() if any("other hand of rail" in line for line in lines)]
    assert mirrored == ["rail right"]
    assert all("Seen from the outside of leg 1." in lines for lines in hands.values())


def test_inches(tmp_path: Path) -> None:
    inches = MODEL.replace("base: taper", "units: in\nbase: taper")
    facts = facts_of(tmp_path, "taper", inches)
    assert facts.lines[0] == "Skin of 0.8 in sheet, 6061-T6. Cut out flat: 420 in by 240 in."


def test_what_has_no_flat_pattern_says_why(tmp_path: Path) -> None:
    made = built(tmp_path)
    for name, why in (
        ("lug", "lug is a block, and not one sheet that is cut out flat."),
        ("idea", "idea has no dimensions yet."),
    ):
        kind = kind_called(made, name)
        assert flat_facts(made, kind) is None
        assert why_not_flat(kind) == why


def test_a_roll_is_no_bend(tmp_path: Path) -> None:
    text = MODEL.replace(
        "  lug:",
        "  nose:\n    shape: skin\n    thickness: 0.8\n"
        "    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]\n"
        "    rolled: {about: [[0, 100], [300, 100]], radius: 40, angle: 120}\n  lug:",
    )
    # 120 degrees of 40 + 0.4: 84.61, half of it on either side of 100
    assert facts_of(tmp_path, "nose", text).notes[0] == (
        "B1, face: roll down 120 degrees, inside radius 40 mm. Its middle is 100 mm from the lower edge; "
        "the bend takes 84.61 mm, from 57.69 mm to 142.31 mm."
    )


def test_a_frame_is_seen_as_its_web(tmp_path: Path) -> None:
    text = MODEL.replace(
        "  lug:",
        "  rib:\n    shape: frame\n    thickness: 0.8\n    outline: [[0, 0], [300, 0], [300, 90], [0, 90]]\n"
        "    bend radius: 1.2\n    flanges: {right edge: {width: 18}}\n  lug:",
    )
    facts = facts_of(tmp_path, "rib", text)
    assert facts.lines[-1] == "Seen from the outside of the web."
    # setback 2 of web and flange: 88 + 16 + pi / 2 x 1.6 = 106.51
    assert "Cut out flat: 300 mm by 106.51 mm." in facts.lines[0]
    assert facts.bends == ("B1 down 90°, R 1.2 mm",)
