"""Whole files through the replay: coming and going, sub-assemblies, and what can be reached when."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.sequence.replay_types import Replay
from tests.sequence.benches import FRAME, TRAY
from tests.sequence.files import HEAD, replayed


def _stops(played: Replay) -> list[tuple[int, int, str, tuple[str, ...], int | None]]:
    return [(e.step, e.stack, e.cause, e.blockers, e.last) for e in played.tool_stopped]


def test_a_base_with_a_mistake_is_nowhere(tmp_path: Path) -> None:
    model = HEAD + TRAY.replace("thickness: 1.0", "thickness: 0", 1)
    (tmp_path / "model.yaml").write_text(model, encoding="utf-8")
    (tmp_path / "order.yaml").write_text(
        "format: 1\nmodel: model.yaml\nsteps:\n  - place: strap\n  - turn over: sideways\n", encoding="utf-8"
    )
    made = build(str(tmp_path / "order.yaml"))
    assert [(f.kind, f.at.line) for f in made.noticed] == [("bad-value", 12)]
    assert made.replay is not None
    assert made.replay.where.get("skin", {}) == {}


def test_placed_taken_off_and_placed_again(tmp_path: Path) -> None:
    steps = """\
  - place: [strap, lid]
  - take off: lid
  - rivet: strap.rim.1
    head: upper
  - place: lid
  - rivet: strap.rim.2
    head: upper
  - rivet: strap.rim.3
    head: upper
"""
    played = replayed(tmp_path, TRAY, steps)
    # The lid is away during steps 2 and 3; it covers holes 1 and 2, and not the third at x = 200.
    assert played.where["lid"] == {None: 0b1110010}
    assert _stops(played) == [(5, 1, "parts", ("lid",), 3)]
    assert played.came_at("lid", 5) == 4
    assert (played.placed_twice, played.no_way, played.no_way_out) == ((), (), ())


@pytest.mark.parametrize(
    ("steps", "stopped"),
    [
        ("  - place: strap\n  - rivet: strap.rim.1\n    head: upper\n  - place: lid\n", []),
        ("  - place: strap\n  - place: lid\n  - rivet: strap.rim.1\n    head: upper\n", [(3, "lid")]),
        (
            "  - place: [strap, lid]\n  - rivet: strap.rim.1\n    head: upper\n  - take off: lid\n",
            [(2, "lid")],
        ),
    ],
)
def test_a_rivet_that_is_reached_only_before_or_only_after(
    tmp_path: Path, steps: str, stopped: list[tuple[int, str]]
) -> None:
    assert [(e.step, *e.blockers) for e in replayed(tmp_path, TRAY, steps).tool_stopped] == stopped


def test_taking_off_what_is_riveted_is_one_trouble(tmp_path: Path) -> None:
    begin = "  - place: strap\n  - rivet: strap.rim.1\n"
    steps = begin + "  - take off: strap\n  - place: strap\n  - rivet: strap.rim\n"
    played = replayed(tmp_path, TRAY, steps)
    assert [(e.step, e.part, e.stacks, e.set_at) for e in played.off_when_set] == [(3, "strap", (0,), (2,))]
    assert (played.no_way_out, played.no_way, played.set_twice) == ((), (), ())


def test_pins_hold_what_is_taken_off(tmp_path: Path) -> None:
    pinned = "  - place: strap\n    pins: [strap.rim.1, strap.rim.3]\n"
    held = replayed(tmp_path, TRAY, pinned + "  - take off: strap\n")
    assert [(e.step, e.cause, e.blockers) for e in held.no_way_out] == [
        (2, "pins", ("strap.rim.1", "strap.rim.3"))
    ]
    pulled = replayed(tmp_path, TRAY, pinned + "  - pull pins: strap.rim\n  - take off: strap\n")
    assert pulled.no_way_out == ()


def test_set_twice_is_told_of_holes_named_one_by_one(tmp_path: Path) -> None:
    begin = "  - place: strap\n  - rivet: [strap.rim.1, strap.rim.2]\n"
    again = replayed(tmp_path, TRAY, begin + "  - rivet: [strap.rim.2, strap.rim.3]\n")
    assert [(e.step, e.stack, e.since) for e in again.set_twice] == [(3, 1, 2)]
    # Who names the row means the rest of it; out again and in again is no mistake.
    assert replayed(tmp_path, TRAY, begin + "  - rivet: strap.rim\n").set_twice == ()
    out = begin + "  - drill out: strap.rim.2\n  - rivet: strap.rim.2\n"
    played = replayed(tmp_path, TRAY, out)
    assert (played.set_twice, played.states[2].emptied, played.filled_at) == ((), (1,), {0: 2, 1: 4})


WALLS = "  - place: [front wall, back wall, aft stop]\n"


def test_a_sub_assembly_goes_in_as_one_piece(tmp_path: Path) -> None:
    apart = "  - apart: pair\n    steps:\n      - place: [left block, right block]\n"
    before = replayed(tmp_path, FRAME, WALLS + apart + "  - place: pair\n  - place: bar\n")
    assert before.no_way == ()
    assert before.where["left block"] == {"pair": 0b00100, None: 0b11000}
    # With the bar over it the pair, 120 long, slides in from x = 30 where the slot is open.
    slid = replayed(tmp_path, FRAME, WALLS + "  - place: bar\n" + apart + "  - place: pair\n")
    assert slid.no_way == ()
    assert list(slid.states[-1].ways["left block"]) == [-1, 0, 0]  # type: ignore[arg-type]


def test_a_sub_assembly_is_blocked_as_one_piece_though_its_members_are_free(tmp_path: Path) -> None:
    # A stop at x = 30 closes the slot: the right block alone lifts out beside the bar, the pair does not.
    stop = "  fore stop: {part: aft stop, at: [25, 80, 1], x along: forward, y along: left}\n"
    begin = WALLS + "  - place: fore stop\n  - place: bar\n"
    alone = replayed(tmp_path, FRAME + stop, begin + "  - place: right block\n")
    assert alone.no_way == ()
    apart = "  - apart: pair\n    steps:\n      - place: [left block, right block]\n  - place: pair\n"
    pair = replayed(tmp_path, FRAME + stop, begin + apart)
    assert [(e.step, e.part, e.cause, e.blockers, e.members) for e in pair.no_way] == [
        (5, "pair", "parts", ("bar",), ("left block", "right block"))
    ]


def test_a_sub_assembly_has_its_own_side_up(tmp_path: Path) -> None:
    model = TRAY.replace(
        "  lid: {shape",
        "  clip: {shape: plate, thickness: 1.0, outline: "
        "[[0, 0], [120, 0], [120, 20], [0, 20]], holes: {rim: {from: [10, 10], to: [110, 10], count: 3, "
        "size: small}}}\n  lid: {shape",
    )
    model += "  clip: {part: clip, match: {rim.1: strap.rim.1, rim.3: strap.rim.3}}\n"
    steps = """\
  - apart: pair
    steps:
      - place: [strap, clip]
      - turn over: sideways
  - place: pair
