"""Orders of sheets and rivets that can be counted by hand, asked of the whole program."""

from math import factorial
from pathlib import Path

import pytest

from tests.published.structures import Trial, place, take_off

LAP = """\
format: 1
name: Lap joint
base: lower sheet
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  sheet:
    shape: plate
    thickness: 1
    outline: [[0, 0], [300, 0], [300, 40], [0, 40]]
    holes: {seam: {from: [30, 20], to: [270, 20], count: 5, size: small}}
  lower sheet:
    shape: skin
    thickness: 1
    outline: [[0, 0], [300, 0], [300, 40], [0, 40]]
    holes: {seam: {from: [30, 20], to: [270, 20], count: 5, size: small}}
placed:
  upper sheet: {part: sheet, match: {seam.1: lower sheet.seam.1, seam.5: lower sheet.seam.5}}
"""
RIVETS = [f"r{k}" for k in range(1, 6)]


def test_a_lap_joint_of_two_sheets(tmp_path: Path) -> None:
    """Both sheets before any of five rivets, all else free: 2 x 5! = 240."""
    sheets = ["lower sheet", "upper sheet"]
    do = place(sheets) | {f"r{k}": f"rivet: upper sheet.seam.{k}" for k in range(1, 6)}
    undo = take_off(sheets) | {f"r{k}": f"drill out: upper sheet.seam.{k}" for k in range(1, 6)}
    assert Trial(folder=tmp_path, model=LAP, do=do, undo=undo).orders() == 2 * factorial(5)


THREE = """\
format: 1
name: Three layers
base: anchor
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  anchor: {shape: block, length: 1, width: 1, height: 1}
  post: {shape: block, length: 8, width: 8, height: 20}
  sheet:
    shape: plate
    thickness: 1
    outline: [[0, 0], [400, 0], [400, 400], [0, 400]]
    openings: {post: {outline: [[199, 199], [209, 199], [209, 209], [199, 209]]}}
    holes:
      two: {at: [[TWO, 60], [TWO, 340]], size: small}
      three: {at: [[100, 200], [300, 200]], size: small}
  doubler:
    shape: plate
    thickness: 1
    outline: [[0, 0], [400, 0], [400, 400], [0, 400]]
    openings: {post: {outline: [[199, 199], [209, 199], [209, 209], [199, 209]]}}
    holes:
      two: {at: [[TWO, 60], [TWO, 340]], size: small}
      three: {at: [[100, 200], [300, 200]], size: small}
  lid:
    shape: hat
    thickness: 1
    length: 400
    feet: [60, 60]
    webs: [40, 40]
    crown: 142
    holes:
      foot: {flat: foot 1, at: [[200, 30]], size: small}
      other: {flat: foot 2, at: [[200, 30]], size: small}
placed:
  post: {part: post, at: [5200, 5200, 0], x along: forward, y along: left}
  sheet: {part: sheet, at: [5000, 5000, 0], x along: forward, y along: left}
  doubler: {part: doubler, match: {three.1: sheet.three.1, three.2: sheet.three.2}}
  lid: {part: lid, match: {foot.1: doubler.three.2, other.1: doubler.three.1}}
"""


@pytest.mark.parametrize(("two", "count"), [(20, 40), (204, 4)], ids=["beside the lid", "under the lid"])
def test_three_layers_of_which_the_last_may_cover_two_rivets(tmp_path: Path, two: int, count: int) -> None:
    """Sheet, doubler, lid in that order on a post; two rivets through two of them, two through all.

    Sheet and doubler first, then five things of which the lid comes before its two rivets: 5! / 3 = 40. Where
    the lid covers the others, both come before it: 2 x 2 = 4.
    """
    names = ["sheet", "doubler", "lid"]
    rivets = {"r1": "doubler.two.1", "r2": "doubler.two.2", "r3": "lid.foot.1", "r4": "lid.other.1"}
    trial = Trial(
        folder=tmp_path,
        model=THREE.replace("TWO", str(two)),
        do=place(names) | {name: f"rivet: {hole}" for name, hole in rivets.items()},
        undo=take_off(names) | {name: f"drill out: {hole}" for name, hole in rivets.items()},
        first=("place: post",),
        bench="flat",
    )
    assert trial.orders() == count


def test_the_lid_is_the_one_thing_to_move(tmp_path: Path) -> None:
    """Given: both rivets under the lid come after it. With the lid alone moved behind them all is right."""
    rivets = {"r1": "doubler.two.1", "r2": "doubler.two.2", "r3": "lid.foot.1", "r4": "lid.other.1"}
    do = place(["sheet", "doubler", "lid"]) | {name: f"rivet: {hole}" for name, hole in rivets.items()}
    model = THREE.replace("TWO", "204")
    trial = Trial(folder=tmp_path, model=model, do=do, undo={}, first=("place: post",), bench="flat")
    given = ["sheet", "doubler", "lid", "r1", "r2", "r3", "r4"]
    # From below it is the bench that shuts them.
    assert trial.found([do[element] for element in given]) == {4: ["wrong-side-up"], 5: ["wrong-side-up"]}
    assert trial.kinds(["sheet", "doubler", "r1", "r2", "lid", "r3", "r4"]) == []


