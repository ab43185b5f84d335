"""A film: every step's picture, its parts on their true ways, and what is in the holes before and after."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.geometry.pose import IDENTITY, Pose, frozen
from seqviz.geometry.separation import interfere
from seqviz.scene.film import film_of, path_clear_of
from seqviz.scene.film_types import Film, Fixed, Move
from seqviz.scene.history import pin_side, with_moved_pins
from seqviz.scene.step import scene_of_step
from tests.checks.expect import STEPS, built
from tests.scene.test_actions import MODEL, ORDER
from tests.scene.tray import tray_with_stop
from tests.sequence.benches import LIP
from tests.sequence.files import HEAD
from tests.sequence.files import ORDER as TOP

SEQUENCES = sorted(Path(__file__).parents[2].glob("sequences/*.yaml"))
BOX = (np.zeros(3), np.array([10.0, 10.0, 10.0]))
WORK = (np.zeros(3), np.array([100.0, 100.0, 20.0]))


@cache
def demo(path: Path) -> tuple[Build, Film]:
    made = build(str(path))
    return made, film_of(made)


@pytest.fixture(scope="module")
def brackets(tmp_path_factory: pytest.TempPathFactory) -> Film:
    """A strap and a tab joined apart with two bolts, placed on a pinned rail, taken off, and on again."""
    steps = STEPS.replace("bench: flat", "bench: trestles") + ORDER
    return film_of(built(tmp_path_factory.mktemp("order"), MODEL, steps))


@pytest.mark.parametrize(
    ("out", "first", "path"),
    [
        # The work is 20 high: 20 up, and 10 clear.
        ((0, 0, 1), (0, 0, 0), [(0, 0, 30), (0, 0, 0)]),
        # It ends at x = 10: 10 to the work's edge at 0, and 10 clear.
        ((-1, 0, 0), (0, 0, 0), [(-20, 0, 0), (0, 0, 0)]),
        # Up by 30 it is clear after 30 / 0.8 = 37.5, along x after 110 / 0.6 = 183.
        ((0.6, 0, 0.8), (0, 0, 0), [(22.5, 0, 30), (0, 0, 0)]),
        # First 5 aside, then from x = 0 by 110 along x.
        ((1, 0, 0), (0, 5, 0), [(110, 5, 0), (0, 5, 0), (0, 0, 0)]),
    ],
)
def test_a_path_begins_clear_of_the_work(
    out: tuple[float, ...], first: tuple[float, ...], path: list[tuple[float, ...]]
) -> None:
    assert np.allclose(path_clear_of(BOX, WORK, np.array(out), np.array(first)), path)


def test_two_moves(tmp_path: Path) -> None:
    (tmp_path / "model.yaml").write_text(HEAD + LIP, encoding="utf-8")
    order = f"{TOP}bench: trestles\nsteps:\n  - place: [one side, other side, front, lip, far stop]\n"
    (tmp_path / "order.yaml").write_text(f"{order}  - place: tongue\n", encoding="utf-8")
    (move,) = film_of(build(str(tmp_path / "order.yaml"))).moments[1].moves
    # It slips back by 15; from z = 1 over the sides, which end at 31, and 10 clear.
    assert np.allclose(move.path, [[-15, 0, 40], [-15, 0, 0], [0, 0, 0]])


def test_the_moves_of_each_step(brackets: Film) -> None:
    told = {
        moment.scene.number: [
            (move.part, move.piece, move.path.round(6).tolist(), move.leaves) for move in moment.moves
        ]
        for moment in brackets.moments
        if moment.moves
    }
    home = [[0, 0, 0]]
    # The rail lies on the floor's upper face, z = 0.8, which is the work's top: 10 clear.
    up = [[0, 0, 10], [0, 0, 0]]
    piece = "bracket set"
    assert told == {
        1: [("floor", "floor", home, False), ("rail", "rail", up, False)],
        2: [("strap", "strap", home, False), ("tab", "tab", up, False)],
        7: [("strap", piece, up, False), ("tab", piece, up, False)],
        11: [("strap", piece, up, True), ("tab", piece, up, True)],
        12: [("strap", piece, up, False), ("tab", piece, up, False)],
    }


def test_what_is_in_the_holes_before_and_after_each_step(brackets: Film) -> None:
    counts = {m.scene.number: (len(m.fixed_before), len(m.fixed)) for m in brackets.moments}
    assert counts == {
        1: (0, 2),  # two pins in the rail
        2: (0, 0),  # apart: these are not on it
        3: (0, 0),
        4: (0, 0),
        5: (0, 4),  # two bolts, head and tail
        6: (4, 4),
        7: (6, 6),  # they come with the bracket set
        8: (6, 7),
        9: (7, 7),
        10: (7, 6),
        11: (6, 2),  # and leave with it
        12: (6, 6),
        13: (6, 6),  # tightened
        14: (6, 14),  # five rivets instead of two pins
        15: (14, 12),
    }


def test_a_bolt_stands_on_the_tab_and_under_the_strap(brackets: Film) -> None:
    moment = brackets.moments[6]
    bolts = [brackets.fixed[k] for k in moment.fixed if brackets.fixed[k].kind != "pin"]
    # Tab's upper side 0.8 + 1.6 + 1.2 + 1.0, strap's lower side 0.8 + 1.6; the tab is at y = 110 to 130.
    told = sorted((one.kind, one.part, one.point.round(6).tolist()[2], one.outward[2]) for one in bolts)
    assert told == [("head", "tab", 4.6, 1.0)] * 2 + [("tail", "strap", 2.4, -1.0)] * 2
    # A bolt of 4.0: head 2.0 D or what the table says, the same as in the picture.
    drawn = {(one.diameter, one.height) for one in moment.scene.fitted if not one.pin}
    assert {(one.diameter, one.height) for one in bolts} == drawn


def test_everything_stands_once_and_in_rising_order(brackets: Film) -> None:
    keys = [(one.stack, one.part, one.kind, tuple(one.point)) for one in brackets.fixed]
    assert len(set(keys)) == len(keys)
    for moment in brackets.moments:
        assert list(moment.fixed) == sorted(set(moment.fixed))
        assert list(moment.fixed_before) == sorted(set(moment.fixed_before))
    assert {k for moment in brackets.moments for k in moment.fixed} == set(range(len(brackets.fixed)))


def test_a_moved_pin_changes_sides() -> None:
    film = film_of(tray_with_stop())
    moment = film.moments[4]
    before, after = ([film.fixed[k] for k in some] for some in (moment.fixed_before, moment.fixed))
    assert [(one.kind, one.part, one.outward[2]) for one in before] == [("pin", "stop", 1.0)]
    assert [(one.kind, one.part, one.outward[2]) for one in after] == [("pin", "bottom", -1.0)]


@pytest.mark.parametrize("path", SEQUENCES, ids=lambda path: path.stem)
def test_the_pictures_are_those_of_single_steps(path: Path) -> None:
    made, film = demo(path)
    assert made.replay is not None
    assert [m.scene.number for m in film.moments] == [s.step.number for s in made.replay.states]
    for moment in film.moments:
        one, other = moment.scene, scene_of_step(made, moment.scene.number)
        assert one.words == other.words
        assert [(i.name, i.role, tuple(i.shift)) for i in one.items] == [
            (i.name, i.role, tuple(i.shift)) for i in other.items
        ]
        assert [(m.stack, m.kind, tuple(m.ends[0].point)) for m in one.marks] == [
            (m.stack, m.kind, tuple(m.ends[0].point)) for m in other.marks
        ]
        shown = [(f.stack, f.pin, f.diameter, f.height, tuple(f.point)) for f in one.fitted]
        assert sorted(shown) == sorted(
            (f.stack, f.pin, f.diameter, f.height, tuple(f.point)) for f in other.fitted
        )
        # The picture shows what the film has before the step, but for what a mark hides.
        marked = {m.stack for m in one.marks if m.kind not in ("drill", "leave open", "still open")}
        shift = {item.name: item.shift for item in one.items}
        stands = [film.fixed[k] for k in moment.fixed_before]
        assert sorted((s, p, point) for s, p, _, _, point in shown if s not in marked) == sorted(
            (f.stack, f.kind == "pin", tuple(f.point + shift[f.part]))
            for f in stands
            if f.stack not in marked
        )


@pytest.mark.parametrize("path", SEQUENCES, ids=lambda path: path.stem)
def test_what_stands_is_what_a_plain_count_from_the_first_step_on_gives(path: Path) -> None:
    made, film = demo(path)
    for number, moment in enumerate(film.moments):
        stands = {(f.stack, f.kind, f.part) for f in (film.fixed[k] for k in moment.fixed)}
        assert stands == set(counted(made, number)), moment.scene.number


def counted(made: Build, last: int) -> list[tuple[int, str, str]]:
    """Return stack, kind and part of all that stands after a step, with no memory of earlier answers."""
    assembly, found = made.assembly, []
    assert made.replay is not None
    states = with_moved_pins(made.model, assembly, made.replay).states
    for stack in assembly.stacks:
        inside: dict[str, tuple[int, set[str]]] = {}
        for state in states[: last + 1]:
            parts = {p for p in stack.parts if made.replay.there(p, state.step.number, state.work)}
            if stack.index in (*state.unpinned, *state.filled):
                inside.pop("pin", None)
            if stack.index in state.pinned:
                inside["pin"] = (pin_side(assembly, state, stack.index), parts)
            if stack.index in state.emptied:
                inside.pop("head", None)
            if stack.index in state.filled:
                inside["head"] = (state.head_sides[stack.index], parts)
        now = states[last]
        there = [p for p in stack.parts if made.replay.there(p, now.step.number, now.work)]
        for kind, (side, held) in inside.items():
            if held & set(there):
                ends = there[::side]
                found.append((stack.index, kind, ends[0]))
                found += [(stack.index, "tail", ends[-1])] if kind == "head" else []
    return found


def on_the_way(move: Move) -> list[Pose]:
    """Return where a part is at the start of its path, at its corners, and half way between them."""
    halves = (move.path[1:] + move.path[:-1]) / 2
    points = [*move.path[:-1], *halves]
    return [Pose(rotation=IDENTITY.rotation, translation=frozen(point)) for point in points]


@pytest.mark.parametrize("name", ["practice_tray", "battery_shelf", "float_bay"])
def test_on_the_ways_of_a_clean_order_nothing_is_met(name: str) -> None:
    made, film = demo(next(path for path in SEQUENCES if path.stem == name))
    placed, ways = made.assembly.placed, 0
    for moment in film.moments:
        moving = [move.part for move in moment.moves]
        there = {item.name for item in moment.scene.items} - set(moving)
        for move in moment.moves:
            ways += len(move.path) > 1
            for pose in on_the_way(move):
                solids = placed[move.part].solids.moved(pose)
                assert not [o for o in there if interfere(solids, placed[o].solids)], move
            assert not move.path[-1].any()
            # At the start its box is clear of the work's.
            if len(move.path) > 1:
                low, high = (corner + move.path[0] for corner in placed[move.part].box)
                boxes = [placed[name].box for name in there]
                assert all((low > box[1]).any() or (high < box[0]).any() for box in boxes)
            if not move.leaves:
                there.add(move.part) if move.piece == move.part else None
    assert ways >= {"practice_tray": 5, "battery_shelf": 15, "float_bay": 25}[name]


def test_fixed_is_told_by_its_kind(brackets: Film) -> None:
    by_kind: dict[str, list[Fixed]] = {}
    for one in brackets.fixed:
        by_kind.setdefault(one.kind, []).append(one)
    # Pins in rail.foot 1 and 5 and strap.eye.1; 2 bolts and 5 rivets. On the side of the pin: diameter 3.3.
    assert {kind: len(some) for kind, some in by_kind.items()} == {"pin": 3, "head": 7, "tail": 7}
    assert {(round(one.diameter, 2), round(one.height, 2)) for one in by_kind["pin"]} == {(5.61, 13.2)}


AGAIN = """\
  - place: floor
  - apart: bracket set
    steps:
      - place: strap
      - pins: strap.eye.1
      - place: tab
      - drill: tab.lug
      - bolt: tab.lug
        finger tight: yes
  - place: rail
  - place: bracket set
  - drill out: tab.lug.1
  - take off: bracket set
  - place: bracket set
  - take off: [bracket set, rail]
"""


def test_what_happens_to_a_sub_assembly_goes_on_with_it(tmp_path: Path) -> None:
    film = film_of(built(tmp_path, MODEL, STEPS.replace("bench: flat", "bench: trestles") + AGAIN))
    told = {
        m.scene.number: [" ".join(film.fixed[k].kind for k in some) for some in (m.fixed_before, m.fixed)]
        for m in film.moments
    }
    whole, left = "pin head tail head tail", "pin head tail"
    # The pin is in the strap alone: the rail, which has a hole there too, comes to the main work without it.
    assert told[7] == ["", ""]
    assert [told[k] for k in (8, 9, 10, 11, 12)] == [
        [whole, whole],
        [whole, left],
        [left, ""],
        # One bolt was drilled out on the main work: that is so on the bracket set that comes again.
        [left, left],
        [left, ""],
    ]
    # The bracket set leaves while the rail is there, on whose upper face at 2.4 it lies; then the rail does.
    starts = [(move.part, round(float(move.path[0][2]), 6)) for move in film.moments[-1].moves]
    assert starts == [("strap", 10.0), ("tab", 10.0), ("rail", 10.0)]
