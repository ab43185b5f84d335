"""Bolts and solid rivets: what must be free at both ends, worked by hand and against brute force."""

from __future__ import annotations

import random
from dataclasses import replace

import numpy as np
import pytest
import shapely

from seqviz.assembly.structure import Assembly
from seqviz.records.steps import BodyPiece, Reach, Tool
from seqviz.sequence.access import End, Side
from seqviz.sequence.access_table import AccessTable
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.pieces import Pieces
from tests.sequence.by_hand import HERE, Box, piece, puller, structure

BOLT = SetFastener(kind="bolt", head=(10.0, 3.0), tail=(10.0, 8.0), room=(10.0, 9.0), way_in=14.0)
SOLID = SetFastener(kind="solid rivet", head=(6.4, 1.4), tail=(4.8, 1.6), room=(4.8, 4.8))
UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)


def _wrench(swing: float = 30.0, turns: int = 12, name: str = "wrench", **words: str) -> Tool:
    """A head of 20 across, 8 high, a handle of 12 x 6 from 10 to 160 beside it, a thin arm straight up."""
    return Tool(
        name=name,
        kind="bolt",
        body=(
            BodyPiece(start=0.0, end=8.0, diameter=20.0),
            BodyPiece(start=2.0, end=8.0, box=(150.0, 12.0), offset=85.0),
        ),
        turns=turns,
        tilt=0.0,
        reach=Reach(diameter=2.0, length=5.0),
        at=HERE,
        swing=swing,
        **words,
    )


def _two_plates(*boxes: Box) -> Assembly:
    """Two plates of 400 x 400, z from 0 to 2, with one hole at 0, 0, and obstacles one by one."""
    holes = {"row": [(0.0, 0.0)]}
    skin = piece("skin", [((-200, -200, 0), (200, 200, 1))], holes)
    strap = piece("strap", [((-200, -200, 1), (200, 200, 2))], holes)
    others = [piece(f"box {k}", [box]) for k, box in enumerate(boxes, start=1)]
    return structure(skin, strap, *others)


def _sides(assembly: Assembly, fastener: SetFastener, *tools: Tool) -> tuple[Side, ...]:
    return AccessTable(assembly, Pieces(assembly), tools).sides(assembly.stacks[0], fastener)


def _met(end: End) -> list[list[str]]:
    return [sorted(alternative.blockers) for alternative in end]


def _ok(end: End) -> bool:
    return [] in _met(end)


def test_a_bolt_has_a_way_in_room_for_its_nut_and_a_tool_at_each_end() -> None:
    sides = _sides(_two_plates(), BOLT, _wrench())
    # Either side may have the head, either end turns; the nut is turned first.
    assert [side.head for side in sides] == [1, 1, -1, -1]
    for side in sides:
        assert [len(_met(end)) for end in side.ends] == [1, 1, 12, 12]
        assert side.by_hand == side.ends[:2]
        assert len(side.tightened().ends) == 2
    way_in, room = sides[0].by_hand
    # The bench closes both: a hand puts the bolt in and runs the nut on.
    assert [a.directions for a in way_in] == [(UP,)]
    assert [a.directions for a in room] == [(DOWN,)]


@pytest.mark.parametrize(
    ("above", "below", "free"),
    [
        (
            16.0,
            -9.0,
            (True, True),
        ),  # The way in takes 14 above the stack at 2, the nut with the bolt's end 9.
        (15.9, -9.0, (False, True)),
        (16.0, -8.9, (True, False)),
    ],
)
def test_how_long_the_ways_are(above: float, below: float, free: tuple[bool, bool]) -> None:
    lid: Box = ((-3, -3, above), (3, 3, above + 1))
    floor: Box = ((-3, -3, below - 1), (3, 3, below))
    side = _sides(_two_plates(lid, floor), BOLT, _wrench())[0]
    assert tuple(_ok(end) for end in side.by_hand) == free


def test_a_swing_is_stopped_by_a_wall_on_one_hand_and_free_on_the_other() -> None:
    # Four turns, each swings 60 degrees from there: a thin post at 30 degrees is in the first arc only.
    x, y = 100 * np.cos(np.radians(30)), 100 * np.sin(np.radians(30))
    post: Box = ((x - 0.1, y - 0.1, 2), (x + 0.1, y + 0.1, 30))
    turned_below, turned_above = _sides(_two_plates(post), BOLT, _wrench(60.0, 4))[:2]
    assert _met(turned_above.ends[2]) == [["box 1"], [], [], []]
    # Where it only holds it does not swing: 30 degrees is beside the handle at 0.
    assert _met(turned_below.ends[2]) == [[], [], [], []]


def test_a_post_that_every_arc_passes_leaves_holding_only() -> None:
    posts: list[Box] = []
    for angle in (45, 135, 225, 315):
        x, y = 60 * np.cos(np.radians(angle)), 60 * np.sin(np.radians(angle))
        posts.append(((x - 0.1, y - 0.1, 2), (x + 0.1, y + 0.1, 30)))
    turned_below, turned_above = _sides(_two_plates(*posts), BOLT, _wrench(60.0, 4))[:2]
    assert (_ok(turned_above.ends[2]), _ok(turned_below.ends[2])) == (False, True)
    # So the nut is the end that turns.
    assert all(_ok(end) for end in turned_below.ends)


