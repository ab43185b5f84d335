"""What is shown of a finding: the place, the tool or pin that has no room, the way that is barred."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.checks.run import run
from seqviz.findings import At, Finding
from seqviz.geometry.prism import Prism
from seqviz.geometry.separation import TOLERANCE, close_pairs, deepest, depths
from seqviz.geometry.solids import solids_of
from seqviz.geometry.sweep import swept_pieces
from seqviz.scene.conflict import conflict_of
from seqviz.scene.film_types import Conflict
from seqviz.scene.shifts import box_of
from seqviz.scene.spots import hole_spot
from tests.checks.expect import FLOOR, STEPS, built
from tests.checks.test_tool_blocked import LID
from tests.sequence.benches import LIP, SLIDE
from tests.sequence.files import HEAD, PULLER
from tests.sequence.files import ORDER as TOP
from tests.test_uses import BOX, SKIN, TWO, made

MISTAKES = sorted(Path(__file__).parents[2].glob("sequences/*_mistakes*.yaml"))
LEAST = {"practice_tray_mistakes": 10, "practice_tray_mistakes_order": 10, "trial_strips_mistakes": 10}
WITH_TOOL = ("tool-blocked", "wrong-side-up", "pin-out-of-reach")
WITH_WAY = ("no-way-in", "way-out-blocked", "pin-in-the-way")
TRESTLES = TOP + "bench: trestles\n" + PULLER + "steps:\n"


@cache
def planted(path: Path) -> tuple[Build, tuple[Finding, ...]]:
    whole = build(str(path))
    return whole, run(whole)


def one(folder: Path, model: str, steps: str, kind: str) -> Conflict:
    """Return what is shown of the one finding of ``kind``."""
    whole = built(folder, model, steps)
    (finding,) = (finding for finding in run(whole) if finding.kind == kind)
    conflict = conflict_of(whole, finding)
    assert conflict is not None
    return conflict


def rounds(conflict: Conflict) -> list[tuple[float, float, list[float], list[float]]]:
    """Return of round pieces radius, length, start and axis."""
    pieces = [piece for piece in conflict.tool if isinstance(piece, Prism)]
    assert len(pieces) == len(conflict.tool)
    radii = [np.linalg.norm((p.polygon[0] + p.polygon[1]) / 2) for p in pieces]
    return [
        (
            round(float(radius), 6),
            p.height,
            p.frame.translation.round(6).tolist(),
            p.frame.rotation[:, 2].round(6).tolist(),
        )
        for radius, p in zip(radii, pieces, strict=True)
    ]


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
def test_every_planted_mistake_has_a_place(path: Path) -> None:
    whole, findings = planted(path)
    low, high = box_of(whole.assembly, whole.assembly.placed)
    assert len(findings) >= LEAST.get(path.stem, 20)
    for finding in findings:
        conflict = conflict_of(whole, finding)
        assert conflict is not None, finding.kind
        assert ((conflict.spot > low - 100) & (conflict.spot < high + 100)).all(), finding.message
        assert conflict.parts
        assert set(conflict.blockers) <= set(conflict.parts) <= set(whole.assembly.placed)
        assert bool(conflict.tool) == (finding.kind in WITH_TOOL and bool(finding.holes)), finding.message
        assert (conflict.path is not None) == (finding.kind in WITH_WAY), finding.message
        # Those in the steps are seen after a step that they are about, those in the model as a whole.
        in_model = finding.at.file == whole.model.path
        assert conflict.step in ((0,) if in_model else finding.steps), finding.message
        spot = hole_spot(whole.assembly, finding.holes[0]) if finding.holes else None
        assert spot is None or np.array_equal(spot, conflict.spot) or finding.kind in WITH_TOOL


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
def test_tools_stand_on_their_holes_and_meet_what_is_in_their_way(path: Path) -> None:
    whole, findings = planted(path)
    assert whole.replay is not None
    for finding in (finding for finding in findings if finding.kind in WITH_TOOL and finding.holes):
        conflict = conflict_of(whole, finding)
        assert conflict is not None
        tool = solids_of(conflict.tool)
        for part in conflict.blockers:
            assert deepest(tool, whole.assembly.placed[part].solids) > TOLERANCE, finding.message
        there = [p for p, bits in whole.replay.presence.items() if bits >> conflict.step & 1]
        others = [p for p in there if p not in conflict.blockers]
        met = [p for p in others if deepest(tool, whole.assembly.placed[p].solids) > 0.9]
        # A little wider than the tool itself: 0.9 % of a corridor of 100.
        assert met == [], finding.message
        if finding.kind == "wrong-side-up":
            assert conflict.blockers == ()
            up = next(s.up for s in whole.replay.states if s.step.number == conflict.step)
            assert float((tool.vertices @ up).min()) < float(conflict.spot @ up) - 50.0
        ends = [hole_spot(whole.assembly, hole) for hole in finding.holes]
        assert any(spot is not None and np.array_equal(spot, conflict.spot) for spot in ends)
        # Half of the thickest stack here is less than 10 mm.
        assert (tool.low - 10.0 < conflict.spot).all(axis=1).any()
        assert ((tool.low - 10.0 < conflict.spot) & (conflict.spot < tool.high + 10.0)).all(axis=1).any()


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
def test_on_barred_ways_the_blockers_are_met(path: Path) -> None:
    whole, findings = planted(path)
    for finding in (finding for finding in findings if finding.kind in WITH_WAY):
        conflict = conflict_of(whole, finding)
        assert conflict is not None
        assert conflict.path is not None
        assert not conflict.path[-1].any()
        out = conflict.path[0] - conflict.path[-1]
        moved = whole.assembly.placed[conflict.parts[0]].solids
        for part in conflict.blockers:
            fixed = whole.assembly.placed[part].solids
            met = swept_pieces(moved, fixed, out / np.linalg.norm(out), float(np.linalg.norm(out)))
            assert met.any(), finding.message
        assert conflict.blockers or finding.kind == "pin-in-the-way"


def test_a_tool_under_a_lid(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - place: lid\n  - rivet: rail.foot\n    head: upper\n"
    conflict = one(tmp_path, LID, STEPS + steps, "tool-blocked")
    # The floor is 0.8 thick, the rail 1.6; the hole is at x = 20, y = 50.
    assert conflict.spot.round(6).tolist() == [20.0, 50.0, 1.2]
    assert (conflict.step, conflict.blockers, conflict.parts) == (3, ("lid",), ("lid", "rail", "floor"))
    # The puller's two pieces, 20 and 70 long, then hand and arm, upright on the rail at 0.8 + 1.6.
    assert rounds(conflict) == [
        (5.0, 20.0, [20.0, 50.0, 2.4], [0.0, 0.0, 1.0]),
        (12.0, 70.0, [20.0, 50.0, 22.4], [0.0, 0.0, 1.0]),
        (50.0, 600.0, [20.0, 50.0, 92.4], [0.0, 0.0, 1.0]),
    ]


WALLS = (("aft", -10, 50), ("left", 180, 150), ("right", 180, -60), ("fore", 280, 50))
WALLED = LID.replace(
    "placed:\n", "  wall: {shape: block, length: 10, width: 10, height: 150}\nplaced:\n", 1
) + "".join(
    f"  {name}: {{part: wall, at: [{x - 5}, {y - 5}, 1], x along: forward, y along: left}}\n"
    for name, x, y in WALLS
)


def test_the_best_of_several_ways_to_hold_it(tmp_path: Path) -> None:
    # Straight up two bars are in the way, to each side one post, of which the left one came last.
    bars = "".join(
        f"  bar {z}: {{part: lid, at: [100, 20, {z}], x along: forward, y along: left}}\n" for z in (200, 220)
    )
    steps = "  - place: [floor, rail, bar 200, bar 220, aft, fore, right]\n  - place: left\n"
    tool = STEPS.replace("90}]}", "90}], turns: 4, reach: {diameter: 20, length: 200, along: any}}")
    conflict = one(
        tmp_path, WALLED + bars, f"{tool}{steps}  - rivet: rail.foot.5\n    head: upper\n", "tool-blocked"
    )
    assert conflict.blockers == ("left",)
    # The arm goes across from the end of the body, at 2.4 + 90.
    assert rounds(conflict)[-1] == (10.0, 200.0, [180.0, 50.0, 92.4], [0.0, 1.0, 0.0])
    assert len(rounds(conflict)) == 3


def test_a_tool_that_would_stand_on_the_bench(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot.5\n    head: lower\n"
    conflict = one(tmp_path, LID, STEPS + steps, "wrong-side-up")
    assert (conflict.step, conflict.blockers) == (2, ())
    assert rounds(conflict)[0] == (5.0, 20.0, [180.0, 50.0, 0.0], [0.0, 0.0, -1.0])
    assert rounds(conflict)[-1][2] == [180.0, 50.0, -90.0]


@pytest.mark.parametrize(
    ("steps", "body", "blockers"),
    [
        # 12 thick and 30 long, on the rail.
        (
            "  - place: [floor, rail, lid]\n    pins: rail.foot.1-4\n",
            (6.0, 30.0, [20.0, 50.0, 2.4], [0.0, 0.0, 1.0]),
            ("lid",),
        ),
        (
            "  - place: [floor, rail]\n  - pins: rail.foot.5\n    pins from: lower\n",
            (6.0, 30.0, [180.0, 50.0, 0.0], [0.0, 0.0, -1.0]),
            (),
        ),
    ],
)
def test_the_body_of_a_pin(
    tmp_path: Path,
    steps: str,
    body: tuple[float, float, list[float], list[float]],
    blockers: tuple[str, ...],
) -> None:
    conflict = one(tmp_path, LID, STEPS + steps, "pin-out-of-reach")
    assert (rounds(conflict), conflict.blockers) == ([body], blockers)


def test_a_barred_way(tmp_path: Path) -> None:
    steps = "  - place: [one side, other side, front, lip, near stop]\n  - place: tongue\n"
    conflict = one(tmp_path, HEAD + LIP, TRESTLES + steps, "no-way-in")
    # In its place it covers x 100 to 140, y 100 to 120, z 1 to 11.
    assert conflict.spot.tolist() == [120.0, 110.0, 6.0]
    assert (conflict.step, conflict.parts, conflict.blockers) == (2, ("tongue", "front"), ("front",))
    # Only the front stands before it; from 100 to the skin's edge at 300, and 10 clear.
    assert conflict.path is not None
    assert conflict.path.round(6).tolist() == [[210.0, 0.0, 0.0], [0.0, 0.0, 0.0]]


def test_between_two_that_are_clamped(tmp_path: Path) -> None:
    steps = "  - place: rail\n  - rivet: rail.foot.3-4\n  - place: strip\n"
    conflict = one(tmp_path, HEAD + SLIDE, TRESTLES + steps, "under-set-layer")
    # Skin 1.0, a gap of 1.0, rail 2.0: the middle is at 2.0, of the third hole.
    assert conflict.spot.round(6).tolist() == [120.0, 100.0, 2.0]
    assert (conflict.step, conflict.blockers) == (3, ("rail", "skin"))
    assert (conflict.tool, conflict.path) == ((), None)


def test_a_pin_in_the_way_is_what_to_look_at() -> None:
    whole, findings = planted(next(p for p in MISTAKES if p.stem == "practice_tray_mistakes_order"))
    (finding,) = (finding for finding in findings if finding.kind == "pin-in-the-way")
    conflict = conflict_of(whole, finding)
    assert conflict is not None
    assert whole.replay is not None
    (no_way,) = (no for no in whole.replay.no_way if no.cause == "pins" and no.step == conflict.step)
    pin = hole_spot(whole.assembly, no_way.blockers[0])
    assert pin is not None
    assert conflict.spot.tolist() == pin.tolist()
    assert conflict.path is not None
    # The angle lies on the side angles, at 1.6; their legs end at 20.8: straight up, and 10 clear.
    assert conflict.path.round(6).tolist() == [[0.0, 0.0, 29.2], [0.0, 0.0, 0.0]]
    assert (conflict.blockers, conflict.parts[0]) == ((), "front angle")


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
def test_where_two_parts_meet(path: Path) -> None:
    whole, findings = planted(path)
    for finding in (finding for finding in findings if finding.kind == "parts-interfere"):
        conflict = conflict_of(whole, finding)
        assert conflict is not None
        one, other = (whole.assembly.placed[part].solids for part in finding.parts)
        pairs = close_pairs(one, other)
        here = np.ones(len(pairs), dtype=bool)
        for solids, column in ((one, pairs[:, 0]), (other, pairs[:, 1])):
            here &= (solids.low[column] <= conflict.spot + 1e-9).all(axis=1)
            here &= (solids.high[column] >= conflict.spot - 1e-9).all(axis=1)
        # It is where they meet the deepest.
        assert float(depths(one, other, pairs[here]).max()) == pytest.approx(deepest(one, other))
        assert finding.figure == pytest.approx(deepest(one, other))


CORNER = (
    FLOOR
    + """\
