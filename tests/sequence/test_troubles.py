"""One small file for each trouble of the bench, and its clean neighbour."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.sequence.benches import BOX, GUN, LIP, SLIDE
from tests.sequence.files import replayed


def test_a_strip_slides_in_under_a_pinned_rail_and_not_under_a_riveted_one(tmp_path: Path) -> None:
    # Holes 3 and 4 are at x = 120 and 160, 10 from the strip's edges at 130 and 150.
    pinned = replayed(
        tmp_path, SLIDE, "  - place: rail\n    pins: [rail.foot.1, rail.foot.6]\n  - place: strip\n"
    )
    assert (pinned.no_way, pinned.under_set) == ((), ())
    riveted = replayed(tmp_path, SLIDE, "  - place: rail\n  - rivet: rail.foot.3-4\n  - place: strip\n")
    told = [(e.step, e.part, e.between, e.stacks, e.set_at) for e in riveted.under_set]
    assert told == [(3, "strip", ("rail", "skin"), (2, 3), (2, 2))]
    assert riveted.no_way == ()
    # Holes 1 and 6 are 90 mm away: they do not clamp it there.
    far = replayed(
        tmp_path, SLIDE, "  - place: rail\n  - rivet: [rail.foot.1, rail.foot.6]\n  - place: strip\n"
    )
    assert far.under_set == ()


@pytest.mark.parametrize(("stop", "free"), [("far stop", True), ("near stop", False)])
def test_a_way_in_two_moves(tmp_path: Path, stop: str, free: bool) -> None:
    # The far stop's face is at x = 80: 20 behind the tongue's end at 100; the near one's at 95.
    begin = f"  - place: [one side, other side, front, lip, {stop}]\n"
    played = replayed(tmp_path, LIP, begin + "  - place: tongue\n")
    assert [(e.part, e.cause) for e in played.no_way] == ([] if free else [("tongue", "parts")])
    if free:
        # The lip begins at x = 125, the tongue ends at 140: it must slip back by 15.
        assert list(played.states[1].first_moves["tongue"]) == [-15, 0, 0]
        assert list(played.states[1].ways["tongue"]) == [0, 0, 1]  # type: ignore[arg-type]


@pytest.mark.parametrize(("depth", "behind"), [(22.0, 12.0), (26.0, None)])
def test_a_drill_hits_what_stands_close_behind(tmp_path: Path, depth: float, behind: float | None) -> None:
    # The box, 10 high, has its top at z = 10 - depth: 12 or 16 below the skin's lower face.
    model = (
        SLIDE + f"  box: {{part: box, at: [110, 90, {-depth}], x along: forward, y along: left}}\n"
    ).replace("placed:", "  box: {shape: block, length: 20, width: 20, height: 10}\nplaced:")
    model = model.replace("count: 6, size: small}}\nplaced", "count: 6, size: small, punched: no}}\nplaced")
    model = model.replace("count: 6, size: small}}\n  box", "count: 6, size: small, punched: no}}\n  box")
    played = replayed(tmp_path, model, "  - place: [rail, box]\n  - drill: rail.foot\n")
    told = [(e.step, e.stack, e.parts, e.behind) for e in played.drill_hits]
    assert told == ([] if behind is None else [(2, 2, ("box",), behind)])
    assert played.drilled[2] == {"rail", "skin"}


def test_filled_before_it_is_drilled(tmp_path: Path) -> None:
    model = SLIDE.replace(
        "  rail:\n    shape: plate\n    thickness: 2.0\n    outline: [[0, 0], [240, 0], [240, 20], [0, 20]]\n"
        "    holes: {foot: {from: [20, 10], to: [220, 10], count: 6, size: small}}",
        "  rail:\n    shape: plate\n    thickness: 2.0\n    outline: [[0, 0], [240, 0], [240, 20], [0, 20]]\n"
        "    holes: {foot: {from: [20, 10], to: [220, 10], count: 6, size: small, pilot: 2.4}}",
    )
    late = "  - place: rail\n  - rivet: rail.foot.1\n  - drill: rail.foot.1\n    to: final\n"
    played = replayed(tmp_path, model, late)
    assert [(e.step, e.stack, e.parts, e.comes) for e in played.not_drilled] == [(2, 0, ("rail",), (3,))]
    good = "  - place: rail\n  - drill: rail.foot\n    to: final\n  - rivet: everything ready\n"
    ready = replayed(tmp_path, model, good)
    assert (ready.not_drilled, ready.states[2].filled) == ((), (0, 1, 2, 3, 4, 5))
    pilot = replayed(tmp_path, model, good.replace("final", "pilot"))
    assert pilot.states[2].filled == ()


def test_a_bolt_left_finger_tight(tmp_path: Path) -> None:
    loose = "  - place: rail\n  - bolt: rail.foot\n    finger tight: yes\n  - bolt: rail.foot.1-5\n"
    played = replayed(tmp_path, SLIDE.replace("size: small", "size: bolt"), loose)
    assert [(e.step, e.stack) for e in played.still_finger_tight] == [(2, 5)]
    assert played.states[2].tightened == (0, 1, 2, 3, 4)
    assert played.set_twice == ()


# A thin fin stands on the skin; turned over, the work stands on its edge unless a thick one is as high.
FIN = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
  fin: {shape: plate, thickness: %s, outline: [[0, 0], [100, 0], [100, 50], [0, 50]]}
placed:
  fin: {part: fin, at: [50, 100, 1], x along: forward, y along: up}
"""


