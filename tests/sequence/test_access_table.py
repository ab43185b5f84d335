"""Table T on small structures: what the alternatives of one rivet meet."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from seqviz.assembly.structure import Assembly
from seqviz.geometry.pose import Pose, frozen, turn_about, unit
from seqviz.records.steps import BodyPiece, Reach, Tool
from seqviz.sequence.access import Side
from seqviz.sequence.access_table import AccessTable, end_frame
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.pieces import Pieces
from tests.sequence.by_hand import HERE, Box, piece, puller, structure, vector

BLIND = SetFastener(kind="blind rivet", head=(6.4, 1.0), tail=(5.0, 4.0))
SOLID = SetFastener(kind="solid rivet", head=(6.4, 1.4), tail=(4.8, 1.6))
BOLT = SetFastener(kind="bolt", head=(8.0, 3.0), tail=(8.0, 5.0))


def _angle_beside(distance: float, *others: Any) -> Assembly:
    """A skin, and on it an angle with a rivet ``distance`` from its standing leg, 25 high."""
    holes = [(40.0, distance)]
    skin = piece("skin", [((0, -20, 0), (80, 60, 1))], {"rail": holes})
    angle = piece("angle", [((0, 0, 1), (80, 30, 2)), ((0, -1, 2), (80, 0, 26))], {"foot": holes})
    return structure(skin, angle, *others)


def _met(assembly: Assembly, head: int, *tools: Tool) -> list[list[list[str]]]:
    """For each end of that head side the blockers of each alternative, in order."""
    side = _side(assembly, BLIND, head, *tools)
    return [[sorted(alternative.blockers) for alternative in end] for end in side.ends]


def _side(assembly: Assembly, fastener: SetFastener, head: int, *tools: Tool) -> Side:
    table = AccessTable(assembly, Pieces(assembly), tools)
    return next(side for side in table.sides(assembly.stacks[0], fastener) if side.head == head)


@pytest.mark.parametrize(
    ("distance", "blockers"), [(10.0, []), (9.96, []), (9.94, ["angle"]), (8.0, ["angle"])]
)
def test_the_stacks_own_standing_leg_stops_a_tool_of_radius_10(distance: float, blockers: list[str]) -> None:
    # 9.96 away: 0.04 deep, within the tolerance of 0.05.
    assert _met(_angle_beside(distance), 1, puller(diameter=20.0)) == [[blockers], [[]]]


@pytest.mark.parametrize(("distance", "blockers"), [(28.0, []), (27.9, ["angle"])])
def test_a_tool_of_radius_28_beside_a_wall(distance: float, blockers: list[str]) -> None:
    assert _met(_angle_beside(distance), 1, puller(diameter=56.0)) == [[blockers], [[]]]


def test_a_tilted_tool_gets_past_a_low_leg() -> None:
    # Upright a radius of 10 meets the leg. Leaning away by 5 degrees, raised by 10 sin 5 = 0.87, the tool is
    # nearest to the leg at its foot: 10 cos 5 - 0.87 sin 5 = 9.886. So it clears 9.90, and never 9.5.
    near, further = _angle_beside(9.5), _angle_beside(9.90)
    tool = puller(diameter=20.0, tilt=5.0)
    assert [] not in _met(near, 1, tool)[0]
    met = _met(further, 1, tool)[0]
    # Upright, then leaning toward +x, +y (away from the leg), -x, -y.
    assert met == [["angle"], ["angle"], [], ["angle"], ["angle"]]


def test_a_part_over_the_rivet_stops_it_and_the_other_side_is_free() -> None:
    cover = piece("cover", [((0, -20, 60), (80, 60, 61))])
    assembly = _angle_beside(20.0, cover)
    assert _met(assembly, 1, puller()) == [[["cover"]], [[]]]
    assert _met(assembly, -1, puller()) == [[[]], [[]]]


def test_the_arm_behind_the_tool_counts() -> None:
    # The body ends at 2 + 100, the arm at 302: a shelf at 250 stops the arm, one at 303 nothing.
    shelf: list[Box] = [((0, -20, 250), (80, 60, 251))]
    beyond: list[Box] = [((0, -20, 303), (80, 60, 304))]
    assert _met(_angle_beside(20.0, piece("shelf", shelf)), 1, puller())[0] == [["shelf"]]
    assert _met(_angle_beside(20.0, piece("shelf", beyond)), 1, puller())[0] == [[]]


def test_a_blind_rivet_needs_room_for_its_tail() -> None:
    # The tail is 4.0 long: a plate 3.9 below the skin stops it, one 4.0 below does not.
    for gap, met in ((3.9, ["plate"]), (4.0, [])):
        plate = piece("plate", [((0, -20, -gap - 1), (80, 60, -gap))])
        assert _met(_angle_beside(20.0, plate), 1, puller())[1] == [met]


def test_a_solid_rivet_needs_a_tool_at_both_ends() -> None:
    below = piece("below", [((0, -20, -60), (80, 60, -59))])
    side = _side(_angle_beside(20.0, below), SOLID, 1, puller(kind="solid rivet"))
    # The head, the tail, and the room for the tail.
    assert [[sorted(a.blockers) for a in end] for end in side.ends] == [[[]], [["below"]], [[]]]
    assert [[a.directions for a in end] for end in side.ends] == [[((0, 0, 1),)], [((0, 0, -1),)], [()]]


def test_kinds_without_a_tool_are_not_checked() -> None:
    assembly = _angle_beside(20.0)
    table = AccessTable(assembly, Pieces(assembly), (puller(),))
    assert table.sides(assembly.stacks[0], BOLT) == ()
    assert table.sides(assembly.stacks[0], SOLID) == ()
    assert len(table.sides(assembly.stacks[0], BLIND)) == 2


def test_muted_parts_block_nothing() -> None:
    cover = piece("cover", [((0, -20, 60), (80, 60, 61))])
    parts = _angle_beside(20.0, cover).placed.values()
    assert _met(structure(*parts, muted=frozenset({"cover"})), 1, puller())[0] == [[]]


def test_a_box_is_turned_until_it_passes() -> None:
    # A box of 10 x 60, a leg 10 away: its half length of 30 meets the leg, its half width of 5 does not.
    tool = Tool(
        name="flat",
        kind="blind rivet",
        body=(BodyPiece(start=0.0, end=20.0, box=(10.0, 60.0)),),
        turns=4,
        tilt=0.0,
        reach=Reach(diameter=2.0, length=10.0),
        at=HERE,
    )
    assert _met(_angle_beside(10.0), 1, tool)[0] == [["angle"], []]


def test_the_frame_on_an_end_follows_the_part() -> None:
    assembly = _angle_beside(10.0)
    frame = end_frame(assembly, assembly.stacks[0], -1)
    assert np.allclose(frame.rotation.T, [[1, 0, 0], [0, -1, 0], [0, 0, -1]])
    assert np.allclose(frame.translation, [40, 10, 0])
    # Turn the whole structure: the frame turns with it.
    turn = Pose(rotation=frozen(turn_about(unit(vector(1, 2, 3)), 40.0)), translation=vector(5, 6, 7))
    moved = _moved(assembly, turn)
    there = end_frame(moved, moved.stacks[0], -1)
    assert np.allclose(there.rotation, turn.rotation @ frame.rotation)
    assert np.allclose(there.translation, turn.points(frame.translation))
    met = _met(moved, 1, puller(diameter=21.0, tilt=5.0))
    assert met == _met(assembly, 1, puller(diameter=21.0, tilt=5.0))


def _moved(assembly: Assembly, pose: Pose) -> Assembly:
    parts = [
        type(part)(
            name=part.name,
            part=part.part,
            pose=pose.after(part.pose),
            depth=part.depth,
            side=pose.vectors(part.side),
            free=part.free,
            at=part.at,
        )
        for part in assembly.placed.values()
    ]
    (stack,) = assembly.stacks
    turned = type(stack)(
        index=0,
        point=pose.points(stack.point),
        axis=pose.vectors(stack.axis),
        layers=stack.layers,
        holes=stack.holes,
        diameter=stack.diameter,
        size=None,
        fastener=stack.fastener,
        pin=stack.pin,
    )
    return structure(*parts, stacks=(turned,))