def test_ends_at_which_tools_work() -> None:
    assembly = _two_plates()
    hammer = replace(puller(kind="solid rivet"), name="hammer", end="head")
    bar = replace(puller(kind="solid rivet", length=40.0), name="bar", end="tail")
    for side in _sides(assembly, SOLID, hammer, bar):
        assert [[a.tool for a in end] for end in side.ends] == [["hammer"], ["bar"], [None]]
        assert [a.directions[0][2] for a in side.ends[0]] == [side.head]
    # An end for which the list has no tool is not asked.
    (side, _) = _sides(assembly, SOLID, hammer)
    assert [[a.tool for a in end] for end in side.ends] == [["hammer"], [None]]


def test_a_rivet_that_is_not_driven_yet_needs_more_room() -> None:
    # A bar that begins 6 out leaves the tail to the room for it: 4.8 long, 4.8 across, below 0.
    bar = replace(puller(kind="solid rivet", diameter=2.0), body=(BodyPiece(start=6, end=9, diameter=2.0),))
    for depth, met in ((-4.8, []), (-4.7, ["box 1"])):
        shelf: Box = ((2, -3, depth - 1), (4, 3, depth))
        side = _sides(_two_plates(shelf), SOLID, bar)[0]
        assert _met(side.ends[2]) == [met]


def test_a_bucking_bar_that_fits_at_one_turn() -> None:
    # A pit under the hole, open toward -y only: a bar of 60 x 10 that stands out to one side.
    bar = Tool(
        name="bar",
        kind="solid rivet",
        body=(BodyPiece(start=0.0, end=12.0, box=(60.0, 10.0), offset=22.0),),
        turns=8,
        tilt=0.0,
        reach=Reach(diameter=2.0, length=5.0, along="across"),
        at=HERE,
        end="tail",
    )
    pit: list[Box] = [
        ((10, -60, -30), (12, 60, 0)),
        ((-12, -60, -30), (-10, 60, 0)),
        ((-60, 10, -30), (60, 12, 0)),
    ]
    met = _met(_sides(_two_plates(*pit), SOLID, bar)[0].ends[0])
    assert met.count([]) == 1
    # The end looks down, its x is the part's x: turns run clockwise from above, so -y is a quarter turn.
    assert met.index([]) == 2


@pytest.mark.parametrize("seed", range(8))
def test_random_posts_against_brute_force(seed: int) -> None:
    chance = random.Random(seed)
    tool = _wrench(chance.uniform(10.0, 90.0), chance.choice([3, 4, 7]))
    posts = [_post(chance) for _ in range(6)]
    side = _sides(_two_plates(*posts), BOLT, tool)[1]
    sure = 0
    for turn, alternative in enumerate(side.ends[2]):
        for number, ((x0, y0, _), (x1, y1, _)) in enumerate(posts, start=1):
            post = shapely.box(x0, y0, x1, y1)
            gap = _nearest(tool, 360.0 * turn / tool.turns, post)
            inside = _nearest(tool, 360.0 * turn / tool.turns, post.buffer(-0.4, join_style="mitre"))
            if gap > 0.2 or inside == 0.0:
                sure += 1
                assert (f"box {number}" in alternative.blockers) == (inside == 0.0)
    assert sure >= 12


def _post(chance: random.Random) -> Box:
    radius, angle = chance.uniform(8.0, 180.0), chance.uniform(0.0, 2.0 * np.pi)
    x, y = radius * np.cos(angle), radius * np.sin(angle)
    return ((x - 1.0, y - 1.0, 2.0), (x + 1.0, y + 1.0, 40.0))


def _nearest(tool: Tool, start: float, post: shapely.Polygon) -> float:
    """Return how near the wrench comes to the post in its swing: 2,000 places of it, each exactly."""
    box = shapely.box(10.0, -6.0, 160.0, 6.0)
    # Seen from the box the post turns back.
    angles = np.radians(np.linspace(start, start + tool.swing, 2_000))
    turns = np.stack([np.cos(angles), np.sin(angles), -np.sin(angles), np.cos(angles)], axis=1)
    corners = np.asarray(post.exterior.coords) @ turns.reshape(-1, 2, 2).transpose(0, 2, 1)
    around = shapely.distance(box, shapely.polygons(corners)).min()
    to_head = max(0.0, float(shapely.Point(0, 0).distance(post)) - 10.0)
    # The arm, 2 across, stands straight up from the handle's outer end in the middle of the swing.
    middle = np.radians(start + tool.swing / 2)
    held = shapely.Point(159.0 * np.cos(middle), 159.0 * np.sin(middle))
    return float(min(around, to_head, max(0.0, float(held.distance(post)) - 1.0)))
