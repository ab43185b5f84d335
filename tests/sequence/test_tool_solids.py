"""What a tool fills at one turn: pieces beside the axis, swings, hands that hold a handle."""

from __future__ import annotations

import random

import numpy as np
import pytest

from seqviz.geometry.pose import turn_about
from seqviz.geometry.solids import solids_of
from seqviz.records.steps import BodyPiece, Reach, Tool
from seqviz.sequence.tool_solids import arms, nose_radius, offset_pieces, square_pieces, turns_that_differ
from tests.sequence.by_hand import HERE

UPRIGHT = np.eye(3)


def _tool(*body: BodyPiece, turns: int = 4, along: str = "axis", diameter: float = 40.0) -> Tool:
    reach = Reach(diameter=diameter, length=100.0, along=along)
    return Tool(name="one", kind="bolt", body=body, turns=turns, tilt=0.0, reach=reach, at=HERE)


def _box(width: float, depth: float, offset: float) -> Tool:
    return _tool(BodyPiece(start=0.0, end=8.0, box=(width, depth), offset=offset))


def test_a_handle_stands_beside_the_axis_and_turns_with_the_tool() -> None:
    # Width 150 about 85: from 10 to 160; a quarter turn brings it to y.
    tool = _box(150.0, 12.0, 85.0)
    quarter = turn_about(UPRIGHT[2], 90.0)
    there = solids_of([*square_pieces(tool, UPRIGHT, 0.0, 0.0), *square_pieces(tool, quarter, 0.0, 0.0)])
    assert np.allclose(there.low, [[10, -6, 0], [-6, 10, 0]])
    assert np.allclose(there.high, [[160, 6, 8], [6, 160, 8]])


def test_turns_of_a_tool_with_a_handle_all_differ() -> None:
    handle = BodyPiece(start=0.0, end=8.0, box=(150.0, 12.0), offset=85.0)
    middle = BodyPiece(start=0.0, end=8.0, box=(150.0, 12.0))
    assert turns_that_differ(_tool(handle)) == [0, 90, 180, 270]
    assert turns_that_differ(_tool(middle)) == [0, 90]
    assert nose_radius(_tool(BodyPiece(start=0.0, end=8.0, diameter=10.0, offset=7.0))) == 12.0


@pytest.mark.parametrize("seed", range(12))
def test_a_swing_sweeps_what_the_box_passes_and_no_more(seed: int) -> None:
    chance = random.Random(seed)
    width, depth = chance.uniform(5.0, 180.0), chance.uniform(4.0, 40.0)
    offset, swing = chance.choice([0.0, chance.uniform(0.0, 120.0)]), chance.uniform(5.0, 200.0)
    swept = [*square_pieces(_box(width, depth, offset), UPRIGHT, 0.0, swing)]
    angles = np.radians(np.linspace(0.0, swing, 4_000))
    back = np.stack([np.cos(angles), np.sin(angles), -np.sin(angles), np.cos(angles)], axis=1)
    for _ in range(300):
        radius, angle = chance.uniform(0.0, offset + width), chance.uniform(0.0, 2.0 * np.pi)
        point = np.array([radius * np.cos(angle), radius * np.sin(angle)])
        # The point as the box sees it at every angle; how far it is outside the box there, at the nearest.
        seen = back.reshape(-1, 2, 2) @ point
        outside = np.maximum(abs(seen[:, 0] - offset) - width / 2, abs(seen[:, 1]) - depth / 2).min()
        inside = any(_has(prism.polygon, point) for prism in swept)
        # Arcs are cut short by 0.02 at most; a hull may reach over the end that looks to the axis.
        assert inside or outside > -0.05
        assert not inside or outside < 0.6


def _has(polygon: np.ndarray, point: np.ndarray) -> bool:
    """Say whether a convex anticlockwise polygon holds the point."""
    along = np.roll(polygon, -1, axis=0) - polygon
    away = point - polygon
    return bool((along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0] >= 0.0).all())


def test_between_the_places_of_a_round_piece_that_swings_nothing_slips() -> None:
    tool = _tool(BodyPiece(start=5.0, end=25.0, diameter=10.0, offset=60.0))
    round_ones = [*offset_pieces(tool, UPRIGHT, 0.0, 90.0)]
    centres = np.array([one.start for one in round_ones])
    assert np.allclose(centres[0], [60, 0, 5])
    assert np.allclose(centres[-1], [0, 60, 5])
    # Neighbours s apart leave out 5 - sqrt(25 - s^2 / 4) on the rim.
    apart = np.linalg.norm(np.diff(centres, axis=0), axis=1).max()
    assert 5.0 - np.sqrt(25.0 - apart**2 / 4) <= 0.02
    assert len([*offset_pieces(tool, UPRIGHT, 0.0, 0.0)]) == 1


def test_the_hand_holds_the_outer_end_of_a_handle_and_lies_on_the_work() -> None:
    tool = _tool(BodyPiece(start=2.0, end=8.0, box=(150.0, 12.0), offset=85.0), along="any")
    up, out = arms(tool, UPRIGHT, 90.0, 0.0)
    # The handle ends at 160; a hand of 40 across has its middle 20 before that. It lies on 2: its axis at 22.
    assert np.allclose([up.start, up.axis], [[0, 140, 8], [0, 0, 1]])
    assert np.allclose([out.start, out.axis], [[0, 140, 22], [0, 1, 0]])


def test_an_arm_across_a_tall_tool_begins_at_its_back_end() -> None:
    tool = _tool(BodyPiece(start=0.0, end=50.0, diameter=25.0), along="across")
    assert {round(float(arm.start[2]), 6) for arm in arms(tool, UPRIGHT, 0.0, 0.0)} == {50.0}
    assert len([*arms(tool, UPRIGHT, 0.0, 0.0)]) == 4
