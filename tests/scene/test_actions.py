"""What a step of every action says and shows: taken off, drilled, bolted, checked, joined apart."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.scene.picture import Scene
from seqviz.scene.step import scene_of_step
from tests.checks.expect import STEPS, built
from tests.checks.rails import STRAPPED

# The strap is 90 wide, so that the tab on it, at y = 110 to 130, stands clear of the floor.
MODEL = STRAPPED.replace("with: blind rivet 4.0", "with: screw").replace(
    "parts:\n", "hardware: {screw: {kind: bolt, diameter: 4.0}}\nparts:\n", 1
)
MODEL = MODEL.replace("[100, 20], [0, 20]]", "[100, 90], [0, 90]]").replace(
    "      eye: {", "      lug: {at: [[23, 80], [37, 80]], size: big, punched: no}\n      eye: {"
)
TAB = """\
  tab:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [30, 0], [30, 20], [0, 20]]
    holes:
      lug: {at: [[8, 10], [22, 10]], size: big}
"""
MODEL = MODEL.replace("placed:\n", f"{TAB}placed:\n", 1)
MODEL += "  tab: {part: tab, match: {lug.1: strap.lug.1, lug.2: strap.lug.2}}\n"
ORDER = """\
  - place: [floor, rail]
    pins: [rail.foot.1, rail.foot.5]
  - apart: bracket set
    steps:
      - place: [strap, tab]
      - drill: tab.lug
      - deburr: strap
      - bolt: tab.lug
        finger tight: yes
      - turn over: {up: lower, bench: blocks}
  - place: bracket set
  - pins: strap.eye.1
  - check: square by the diagonals
    who: a friend
    value: 0.5 mm at most
  - pull pins: strap.eye.1
  - take off: bracket set
  - place: bracket set
  - bolt: everything ready
  - rivet: rail.foot
  - drill out: strap.eye.2
"""


@pytest.fixture(scope="module")
def scenes(tmp_path_factory: pytest.TempPathFactory) -> dict[int, Scene]:
    folder: Path = tmp_path_factory.mktemp("order")
    steps = STEPS.replace("bench: flat", "bench: trestles") + ORDER
    made = built(folder, MODEL, steps)
    return {number: scene_of_step(made, number) for number in range(1, 16)}


@pytest.mark.parametrize(
    ("number", "title", "lines", "holes"),
    [
        (2, "Place strap and tab.", ("Made apart: bracket set.",), ""),
        (3, "Drill 2 holes to 4.1 mm.", ("Made apart: bracket set.",), "Holes: tab.lug 1-2."),
        (4, "Deburr strap.", ("Made apart: bracket set.",), ""),
        # Strap 1.2 and tab 1.0.
        (
            5,
            "Run on 2 bolts, finger tight.",
            ("Made apart: bracket set.", "With screw, grip 2.2 mm. Heads on top."),
            "Holes: tab.lug 1-2.",
        ),
        (6, "Turn the work: lower side up.", ("Made apart: bracket set.", "It lies on blocks then."), ""),
        (7, "Place bracket set.", ("bracket set goes in as one piece: strap and tab.",), ""),
        (8, "Put pins in 1 hole.", (), "Holes: strap.eye 1."),
        (
            9,
            "Check: square by the diagonals.",
            ("Work stops here until it is done.", "By a friend.", "Must be: 0.5 mm at most."),
            "",
        ),
        (11, "Take off bracket set.", (), ""),
        (13, "Tighten 2 bolts.", ("With screw, grip 2.2 mm.",), "Holes: tab.lug 1-2."),
        (15, "Drill out 1 rivet.", (), "Holes: strap.eye 2."),
    ],
)
def test_words(scenes: dict[int, Scene], number: int, title: str, lines: tuple[str, ...], holes: str) -> None:
    words = scenes[number].words
    assert (words.title, words.lines, words.holes) == (f"Step {number}. {title}", lines, holes)


def test_what_is_joined_apart_is_shown_alone(scenes: dict[int, Scene]) -> None:
    assert {item.name for item in scenes[3].items} == {"strap", "tab"}
    # The pins of the main work are not on it.
    assert scenes[3].fitted == ()
    assert {item.name for item in scenes[10].items} == {"floor", "rail", "strap", "tab"}


def test_a_sub_assembly_comes_in_as_one_piece_with_its_bolts(scenes: dict[int, Scene]) -> None:
    scene = scenes[7]
    shifts = {item.name: item.shift for item in scene.items if item.role == "new"}
    assert set(shifts) == {"strap", "tab"}
    assert np.array_equal(shifts["strap"], shifts["tab"])
    assert shifts["strap"][2] > 10.0
    assert len(scene.arrows) == 1
    # Two pins in the rail, and head and tail of two bolts, which are where the strap and the tab are drawn.
    bolts = [one for one in scene.fitted if not one.pin]
    assert (len(scene.fitted), len(bolts)) == (6, 4)
    # Strap's lower side 0.8 + 1.6, tab's upper side 0.8 + 1.6 + 1.2 + 1.0.
    assert {round(float(one.point[2] - shifts["tab"][2]), 6) for one in bolts} == {2.4, 4.6}


def test_what_is_taken_off_leaves(scenes: dict[int, Scene]) -> None:
    off = scenes[11]
    assert off.new == ("strap", "tab")
    (arrow,) = off.arrows
    assert arrow.way[2] > 10.0
    # It starts where the piece is drawn, and the dashed lines where its holes were, at most 5 mm up.
    shift = next(item.shift for item in off.items if item.name == "strap")
    assert arrow.anchors[0][2] - shift[2] == pytest.approx(arrow.guides[0][2])
    assert shift[2] > 10.0
    assert arrow.guides[0][2] < 5.0


def test_holes_drilled_tightened_and_drilled_out_are_marked(scenes: dict[int, Scene]) -> None:
    kinds = {number: [mark.kind for mark in scenes[number].marks] for number in (3, 13, 15)}
    assert kinds == {3: ["drill"] * 2, 13: ["set"] * 2, 15: ["drill out"]}
    # Under a mark no head is drawn: it would hide it. Of five rivets four are left, of the bolts both.
    assert len({one.stack for one in scenes[13].fitted if not one.pin}) == 0
    assert len({one.stack for one in scenes[15].fitted}) == 6


TEMPLATE = """\
  guide plate:
    shape: plate
    thickness: 5.0
    tool: yes
    outline: [[0, 0], [30, 0], [30, 20], [0, 20]]
    holes:
      lead: {at: [[8, 10], [22, 10]], size: big}
