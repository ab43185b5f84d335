"""Pins: where they go, from which side, and when they leave."""

from __future__ import annotations

import pytest

from seqviz.records.steps import Action, MovePins, PinPattern, PullPins
from seqviz.sequence.replay import replay
from seqviz.sequence.replay_types import Replay
from tests.sequence.by_hand import holes, model, order, piece, pins, place, rivet, structure

# Rail and skin share stacks 0-6; stack 7 is the skin's alone until the cap comes.
FEET = [(10.0 * k, 10.0) for k in range(1, 8)]
SKIN = piece("skin", [((0, 0, 0), (90, 90, 1))], {"rail": FEET, "cap": [(10, 60)]})
RAIL = piece("rail", [((0, 0, 1), (90, 20, 2))], {"foot": FEET})
CAP = piece("cap", [((0, 50, 1), (90, 70, 2))], {"edge": [(10, 60)]})
TRAY = structure(SKIN, RAIL, CAP)


def _replay(*actions: Action) -> Replay:
    played, findings = replay(model("skin", "rail", "cap"), TRAY, order(*actions))
    assert findings == []
    assert played is not None
    return played


@pytest.mark.parametrize(
    ("pattern", "pinned"),
    [
        (None, ()),
        (pins("none"), ()),
        (pins("all"), (0, 1, 2, 3, 4, 5, 6)),
        (pins("ends and every N", 4), (0, 4, 6)),
        (pins("ends and every N", 3), (0, 3, 6)),
        (pins("ends and every N", 10), (0, 6)),
        (pins("holes", None, "rail.foot.5", "rail.foot.2"), (4, 1)),
    ],
)
def test_patterns(pattern: PinPattern | None, pinned: tuple[int, ...]) -> None:
    assert _replay(place("rail", pattern=pattern)).states[0].pinned == pinned


def test_two_parts_placed_together_are_pinned_each_in_its_own_rows() -> None:
    state = _replay(place("rail", "cap", pattern=pins("ends and every N", 4))).states[0]
    assert state.pinned == (0, 4, 6, 7)


def test_filled_and_pinned_holes_take_no_second_pin() -> None:
    played = _replay(
        place("rail", pattern=pins("holes", None, "rail.foot.1")),
        rivet("rail.foot.7"),
        place("cap", pattern=pins("holes", None, "rail.foot.1", "rail.foot.7", "cap.edge.1")),
    )
    assert played.states[2].pinned == (7,)


def test_a_pin_leaves_when_its_hole_is_riveted_or_it_is_pulled() -> None:
    played = _replay(
        place("rail", pattern=pins("all")),
        rivet("rail.foot.2-3"),
        PullPins(holes=holes("rail.foot.3-5")),
        PullPins(holes=holes("rail.foot.4")),
    )
    assert [state.unpinned for state in played.states] == [(), (1, 2), (3, 4), ()]


# A wall whose own hole, stack 1 with a clip, is pinned; a plate lies where a body from above would stand.
WALL = piece("skin", [((0, 0, 0), (90, 90, 1))], {"a": [(50, 50)]})
STRAP = piece("rail", [((30, 30, 1), (70, 70, 2))], {"b": [(50, 50)]})
LID = piece("cap", [((45, 30, 20), (70, 70, 21))])


@pytest.mark.parametrize(
    ("side", "to", "stopped"),
    [
        ("upper", None, True),
        (None, None, True),
        ("lower", None, False),
        ("upper", "lower", False),
        ("lower", "upper", True),
    ],
)
def test_pins_come_from_the_side_said_or_up_and_can_be_moved(
    side: str | None, to: str | None, stopped: bool
) -> None:
    # From above the pin's body, 30 high on the strap at z = 2, stands where the lid goes, z = 20.
    moved = [MovePins(holes=holes("rail.b.1"), to=to)] if to else []
    sequence = order(place("rail", pattern=pins("all"), pins_from=side), *moved, place("cap"))
    played, _ = replay(model("skin", "rail", "cap"), structure(WALL, STRAP, LID), sequence)
    assert played is not None
    wanted = [(len(moved) + 2, "cap", "pins", ("rail.b.1",))] if stopped else []
    assert [(e.step, e.part, e.cause, e.blockers) for e in played.no_way] == wanted
