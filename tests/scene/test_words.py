"""What a step says."""

from dataclasses import replace

import pytest

from seqviz.scene.words import Words, words_of_step
from seqviz.sequence.replay_types import Cause, NoWay
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
            "Step 5. Pull 16 rivets: small (pull 3.2).",
            ("Grip 1.6 mm. Heads on top.",),
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
            "Step 12. Pull 4 rivets: small (pull 3.2).",
            ("Grip 2.6 mm. Heads on top.",),
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
    assert words.title == "Step 9. Pull 20 rivets: small (pull 3.2)."
    assert words.lines[0] == "Grip 1.6 mm in 14, 2.4 mm in 6. Heads on top."
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
    built = tray()
    assert built.replay is not None
    state = built.replay.states[1]
    stopped = NoWay(step=2, at=state.step.at, part="lid", cause=cause, blockers=blockers)
    words = words_of_step(built.model, built.assembly, replace(built.replay, no_way=(stopped,)), 1)
    assert words.lines == ("Pins in 8 holes.", told)
