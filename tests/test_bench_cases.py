"""What can happen on a bench, as whole files through the whole program: mistakes and their clean neighbours.

What is expected is marked in the steps; anything else, or nothing, fails. ``tests/sequence`` looks closely at
the replay of most of them.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.checks.expect import found_as_marked
from tests.sequence.benches import BOX, FRAME, GUN, LIP, SLIDE, TRAY
from tests.sequence.files import HEAD, ORDER, PULLER


def found(
    folder: Path, model: str, steps: str, words: str = "bench: trestles\n", tools: str = PULLER
) -> list[str]:
    """Insist that exactly what is marked is found; return the messages."""
    sequence = f"{ORDER}{words}{tools}steps:\n{steps}"
    return [finding.message for finding in found_as_marked(folder, HEAD + model, sequence)]


STRAP = "  - place: strap\n"
LID = "  - place: lid\n"
OFF = "  - take off: lid\n"


def rivet(hole: str, kind: str = "", head: str = "upper") -> str:
    """Return the step that sets one hole, marked with what is expected of it."""
    return f"  - rivet: {hole}{f'  # expect: {kind}' if kind else ''}\n    head: {head}\n"


def test_place_take_off_and_place_again(tmp_path: Path) -> None:
    assert found(tmp_path, TRAY, STRAP + LID + OFF + rivet("strap.rim.1") + LID) == []
    told = found(tmp_path, TRAY, STRAP + LID + OFF + LID + rivet("strap.rim.1", "tool-blocked"))
    assert told == ["strap.rim 1: no tool reaches this rivet once lid is there."]


def test_a_rivet_reached_only_before(tmp_path: Path) -> None:
    assert found(tmp_path, TRAY, STRAP + rivet("strap.rim.1") + LID) == []
    found(tmp_path, TRAY, STRAP + LID + rivet("strap.rim.1", "tool-blocked"))


def test_a_rivet_reached_only_after(tmp_path: Path) -> None:
    # The lid lies on the bench's tray from the start and is in the way until it is taken off.
    found(tmp_path, TRAY, LID + STRAP + rivet("strap.rim.1", "tool-blocked") + OFF)
    assert found(tmp_path, TRAY, "  - place: [strap, lid]\n" + OFF + rivet("strap.rim.1")) == []


HOOD = TRAY + "  hood: {part: lid, at: [70, 70, 42], x along: forward, y along: left}\n"
"""A second lid over the first one."""


@pytest.mark.parametrize(("at", "kind"), [(0, "tool-blocked"), (1, ""), (2, "tool-blocked")])
def test_a_rivet_reached_only_between_two_steps(tmp_path: Path, at: int, kind: str) -> None:
    steps = [OFF, "  - place: hood\n"]
    steps.insert(at, rivet("strap.rim.1", kind))
    found(tmp_path, HOOD, "  - place: [strap, lid]\n" + "".join(steps))


WALLS = "  - place: [front wall, back wall, aft stop, fore stop]\n  - place: bar\n"
STOP = "  fore stop: {part: aft stop, at: [25, 80, 1], x along: forward, y along: left}\n"
PAIR = "  - apart: pair\n    steps:\n      - place: [left block, right block]\n"


def test_a_sub_assembly_is_blocked_as_one_piece_though_its_members_are_free(tmp_path: Path) -> None:
    told = found(tmp_path, FRAME + STOP, WALLS + PAIR + "  - place: pair  # expect: no-way-in\n")
    assert told == ["pair cannot be brought in at step 4: bar stands in the way."]
    # Alone the left one slips aside under the bar, and the right one lifts in beside it.
    assert found(tmp_path, FRAME + STOP, WALLS + "  - place: left block\n  - place: right block\n") == []
    early = WALLS.replace("  - place: bar\n", "") + PAIR + "  - place: pair\n  - place: bar\n"
    assert found(tmp_path, FRAME + STOP, early) == []


CLIP = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    openings: {window: {center: [150, 100], diameter: 40}}
    holes: {row: {from: [100, 100], to: [200, 100], count: 2, size: small}}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [120, 0], [120, 20], [0, 20]]
    holes: {rim: {from: [10, 10], to: [110, 10], count: 3, size: small}}
placed:
  strap: {part: strap, match: {rim.1: skin.row.1, rim.3: skin.row.2}}
  clip: {part: strap, match: {rim.1: strap.rim.1, rim.3: strap.rim.3}}
"""
"""A strap over a window of the skin, and another on it: the rivet in the middle goes through both alone."""