@pytest.mark.parametrize(
    ("thick", "bench", "weak"), [("0.8", "flat", True), ("1.0", "flat", False), ("0.8", "trestles", False)]
)
def test_standing_on_a_thin_edge(tmp_path: Path, thick: str, bench: str, weak: bool) -> None:
    steps = "  - place: fin\n  - turn over: sideways\n"
    played = replayed(tmp_path, FIN % thick, steps, words=f"bench: {bench}\n")
    assert [(e.step, e.parts) for e in played.stands_on_weak] == ([(2, ("fin",))] if weak else [])


@pytest.mark.parametrize(
    ("opening", "stopped"),
    [
        ("", [(3, 0, ("lid",), 1), (3, 1, ("lid",), 1)]),
        (", openings: {hand hole: {center: [70, 80], diameter: 60}}", [(3, 1, ("lid",), 1)]),
    ],
)
def test_a_closed_box_and_a_hand_hole(tmp_path: Path, opening: str, stopped: list[object]) -> None:
    # The hand hole's middle is at x = 120, above hole 1; hole 2 at x = 160 is 10 beyond its edge.
    walls = "  - place: [strap, front, back, aft, fore]\n"
    late = walls + "  - place: lid\n  - rivet: strap.rim\n"
    played = replayed(tmp_path, BOX % opening, late, tools=GUN)
    assert [(e.step, e.stack, e.blockers, e.last) for e in played.tool_stopped] == stopped
    early = replayed(tmp_path, BOX % opening, walls + "  - rivet: strap.rim\n  - place: lid\n", tools=GUN)
    assert early.tool_stopped == ()


def test_what_is_shut_for_good_is_checked_before(tmp_path: Path) -> None:
    pinned = "  - place: [strap, front, back, aft, fore]\n    pins: [strap.rim.1]\n  - rivet: strap.rim\n"
    shut = replayed(tmp_path, BOX % "", pinned + "  - place: lid\n", tools=GUN)
    told = [(e.step, e.parts, e.stacks, e.pinned) for e in shut.closing_unchecked]
    assert told == [(3, ("lid",), (0, 1), 1)]
    checked = pinned + "  - check: every rivet inside\n  - place: lid\n"
    assert replayed(tmp_path, BOX % "", checked, tools=GUN).closing_unchecked == ()
    # Not set yet, in a sequence that goes on: the lid is the last chance.
    open_ = replayed(
        tmp_path, BOX % "", "  - place: [strap, front, back, aft, fore]\n  - place: lid\n", tools=GUN
    )
    assert [(e.step, e.stacks, e.parts) for e in open_.last_chance] == [(2, (0, 1), ("lid",))]