parts:
  floor: {shape: skin, thickness: 0.8, outline: [[0, 0], [200, 0], [200, 100], [0, 100]]}
  rail: {shape: angle, thickness: 1.0, length: 100, legs: [20, 20], bend radius: 1.5}
  stop: {shape: block, length: 10, width: 10, height: 10}
placed:
  rail: {part: rail, at: [50, 50, 0.8], x along: forward, y along: left}
  stop: {part: stop, at: [100, 48, 1.8], x along: forward, y along: left}
"""
)


def test_of_several_places_where_two_parts_meet_the_deepest(tmp_path: Path) -> None:
    conflict = one(tmp_path, CORNER, STEPS + "  - place: [floor, rail, stop]\n", "parts-interfere")
    # The stop lies on one leg and cuts 3 into the other, 1 thick from y = 50 on, flat from 0.8 + 2.5 up;
    # into the bend beneath it cuts less. It ends at 11.8: (3.3 + 11.8) / 2.
    assert conflict.spot.round(6).tolist() == [105.0, 50.5, 7.55]


def test_a_loose_part_is_looked_for_at_the_hole_on_which_it_should_lie() -> None:
    whole, findings = planted(next(p for p in MISTAKES if p.stem == "practice_tray_mistakes"))
    (finding,) = (finding for finding in findings if finding.kind == "loose-part")
    conflict = conflict_of(whole, finding)
    assert conflict is not None
    assert (finding.parts, conflict.parts, conflict.step) == (("flag",), ("bottom",), 0)
    # The bottom is 0.8 thick, upper face at 0.8.
    assert conflict.spot.round(6).tolist() == [200.0, 60.0, 0.4]


def test_what_is_wrong_in_a_used_model_is_shown_where_that_stands(tmp_path: Path) -> None:
    plain = BOX.replace("length: 100\n    legs", "length: 90\n    legs")
    whole = made(tmp_path, box=plain, skin=SKIN + TWO)
    inner = whole.used[0]
    hole = inner.assembly.stacks[0].holes[0]
    at = At(file=inner.model.path, line=1, column=1)
    finding = Finding(kind="single-layer", severity="error", at=at, message="", why="", fix="", holes=(hole,))
    conflict = conflict_of(whole, finding)
    own = hole_spot(inner.assembly, hole)
    assert conflict is not None
    assert own is not None
    assert (conflict.parts, conflict.step) == (("box 1",), 0)
    # floor.foot.1 at (10, 10) of the box lies on skin.one.1 at (20, 100), the box on the skin of 0.6.
    assert np.allclose(conflict.spot, own + np.array([10.0, 90.0, 0.6]))


def test_what_is_about_no_place_has_none() -> None:
    whole, _ = planted(MISTAKES[0])
    at = At(file=whole.model.path, line=1, column=1)
    words = Finding(kind="unknown-word", severity="error", at=at, message="", why="", fix="")
    assert conflict_of(whole, words) is None