@pytest.mark.parametrize("turned", [True, False])
def test_a_sub_assembly_has_its_own_turn_over(tmp_path: Path, turned: bool) -> None:
    # The head is wanted on the strap, which lies below while they are joined, whatever the skin's side up is.
    turn = "      - turn over: sideways\n" if turned else ""
    kind = "" if turned else "  # expect: wrong-side-up"
    steps = (
        "  - turn over: sideways\n"
        "  - apart: pair\n    up: clip.face outside\n    steps:\n"
        "      - place: [strap, clip]\n        pins: [clip.rim.1, clip.rim.3]\n"
        f"{turn}      - rivet: clip.rim.2{kind}\n        head: on strap\n"
    )
    found(tmp_path, CLIP, steps, words="bench: flat\n")


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("bench: flat\n", "wrong-side-up"),
        ("bench: trestles\n", ""),
        ("bench: flat\nover the edge: strap\n", ""),
    ],
)
def test_a_solid_rivet_with_one_end_on_the_bench(tmp_path: Path, words: str, kind: str) -> None:
    mark = f"  # expect: {kind}" if kind else ""
    steps = STRAP + f"  - rivet: strap.rim.1{mark}\n"
    found(tmp_path, TRAY.replace("size: small", "size: solid"), steps, words, GUN)


def test_a_strip_slides_in_under_a_pinned_rail(tmp_path: Path) -> None:
    # 0.5 thick: under a rail that is drawn down beside it.
    model = SLIDE.replace("1.0\n    outline: [[0, 0], [20,", "0.5\n    outline: [[0, 0], [20,")
    model = model.replace("over: strip}", "over: strip}  # expect: gap-drawn-shut")
    pinned = "  - place: rail\n    pins: [rail.foot.1, rail.foot.6]\n"
    found(tmp_path, model, pinned + "  - place: strip\n")
    # Not once the rail is riveted beside it.
    riveted = "  - place: rail\n  - rivet: [rail.foot.3, rail.foot.4]\n"
    found(tmp_path, model, riveted + "  - place: strip  # expect: under-set-layer\n")


@pytest.mark.parametrize(("stop", "kind"), [("far stop", ""), ("near stop", "  # expect: no-way-in")])
def test_a_way_in_of_two_moves(tmp_path: Path, stop: str, kind: str) -> None:
    begin = f"  - place: [one side, other side, front, lip, {stop}]\n"
    found(tmp_path, LIP, begin + f"  - place: tongue{kind}\n")


@pytest.mark.parametrize(("names", "kind"), [("left block, bar", ""), ("bar, left block", "no-way-in")])
def test_a_list_in_one_step_goes_in_in_the_order_written(tmp_path: Path, names: str, kind: str) -> None:
    # Beside the right block, which is there, nothing slips aside.
    mark = f"  # expect: {kind}" if kind else ""
    begin = WALLS.replace("  - place: bar\n", "") + "  - place: right block\n"
    found(tmp_path, FRAME + STOP, begin + f"  - place: [{names}]{mark}\n")


@pytest.mark.parametrize(
    ("opening", "first", "second"),
    [
        ("", "tool-blocked", "tool-blocked"),
        (", openings: {hand hole: {center: [70, 80], diameter: 60}}", "", "tool-blocked"),
    ],
    ids=["closed", "hand hole"],
)
def test_a_box_with_and_without_a_hand_hole(tmp_path: Path, opening: str, first: str, second: str) -> None:
    # The hand hole's middle is above hole 1; hole 2 is 10 beyond its edge.
    walls = "  - place: [strap, front, back, aft, fore]\n"
    late = f"  - rivet: strap.rim.1{first and f'  # expect: {first}'}\n"
    late += f"  - rivet: strap.rim.2  # expect: {second}\n"
    closing = "  - place: lid\n"
    found(tmp_path, BOX % opening, walls + closing + late, tools=GUN)
    # In work that goes on, a lid over holes that nobody has set is the last chance.
    found(tmp_path, BOX % opening, walls + "  - place: lid  # expect: last-chance\n", tools=GUN)
    assert found(tmp_path, BOX % opening, walls + "  - rivet: strap.rim\n" + closing, tools=GUN) == []


@pytest.mark.parametrize(("wall", "kind"), [(28.0, ""), (27.94, "tool-blocked")])
def test_a_tool_of_56_beside_a_wall(tmp_path: Path, wall: float, kind: str) -> None:
    # At 28.000 it only touches; 0.06 nearer is more than the 0.05 of touching.
    model = TRAY.replace("placed:", "  wall: {shape: block, length: 10, width: 60, height: 30}\nplaced:")
    model += f"  wall: {{part: wall, at: [{100 + wall}, 70, 2], x along: forward, y along: left}}\n"
    tool = "tools:\n  wide: {for: blind rivet, body: [{cylinder: 56, from: 0, to: 90}], "
    tool += "reach: {diameter: 20, length: 200}}\n"
    found(tmp_path, model, "  - place: [strap, wall]\n" + rivet("strap.rim.1", kind), tools=tool)
