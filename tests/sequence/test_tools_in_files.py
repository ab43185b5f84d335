"""Whole files with tools: bolts in a pit, ways in, the edge of the bench, and which tool answers."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.sequence.replay_types import Replay
from tests.sequence.files import replayed

# A strap of 1 on a skin of 1 with bolt holes at x = 60 and 220, y = 100. Round the first four walls, 20 away
# and 30 high.
MODEL = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes: {row: {from: [60, 100], to: [220, 100], count: 2, size: SIZE}}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [240, 0], [240, 100], [0, 100]]
    holes: {rim: {from: [40, 50], to: [200, 50], count: 2, size: SIZE}}
  long wall: {shape: block, length: 50, width: 5, height: 30}
  short wall: {shape: block, length: 5, width: 40, height: 30}
  lid: {shape: block, length: 40, width: 40, height: 5}
placed:
  strap: {part: strap, match: {rim.1: skin.row.1, rim.2: skin.row.2}}
  north: {part: long wall, at: [35, 120, 2], x along: forward, y along: left}
  south: {part: long wall, at: [35, 75, 2], x along: forward, y along: left}
  east: {part: short wall, at: [80, 80, 2], x along: forward, y along: left}
  west: {part: short wall, at: [35, 80, 2], x along: forward, y along: left}
  lid: {part: lid, at: [40, 80, 14], x along: forward, y along: left}
"""
WRENCH = """\
  wrench:
    for: bolt
    body: [{cylinder: 20, from: 0, to: 8}, {box: [150, 12], from: 2, to: 8, offset: 85}]
    turns: 12
    swing: 30
    reach: {diameter: 10, length: 50, along: across}
"""
SOCKET = """\
  socket:
    for: bolt
    body: [{cylinder: 17, from: 0, to: 40}, {box: [150, 20], from: 40, to: 60, offset: 75}]
    turns: 12
    swing: 15
    reach: {diameter: 10, length: 50}
"""
PIT = "  - place: [strap, north, south, east, west]\n"
ON_TOP = "  - bolt: strap.rim\n    head: upper\n"


def _bolted(folder: Path, steps: str, tools: str, words: str = "bench: trestles\n") -> Replay:
    return replayed(folder, MODEL.replace("SIZE", "bolt"), steps, words, f"tools:\n{tools}")


def test_a_bolt_in_a_pit_where_only_the_socket_reaches_the_head(tmp_path: Path) -> None:
    played = _bolted(tmp_path, PIT + ON_TOP, WRENCH + SOCKET)
    assert played.tool_stopped == ()
    # The nut is turned with the wrench, the socket only holds; in the open the wrench does both.
    assert played.states[1].tools == {0: ("socket", "wrench"), 1: ("wrench", "wrench")}


def test_without_the_socket_the_bolt_in_the_pit_is_not_reached(tmp_path: Path) -> None:
    (stop,) = _bolted(tmp_path, PIT + ON_TOP, WRENCH).tool_stopped
    assert (stop.stack, stop.cause, stop.last, stop.by_hand) == (0, "parts", None, False)
    assert len(stop.blockers) == 1


def test_finger_tight_needs_the_way_in_only(tmp_path: Path) -> None:
    loose = PIT + "  - bolt: strap.rim.1\n    head: upper\n    finger tight: yes\n"
    played = _bolted(tmp_path, loose + "  - take off: north\n  - bolt: strap.rim.1\n", WRENCH)
    assert played.tool_stopped == ()
    assert (played.states[1].tools, played.states[1].finger_tight) == ({}, (0,))
    # Away from the wall that stood to the north a handle goes there.
    assert (played.states[3].tools, played.states[3].tightened) == ({0: ("wrench", "wrench")}, (0,))
    (stop,) = _bolted(tmp_path, loose + "  - bolt: strap.rim.1\n", WRENCH).tool_stopped
    assert (stop.step, stop.stack, stop.by_hand) == (3, 0, False)


