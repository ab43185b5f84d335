from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.scene.still import axes_up, still_of
from tests.cli.shelf import MODEL, write_shelf

GUIDED = MODEL.replace(
    "placed:\n",
    "  guide:\n    shape: plate\n    tool: yes\n    thickness: 3.0\n"
    "    outline: [[0, 0], [300, 0], [300, 20], [0, 20]]\n    holes:\n"
    "      row: {from: [20, 10], to: [280, 10], count: 14, size: small}\n"
    "placed:\n  guide: {part: guide, side: lower, match: {row.1: panel.edge.1, row.14: panel.edge.14}}\n",
)
STEPS = """\
format: 1
model: shelf.yaml
up: upper
steps:
  - place: [stiffener, guide]
    pins: ends and every 4th
  - take off: guide
  - rivet: stiffener.foot.2-3
  - turn over: sideways
"""


@pytest.fixture
def made(tmp_path: Path) -> Build:
    write_shelf(tmp_path, model=GUIDED, sequence=STEPS)
    return build(str(tmp_path / "evening.yaml"))


def test_after_a_step_there_is_what_it_leaves(made: Build) -> None:
    assert made.noticed == ()
    first, second = still_of(made, 1), still_of(made, 2)
    assert [item.name for item in first.items] == ["panel", "stiffener", "guide"]
    assert [item.name for item in second.items] == ["panel", "stiffener"]
    assert {one.kind for one in first.fixed} == {"pin"}
    third = still_of(made, 3)
    assert sorted((one.stack, one.kind) for one in third.fixed if one.kind != "pin") == [
        (stack, kind)
        for stack in sorted(made.assembly.stack_of[f"panel.edge.{k}"] for k in (2, 3))
        for kind in ("head", "tail")
    ]


def test_the_structure_has_all_parts_but_templates_and_what_is_set_at_the_end(made: Build) -> None:
    still = still_of(made, None)
    assert [item.name for item in still.items] == ["panel", "stiffener"]
    assert sorted(one.kind for one in still.fixed) == ["head", "head", "tail", "tail"]


def test_what_faces_up_on_the_bench_is_up(made: Build) -> None:
    # The base's upper side is +z: up is y, forward +x is z, left +y is x.
    assert axes_up(still_of(made, 1).lie) @ np.eye(3) == pytest.approx(
        np.array([[0, 1, 0], [0, 0, 1], [1, 0, 0]])
    )
    # Turned over sideways, about the axis that runs forward: y and z change their signs.
    assert axes_up(still_of(made, 4).lie) == pytest.approx(np.array([[0, -1, 0], [0, 0, -1], [1, 0, 0]]))
