"""Tools as rigs: postures, lifts and arms worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from seqviz.records.steps import BodyPiece, Reach, Tool
from seqviz.sequence.tools import rigs
from tests.sequence.by_hand import HERE, puller

SIN, COS = float(np.sin(np.radians(5.0))), float(np.cos(np.radians(5.0)))


def _boxed(turns: int, along: str = "axis", tilt: float = 0.0) -> Tool:
    return Tool(
        name="boxed",
        kind="blind rivet",
        body=(
            BodyPiece(start=0.0, end=20.0, diameter=10.0),
            BodyPiece(start=20.0, end=120.0, box=(40.0, 60.0)),
        ),
        turns=turns,
        tilt=tilt,
        reach=Reach(along=along),
        at=HERE,
    )


def test_a_round_tool_stands_upright_once_with_its_arm_behind_it() -> None:
    upright, tilted = rigs([puller(diameter=20.0, length=100.0)])
    body, arm = upright.cylinders
    assert (body.length, body.radius, arm.length, arm.radius) == (100.0, 10.0, 200.0, 10.0)
    assert np.allclose(body.start, [0, 0, 0])
    assert np.allclose(arm.start, [0, 0, 100])
    assert np.allclose(arm.axis, [0, 0, 1])
    assert len(upright.options) == 1
    assert tilted.options == ()


def test_a_tilted_tool_is_raised_so_that_its_rim_stands_on_the_stack() -> None:
    _, tilted = rigs([puller(diameter=20.0, length=100.0, tilt=5.0)])
    # Four turns, so four leans; the first toward +x. Raised by 10 sin 5 = 0.87 along the axis.
    assert len(tilted.options) == 4
    body, arm = tilted.cylinders[:2]
    axis = np.array([SIN, 0, COS])
    assert np.allclose(body.axis, axis)
    assert np.allclose(body.start, axis * 10 * SIN)
    assert np.allclose(arm.start, axis * (100 + 10 * SIN))
    # The lowest point of the rim, 10 below the middle across the axis, is on the face within 4e-3 mm.
    assert (body.start - 10 * np.array([-COS, 0, SIN]))[2] == pytest.approx(0.0, abs=4e-3)
    assert np.allclose(
        [tilted.cylinders[2 * k].axis[:2] / SIN for k in range(4)], [[1, 0], [0, 1], [-1, 0], [0, -1]]
    )


def test_square_tools_turn_by_half_of_their_turns() -> None:
    upright, tilted = rigs([_boxed(turns=8, tilt=5.0)])
    # 0, 45, 90, 135 degrees: the rest are the same boxes. Tilted: as many toward each of 8 directions.
    assert (len(upright.options), len(upright.boxes)) == (4, 4)
    assert len(tilted.options) == 32
    assert np.allclose(upright.boxes.low[0], [-20, -30, 20])
    assert np.allclose(upright.boxes.high[0], [20, 30, 120])
    # A quarter turn is the third: width and depth change places.
    assert np.allclose(upright.boxes.high[2], [30, 20, 120])


@pytest.mark.parametrize(("along", "count"), [("axis", 1), ("across", 4), ("any", 5)])
def test_arms(along: str, count: int) -> None:
    tool = Tool(
        name="bar",
        kind="solid rivet",
        body=(BodyPiece(start=0.0, end=50.0, diameter=25.0),),
        turns=4,
        tilt=0.0,
        reach=Reach(along=along),
        at=HERE,
    )
    upright, _ = rigs([tool])
    arms = [upright.cylinders[option.cylinders[-1]] for option in upright.options]
    assert len(arms) == count
    assert all(np.allclose(arm.start, [0, 0, 50]) and arm.radius == 50.0 for arm in arms)
    across = [arm.axis for arm in arms if abs(arm.axis[2]) < 0.5]
    assert np.allclose(across, [[1, 0, 0], [0, 1, 0], [-1, 0, 0], [0, -1, 0]][: len(across)])
    # The bench looks at the tool's own axis, and at the arm where it points elsewhere.
    pointing = [len(option.directions) for option in upright.options]
    assert pointing == [1] * (along != "across") + [2] * (4 if along != "axis" else 0)
