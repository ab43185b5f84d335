"""The float bay stands as its drawing says: what lies over what, and both sides alike."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from seqviz.assembly.structure import Stack
from seqviz.build import Build, build
from seqviz.records.steps import TakeOff

ROOT = Path(__file__).parents[1]


@cache
def bay() -> Build:
    return build(str(ROOT / "sequences" / "float_bay.yaml"))


def at(hole: str) -> Stack:
    return next(stack for stack in bay().assembly.stacks if hole in stack.holes)


@pytest.mark.parametrize(
    ("hole", "layers", "grip"),
    [
        ("aft clip.foot.1", {"aft clip", "aft gusset", "keel channel", "keel strip"}, 1.6 + 3 + 1 + 2),
        ("eye plate.rim.4", {"eye plate", "keel channel", "keel strip"}, 3 + 1 + 2),
        ("forward clip.wall.2", {"forward clip", "bulkhead forward"}, 1.6 + 0.8),
        (
            "gunwale angle right.side.8",
            {"gunwale angle right", "aft side skin right", "forward side skin right"},
            1 + 0.8 + 0.8,
        ),
        (
            "gunwale packing left.row.6",
            {"gunwale angle left", "gunwale packing left", "forward side skin left"},
            1 + 0.8 + 0.8,
        ),
        ("strut fitting.bolts.1", {"strut fitting", "bulkhead forward", "fitting doubler"}, 4 + 0.8 + 1.6),
    ],
)
def test_stacks_are_those_of_the_drawing(hole: str, layers: set[str], grip: float) -> None:
    assert set(at(hole).parts) == layers
    assert at(hole).grip == pytest.approx(grip)


def test_the_bottom_rises_five_in_thirteen_to_the_chine() -> None:
    # From the keel's corner at y = 20, z = 2 by 260 along the sheet: 240 out and 100 up.
    chine = bay().assembly.placed["chine angle left"].pose.points(np.zeros((1, 3)))[0]
    assert np.allclose(chine[1:], [260.0, 102.0], atol=0.01)


def test_every_part_of_the_left_has_its_twin_on_the_right() -> None:
    placed = bay().assembly.placed
    left = {name.replace("left", "right") for name in placed if "left" in name}
    assert left == {name for name in placed if "right" in name}
    for name in left:
        right, twin = _box(name), _box(name.replace("right", "left"))
        assert np.allclose(right[:, [0, 2]], twin[:, [0, 2]], atol=0.01), name
        assert np.allclose(right[:, 1], -twin[::-1, 1], atol=0.01), name


def test_everything_is_set_and_the_template_is_off_again() -> None:
    made = bay()
    assert made.replay is not None
    assert len(made.replay.filled_at) == len(made.assembly.stacks) == 303
    actions = [state.step.action for state in made.replay.states]
    off = [name.text for action in actions if isinstance(action, TakeOff) for name in action.names]
    assert off == ["drill template"]


def _box(name: str) -> np.ndarray:
    """Return ``(2, 3)`` the low and the high corner of the box round a placed part, mm."""
    solids = bay().assembly.placed[name].solids
    return np.array([solids.low.min(axis=0), solids.high.max(axis=0)])
