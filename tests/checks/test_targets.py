from pathlib import Path

import pytest

from seqviz.build import Build
from seqviz.checks.targets import Target, later_parts, later_stacks, target_of
from seqviz.findings import At
from seqviz.records.model import Known
from tests.checks.expect import FLOOR, built

TWO = (
    FLOOR
    + """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      edge: {from: [20, 80], to: [180, 80], count: 5, size: small, both sides: yes}
  rail:
    shape: plate
    thickness: 1.6
    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]
    holes:
      foot: {from: [10, 10], to: [170, 10], count: 5, size: small}
placed:
  runner: {part: rail, match: {foot.1: floor.edge.1, foot.5: floor.edge.5}, both sides: other hand}
later:
  - {holes: floor.edge left.2-3, why: a bracket}
  - {part: runner right, why: the second kit}
"""
)


@pytest.fixture
def made(tmp_path: Path) -> Build:
    return built(tmp_path, TWO)


def known(target: str) -> Known:
    at = At(file="model.yaml", line=1, column=1)
    return Known(
        kind="holes-off", target=target, target_at=at, why="", by=None, figure=None, sure=False, at=at
    )


def stacks(made: Build, *holes: str) -> frozenset[int]:
    return frozenset(made.assembly.stack_of[hole] for hole in holes)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("runner left", {"runner left"}),
        ("runner", {"runner left", "runner right"}),
        ("rail", {"runner left", "runner right"}),
        ("floor", {"floor"}),
        ("nobody", set()),
    ],
)
def test_a_name_means_a_placed_part_twins_or_every_occurrence(
    made: Build, text: str, parts: set[str]
) -> None:
    assert target_of(made, known(text)) == Target(parts=frozenset(parts))


@pytest.mark.parametrize(
    ("text", "holes"),
    [
        ("runner left.foot.2", ["runner left.foot.2"]),
        ("runner left.foot.4-2", [f"runner left.foot.{n}" for n in (2, 3, 4)]),
        ("runner right.foot", [f"runner right.foot.{n}" for n in range(1, 6)]),
        ("rail.foot.1", ["runner left.foot.1", "runner right.foot.1"]),
        ("floor.edge.1", ["floor.edge left.1", "floor.edge right.1"]),
        ("runner left.foot.9", []),
        ("runner left.toe", []),
    ],
)
def test_holes_ranges_and_rows(made: Build, text: str, holes: list[str]) -> None:
    assert target_of(made, known(text)) == Target(stacks=stacks(made, *holes))


def test_later_names_holes_and_the_holes_of_parts(made: Build) -> None:
    assert later_parts(made) == {"runner right"}
    right = [f"runner right.foot.{n}" for n in range(1, 6)]
    assert later_stacks(made) == stacks(made, "floor.edge left.2", "floor.edge left.3", *right)