"""


@pytest.mark.parametrize("on", ["upper", "lower"])
def test_marks_of_a_drill_stand_on_the_template(tmp_path: Path, on: str) -> None:
    model = MODEL.replace("placed:\n", f"{TEMPLATE}placed:\n", 1)
    target = {"upper": "tab.lug", "lower": "strap.lug"}[on]
    side = {"upper": "outside", "lower": "inside"}[on]
    match = f"{{lead.1: {target}.1, lead.2: {target}.2}}"
    model += f"  guide plate: {{part: guide plate, match: {match}, side: {side}}}\n"
    steps = STEPS.replace("bench: flat", "bench: trestles")
    steps += "  - place: [floor, rail, strap, tab]\n  - place: guide plate\n"
    steps += "  - drill: tab.lug\n    through: guide plate.lead\n  - deburr: tab.lug\n"
    made = built(tmp_path, model, steps)
    placing, drilling, deburring = (scene_of_step(made, number) for number in (2, 3, 4))
    # The plate of 5 on the tab, whose upper side is at 0.8 + 1.6 + 1.2 + 1.0; or under the strap at 2.4.
    outer = {"upper": 4.6 + 5.0, "lower": 2.4 - 5.0}[on]
    assert len(drilling.marks) == 2
    for mark in drilling.marks:
        (end,) = (end for end in mark.ends if end.part == "guide plate")
        assert end.point[2] == pytest.approx(outer)
        assert end.outward[2] == pytest.approx(1.0 if on == "upper" else -1.0)
        assert sum(other.part in ("tab", "strap") for other in mark.ends) == 1
    assert drilling.words.lines == ("Through guide plate.lead.",)
    assert drilling.labels[0].part == "guide plate"
    # Its holes are in no stack; dashed lines lead from them all the same.
    assert len(placing.arrows[0].guides) == 2
    assert (deburring.words.title, deburring.words.holes) == (
        "Step 4. Deburr the holes of tab.",
        "Holes: tab.lug.",
    )