@pytest.mark.parametrize("finger_tight", ["", "    finger tight: yes\n"])
def test_a_bolt_under_a_lid_does_not_come_in_but_can_be_tightened(tmp_path: Path, finger_tight: str) -> None:
    # The lid is 12 above the strap; the bolt takes 2.0 + 7.9 (washer and nut) + 3.3 (head) = 13.3.
    steps = f"  - place: [strap, lid]\n  - bolt: strap.rim.1\n    head: upper\n{finger_tight}"
    (stop,) = _bolted(tmp_path, steps, WRENCH).tool_stopped
    assert (stop.step, stop.cause, stop.blockers, stop.by_hand) == (2, "parts", ("lid",), True)
    # From below it comes in, and the nut, 7.9 high, and the wrench of 8 go under the lid.
    below = "  - place: [strap, lid]\n  - bolt: strap.rim.1\n"
    played = _bolted(tmp_path, below, WRENCH)
    assert (played.tool_stopped, played.states[1].head_sides) == ((), {0: -1})
    # Put in before the lid it can be tightened beneath it.
    before = "  - place: strap\n  - bolt: strap.rim.1\n    head: upper\n    finger tight: yes\n"
    played = _bolted(tmp_path, before + "  - place: lid\n  - bolt: strap.rim.1\n", WRENCH)
    assert (played.tool_stopped, played.head_under) == ((), ())


def test_without_a_tool_for_bolts_nothing_is_asked(tmp_path: Path) -> None:
    tools = "  puller: {for: blind rivet, body: [{cylinder: 20, from: 0, to: 90}]}\n"
    played = _bolted(tmp_path, "  - place: [strap, lid]\n" + ON_TOP, tools)
    assert (played.tool_stopped, played.states[1].tools) == ((), {})


HAMMER = """\
  hammer: {for: solid rivet, body: [{cylinder: 12, from: 0, to: 60}], reach: {diameter: 20}, end: head}
  bar: {for: solid rivet, body: [{box: [25, 25], from: 0, to: 50}], turns: 4, end: tail}
"""


@pytest.mark.parametrize(
    ("words", "causes"),
    [
        ("bench: flat\n", ["bench", "bench"]),
        ("bench: flat\nover the edge: strap\n", []),
        ("bench: blocks\n", []),
        ("bench: trestles\n", []),
    ],
)
def test_a_row_of_solid_rivets_over_the_edge_of_the_bench(
    tmp_path: Path, words: str, causes: list[str]
) -> None:
    steps = "  - place: strap\n  - rivet: strap.rim\n    head: upper\n"
    played = replayed(tmp_path, MODEL.replace("SIZE", "solid"), steps, words, f"tools:\n{HAMMER}")
    assert [stop.cause for stop in played.tool_stopped] == causes
    assert played.states[1].tools == ({} if causes else dict.fromkeys((0, 1), ("hammer", "bar")))


def test_neighbouring_heads_do_not_stop_a_tool(tmp_path: Path) -> None:
    # Two holes, one after the other; a tool as wide as 400 would stand on the first head.
    wide = "  wide: {for: blind rivet, body: [{cylinder: 400, from: 0, to: 60}], reach: {diameter: 20}}\n"
    steps = "  - place: strap\n  - rivet: strap.rim.1\n  - rivet: strap.rim.2\n    head: upper\n"
    played = replayed(tmp_path, MODEL.replace("SIZE", "small"), steps, tools=f"tools:\n{wide}")
    assert played.tool_stopped == ()
    assert played.states[2].tools == {1: ("wide",)}


def test_the_built_in_tools_reach_bolts_and_rivets_in_the_open(tmp_path: Path) -> None:
    found = {}
    for size, word in (("bolt", "bolt"), ("solid", "rivet"), ("small", "rivet")):
        steps = f"  - place: strap\n  - {word}: strap.rim.2\n    head: upper\n"
        played = replayed(tmp_path, MODEL.replace("SIZE", size), steps, tools="")
        assert played.tool_stopped == ()
        found[size] = played.states[1].tools[1]
    assert found == {
        "bolt": ("box-end wrench", "box-end wrench"),
        "solid": ("rivet hammer with straight set", "block bucking bar"),
        "small": ("hand puller",),
    }
