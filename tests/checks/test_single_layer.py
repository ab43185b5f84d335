from pathlib import Path

import pytest

from tests.checks.expect import MODEL, SEQUENCE, STEPS, found_as_marked

MID = "mid: {from: [20, 50], to: [180, 50], count: 5, size: small}"
PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.2: floor.mid.2}}\n"
WORK = "  - place: [floor, rail]\n  - rivet: everything ready\n"


def short(mark: str = "  # expect: single-layer") -> str:
    """The rail ends before the floor's holes 4 and 5, which lie at x = 140 and 180."""
    text = MODEL.replace(MID, MID + mark).replace("[180, 0], [180, 20]", "[100, 0], [100, 20]")
    return text.replace("to: [170, 10], count: 5", "to: [90, 10], count: 3") + PLACED


def spare(words: str, mark: str = "") -> str:
    """The rail lies on all holes of the floor's row; another row has no partner at all."""
    return MODEL.replace(MID, f"{MID}\n      spare: {{at: [[20, 90], [40, 90]], {words}}}{mark}") + PLACED


def test_holes_beyond_the_end_of_the_other_part_stand_at_their_row(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, short())[0]
    assert finding.holes == ("floor.mid.4", "floor.mid.5")
    assert (finding.severity, finding.parts) == ("error", ("floor",))
    assert finding.message == "floor.mid 4-5: nothing but floor there; a fastener would hold nothing."


def test_the_last_hole_of_the_other_part_is_enough(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, MODEL + PLACED) == []


def test_later_or_left_open_is_exempt(tmp_path: Path) -> None:
    later = "later:\n  - {holes: floor.mid.4-5, why: a lamp}\n"
    assert found_as_marked(tmp_path, short("") + later) == []
    steps = STEPS + "  - leave open: floor.mid.4-5\n    for: a lamp\n" + WORK
    assert found_as_marked(tmp_path, short(""), steps) == []


def test_one_hole_under_later_does_not_hide_the_next(tmp_path: Path) -> None:
    later = "later:\n  - {holes: floor.mid.4, why: a lamp}\n"
    assert found_as_marked(tmp_path, short() + later)[0].holes == ("floor.mid.5",)


def test_a_whole_row_without_a_partner_waits_until_the_work_is_finished(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, spare("size: small")) == []
    assert found_as_marked(tmp_path, spare("size: small"), STEPS + WORK) == []
    marked = spare("size: small", "  # expect: single-layer")
    assert len(found_as_marked(tmp_path, marked, SEQUENCE + WORK)) == 1


def test_a_plain_diameter_holds_nothing(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, spare("diameter: 3.3"), SEQUENCE + WORK) == []


@pytest.mark.parametrize("words", ["size: small", "diameter: 3.3"])
def test_filled_by_a_step_it_is_told_at_once(tmp_path: Path, words: str) -> None:
    marked = spare(words, "  # expect: single-layer")
    steps = STEPS + "  - place: [floor, rail]\n  - rivet: floor.spare.2\n    use: blind rivet 3.2\n"
    assert found_as_marked(tmp_path, marked, steps)[0].holes == ("floor.spare.2",)


def test_a_part_that_could_not_be_placed_may_belong_there(tmp_path: Path) -> None:
    strap = (
        "  strap:\n    shape: plate\n    thickness: 1.0\n    outline: [[0, 0], [60, 0], [60, 20], [0, 20]]\n"
        "    holes:\n      eye: {at: [[10, 10], [50, 10]], size: small}\nplaced:\n"
    )
    text = short("").replace("placed:\n", strap)
    loose = "  strap: {part: strap, match: {eye.1: floor.mid.4}}  # expect: loose-part\n"
    assert len(found_as_marked(tmp_path, text + loose)) == 1


@pytest.mark.parametrize(("face", "told"), [("", "outside"), (", face: outside", "inside")])
def test_a_part_that_lies_with_the_wrong_face_down(tmp_path: Path, face: str, told: str) -> None:
    # On the line y = 50 the plate can be turned over: its hole 10 beside it lies at y = 60 or at y = 40.
    y = 40 if told == "outside" else 60
    spare = f"spare: {{at: [[100, {y}]], size: small}}  # expect: single-layer"
    text = MODEL.replace(MID, f"{MID}\n      {spare}").replace(
        "  floor:", "  floor:  # expect: layer-undrilled"
    )
    lone = "      lone: {at: [[90, 20]], size: small}\n"
    text = text.replace("[180, 20], [0, 20]", "[180, 30], [0, 30]") + lone
    match = "match: {foot.1: floor.mid.1, foot.5: floor.mid.5}"
    text += f"placed:\n  rail: {{part: rail, {match}{face}}}\n"
    found = found_as_marked(tmp_path, text, SEQUENCE + WORK)
    assert [finding.fix for finding in found if finding.kind == "single-layer"] == [
        f"Write `face: {told}` of rail: turned over it would bring the missing layer."
    ]