"""
    played = replayed(tmp_path, model, steps, words="bench: flat\n")
    assert [list(state.up) for state in played.states] == [[0, 0, 1], [0, 0, -1], [0, 0, 1]]
    assert [state.work for state in played.states] == ["pair", "pair", None]
    # Nothing pins the clip to the strap: both are loose when the pair is turned.
    assert [(e.step, e.part) for e in played.loose_at_turn] == [(2, "clip"), (2, "strap")]


def test_a_list_in_one_step_goes_in_in_the_order_written(tmp_path: Path) -> None:
    stop = "  fore stop: {part: aft stop, at: [25, 80, 1], x along: forward, y along: left}\n"
    begin = WALLS + "  - place: fore stop\n"
    good = replayed(tmp_path, FRAME + stop, begin + "  - place: [left block, bar]\n")
    assert good.no_way == ()
    bad = replayed(tmp_path, FRAME + stop, begin + "  - place: [bar, left block]\n")
    # It could still slip aside under the bar by 60 to where the right block goes, and lift out there.
    assert [(e.step, e.part) for e in bad.no_way] == []
    assert bad.states[-1].first_moves.keys() == {"left block"}
    full = replayed(tmp_path, FRAME + stop, begin + "  - place: [right block, bar, left block]\n")
    assert [(e.step, e.part, e.blockers) for e in full.no_way] == [(3, "left block", ("bar",))]


@pytest.mark.parametrize(("wall", "stopped"), [(28.0, False), (27.9, True)])
def test_a_tool_of_56_beside_a_wall(tmp_path: Path, wall: float, stopped: bool) -> None:
    # The hole is at x = 100; the wall's face at 100 + 28.000 only touches a tool of 56 mm.
    model = TRAY + f"  wall: {{part: lid, at: [{100 + wall}, 70, 2], x along: forward, y along: left}}\n"
    tool = (
        "tools:\n  wide: {for: blind rivet, body: [{cylinder: 56, from: 0, to: 90}], tilt: 0, "
        "reach: {diameter: 20, length: 200}}\n"
    )
    steps = "  - place: [strap, wall]\n  - rivet: strap.rim.1\n    head: upper\n"
    assert bool(replayed(tmp_path, model, steps, tools=tool).tool_stopped) is stopped


def test_a_solid_rivet_needs_both_ends_and_the_bench_closes_one(tmp_path: Path) -> None:
    model = TRAY.replace("size: small", "size: solid")
    tools = (
        "tools:\n  gun: {for: solid rivet, body: [{cylinder: 12, from: 0, to: 90}], tilt: 0, "
        "reach: {diameter: 20, length: 200}}\n"
    )
    steps = "  - place: strap\n  - rivet: strap.rim.1\n"
    flat = replayed(tmp_path, model, steps, words="bench: flat\n", tools=tools)
    assert [(e.step, e.cause) for e in flat.tool_stopped] == [(2, "bench")]
    assert replayed(tmp_path, model, steps, tools=tools).tool_stopped == ()
    edge = replayed(tmp_path, model, steps, words="bench: flat\nover the edge: strap\n", tools=tools)
    assert edge.tool_stopped == ()
