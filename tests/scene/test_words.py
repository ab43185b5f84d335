"""What a step says."""

from dataclasses import replace
from pathlib import Path

import pytest

from seqviz.scene.step import scene_of_step
from seqviz.scene.words import Words, words_of_step
from seqviz.sequence.replay_types import Cause, NoWay
from tests.checks.expect import STEPS, built
from tests.scene.tray import scene, stop_scene, tray


@pytest.mark.parametrize(
    ("number", "title", "lines", "holes"),
    [
        (1, "Step 1. Place bottom.", ("Deburr every edge first. Gloves on for raw sheet.",), ""),
        # 4 holes named, each row stands for both sides: 8 pins.
        (2, "Step 2. Place side angle left and side angle right.", ("Pins in 8 holes.",), ""),
        (
            3,
            "Step 3. Leave 4 holes open for the end angles, which lie over them.",
            (),
            "Holes: side angle left.foot 1, 11, side angle right.foot 1, 11.",
        ),
        # 2 rows of 11, less 3 each that stay open: 16. Angle 0.8 on bottom 0.8: grip 1.6.
        (
            5,
            "Step 5. Pull 16 blind rivets.",
            ("With pull 3.2 length 6, grip 1.6 mm. Heads on top.",),
            "Holes: side angle left.foot 2-5, 7-10, side angle right.foot 2-5, 7-10.",
        ),
        (
            6,
            "Step 6. 4 holes need not stay open any longer.",
            (),
            "Holes: side angle left.foot 1, 11, side angle right.foot 1, 11.",
        ),
        (10, "Step 10. Turn the work over sideways.", (), ""),
        # Pad 1.0, bottom 0.8, divider 0.8: grip 2.6. The work lies on its upper side: heads on top again.
        (
            12,
            "Step 12. Pull 4 blind rivets.",
            ("With pull 3.2 length 6, grip 2.6 mm. Heads on top.",),
            "Holes: foot pad.rim 1-4.",
        ),
        (
            13,
            "Step 13.",
            ("Feel along every row for a head that stands off.",),
            "",
        ),
    ],
)
def test_words(number: int, title: str, lines: tuple[str, ...], holes: str) -> None:
    assert scene(number).words == Words(title=title, lines=lines, holes=holes)


def test_two_grips_are_told_apart() -> None:
    # Front and back 2-7 (12) and divider 2, 7: two layers of 0.8. Corners (4) and the divider's ends: three.
    words = scene(9).words
    assert words.title == "Step 9. Pull 20 blind rivets."
    assert words.lines[0] == "With pull 3.2 length 6, grip 1.6 mm in 14, 2.4 mm in 6. Heads on top."
    assert words.lines[1] == "Four holes of the divider wait for the foot pad."


@pytest.mark.parametrize(
    ("number", "title", "lines", "holes"),
    [
        (1, "Step 1.", ("Wear gloves.",), ""),
        (2, "Step 2. Place bottom and divider.", (), ""),
        (3, "Step 3. Place stop.", ("Pins in 2 holes.",), ""),
        (4, "Step 4. Take out 1 pin.", (), "Holes: stop.foot 2."),
        (5, "Step 5. Move 1 pin to the lower side.", (), "Holes: stop.foot 1."),
        (6, "Step 6. Turn the work over end over end.", (), ""),
    ],
)
def test_words_about_pins(number: int, title: str, lines: tuple[str, ...], holes: str) -> None:
    assert stop_scene(number).words == Words(title=title, lines=lines, holes=holes)


def test_each_length_is_told_with_its_number(tmp_path: Path) -> None:
    model = """\
format: 1
base: skin
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  big: {diameter: 5.0}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
  strap: {shape: sketch, thickness: 2}
rows:
  foot: {layers: [rail, skin], count: 10, size: small, 8-10: [strap, rail, skin]}
  end: {layers: [rail, skin], count: 2, size: big}
"""
    steps = "  - place: [rail, strap]\n  - rivet: [rail.foot, strap.foot]\n  - rivet: rail.end\n"
    made = built(tmp_path, model, STEPS + steps)
    words = [scene_of_step(made, number).words for number in (2, 3)]
    assert words[0].title == "Step 2. Pull 10 blind rivets."
    # ISO 15981, 3.2: 1.6 + 0.8 = 2.4 is within 1.5 to 3.5 of length 6, 4.4 within 3.5 to 5 of length 8.
    assert words[0].lines[0] == (
        "With blind rivet 3.2: length 6 in 7, grip 2.4 mm; length 8 in 3, grip 4.4 mm. Heads on top."
    )
    assert words[1].lines[0] == "With what fits a hole of 5 mm, grip 2.4 mm. Heads on top."


@pytest.mark.parametrize(
    ("cause", "blockers", "told"),
    [
        ("pins", ("rail.foot.1", "rail.foot.2"), "No way in for lid while pins are in rail.foot 1-2."),
        ("bench", (), "No way in for lid: the bench is in the way."),
        ("parts", ("rail",), "No way in for lid: rail is in the way."),
        ("parts", ("rail", "strap"), "No way in for lid: rail and strap are in the way."),
    ],
)
def test_why_a_part_does_not_go_in(cause: Cause, blockers: tuple[str, ...], told: str) -> None:
    made = tray()
    assert made.replay is not None
    state = made.replay.states[1]
    stopped = NoWay(step=2, at=state.step.at, part="lid", cause=cause, blockers=blockers)
    words = words_of_step(made.model, made.assembly, replace(made.replay, no_way=(stopped,)), 1)
    assert words.lines == ("Pins in 8 holes.", told)