CIRCLE = """\
format: 1
name: A circle of reasons
base: sheet
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  sheet:
    shape: skin
    thickness: 1
    outline: [[0, 0], [400, 0], [400, 200], [0, 200]]
    holes: {r1: {at: [[200, 100]], size: small}, r2: {at: [[200, 135]], size: small}}
  stop:
    shape: angle
    thickness: 1
    length: 36
    legs: [50, 45]
    holes: {foot: {flat: leg 1, at: [[18, 31]], size: small}}
  slider:
    shape: hat
    thickness: 1
    length: 58
    feet: [30, 30]
    webs: [20, 20]
    crown: 42
    holes: {foot: {flat: foot 1, at: [[29, 15]], size: small}}
  lip: {shape: block, length: 60, width: 20, height: 5}
  wall: {shape: block, length: 5, width: 100, height: 60}
placed:
  lip left: {part: lip, at: [170, 145, 2], x along: forward, y along: left}
  lip right: {part: lip, at: [170, 35, 2], x along: forward, y along: left}
  wall: {part: wall, at: [165, 50, 1], x along: forward, y along: left}
  stop: {part: stop, at: [231, 82, 1], x along: left, y along: aft}
  slider: {part: slider, at: [171, 120, 1], x along: forward, y along: left}
"""
"""Two lips let the slider only slide along x, past where the stop stands; the wall shuts the other end."""


def test_a_circle_of_reasons_has_no_order(tmp_path: Path) -> None:
    """The stop is riveted under the slider, so before it; once it is there the slider no longer goes in."""
    parts = ["sheet", "stop", "slider"]
    trial = Trial(
        folder=tmp_path,
        model=CIRCLE,
        do=place(parts) | {"r1": "rivet: stop.foot.1", "r2": "rivet: slider.foot.1"},
        undo=take_off(parts) | {"r1": "drill out: stop.foot.1", "r2": "drill out: slider.foot.1"},
        first=("place: [lip left, lip right, wall]",),
        bench="flat",
    )
    assert trial.kinds(["sheet", "stop", "r1", "slider", "r2"]) == ["no-way-in"]
    # From below it is the bench that shuts it.
    assert trial.kinds(["sheet", "slider", "r2", "stop", "r1"]) == ["wrong-side-up"]
    # Without the rivet between them, or without the stop, all goes well.
    assert trial.kinds(["sheet", "slider", "r2", "stop"]) == []
    assert trial.kinds(["sheet", "stop", "r1"]) == []


def test_no_order_of_the_circle_is_right(tmp_path: Path) -> None:
    """The rivet before the slider, the slider before the stop, the stop before the rivet: none of 120."""
    parts = ["sheet", "stop", "slider"]
    trial = Trial(
        folder=tmp_path,
        model=CIRCLE,
        do=place(parts) | {"r1": "rivet: stop.foot.1", "r2": "rivet: slider.foot.1"},
        undo=take_off(parts) | {"r1": "drill out: stop.foot.1", "r2": "drill out: slider.foot.1"},
        first=("place: [lip left, lip right, wall]",),
        bench="flat",
    )
    assert trial.orders() == 0


@pytest.mark.parametrize(
    ("turns", "wrong"),
    [
        ((1, 2, 3), 0),  # turned between any two
        ((1, 2), 1),  # the last is set from the wrong side
        ((2,), 2),
        ((), 2),
    ],
)
def test_four_rivets_from_sides_that_alternate_want_three_turns(
    tmp_path: Path, turns: tuple[int, ...], wrong: int
) -> None:
    """Heads above, below, above, below: with u steps alternating from either start u - 1 turns are needed."""
    do = {
        f"r{k}": f"{{rivet: upper sheet.seam.{k + 1}, head: {'upper' if k % 2 == 0 else 'lower'}}}"
        for k in range(4)
    }
    # The last hole is pinned: with the first rivet that is enough to turn the sheets.
    lines = ["place: lower sheet", "{place: upper sheet, pins: [upper sheet.seam.5]}"]
    for k in range(4):
        lines += ["turn over: sideways"] * (k in turns) + [do[f"r{k}"]]
    trial = Trial(folder=tmp_path, model=LAP, do=do, undo={}, bench="flat")
    kinds = [kind for found in trial.found(lines).values() for kind in found]
    assert kinds == ["wrong-side-up"] * wrong


@pytest.mark.parametrize("forgotten", [None, 0, 1, 2, 3])
def test_two_rows_that_begin_on_different_sides_want_four_turns(
    tmp_path: Path, forgotten: int | None
) -> None:
    """Above, below, above, below and below, above, below, above: min(max(4 + 1, 4), max(4, 4 + 1)) - 1 = 4.

    On the side that is up all that can be done is done, then the work is turned. Without one of the turns
    everything after it is on the wrong side.
    """
    model = LAP.replace("count: 5", "count: 9")
    blocks = [("upper", [1]), ("lower", [2, 5]), ("upper", [3, 6]), ("lower", [4, 7]), ("upper", [8])]
    lines = ["place: lower sheet", "{place: upper sheet, pins: [upper sheet.seam.9]}"]
    wrong = 0
    for turn, (side, holes) in enumerate(blocks, start=-1):
        lines += ["turn over: sideways"] * (turn >= 0 and turn != forgotten)
        lines += [f"{{rivet: upper sheet.seam.{hole}, head: {side}}}" for hole in holes]
        wrong += len(holes) * (forgotten is not None and turn >= forgotten)
    found = Trial(folder=tmp_path, model=model, do={}, undo={}, bench="flat").found(lines)
    assert [kind for kinds in found.values() for kind in kinds] == ["wrong-side-up"] * wrong
