"""Table W: candidate ways and what is met on them."""

from __future__ import annotations

import numpy as np
import pytest

from seqviz.assembly.structure import Assembly, Contact
from seqviz.geometry.pose import Pose, frozen, turn_about
from seqviz.geometry.separation import TOLERANCE
from seqviz.sequence.bench import Direction
from seqviz.sequence.pieces import Pieces
from seqviz.sequence.tables import Way
from seqviz.sequence.ways import WayTable, box_is_met
from tests.sequence.by_hand import piece, structure, vector

SKIN = piece("skin", [((0, 0, 0), (100, 100, 1))])
PLATE = piece("plate", [((20, 20, 1), (40, 40, 2))])


def _table(assembly: Assembly) -> WayTable:
    return WayTable(assembly, Pieces(assembly))


def _met(table: WayTable, part: str, out: Direction, *among: str) -> list[str]:
    return sorted(table.met(part, Way(out), frozenset(among)))


def test_a_plate_on_a_skin_goes_every_way_but_down() -> None:
    table = _table(structure(SKIN, PLATE))
    assert len(table.ways("plate")) == 6
    blocked = [way for way in table.ways("plate") if _met(table, "plate", way, "skin")]
    assert blocked == [(0.0, 0.0, -1.0)]


def test_only_parts_that_are_asked_for_are_told() -> None:
    lid = piece("lid", [((0, 0, 50), (100, 100, 51))])
    beside = piece("beside", [((60, 20, 1), (80, 40, 30))])
    table = _table(structure(SKIN, PLATE, lid, beside))
    up, forward = (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)
    assert _met(table, "plate", up, "skin", "lid", "beside") == ["lid"]
    assert _met(table, "plate", up, "skin", "beside") == []
    assert _met(table, "plate", forward, "skin", "lid", "beside") == ["beside"]


def test_parts_whose_final_places_overlap_are_told_by_the_geometry_alone() -> None:
    # 0.06 deep interferes, 0.04 does not; sunk by that much, the plate still meets the skin on its way down.
    for depth, met in ((0.06, []), (0.04, ["skin"])):
        sunk = piece("plate", [((20, 20, 1 - depth), (40, 40, 2))])
        table = _table(structure(SKIN, sunk))
        assert _met(table, "plate", (0.0, 0.0, -1.0), "skin") == met
        assert _met(table, "plate", (0.0, 0.0, 1.0), "skin") == []


def test_the_partners_normals_are_ways_too() -> None:
    # The plate lies on a face that slopes by 7 degrees: its normal is a way, though no axis of the plate.
    turn = Pose(rotation=frozen(turn_about(vector(0, 1, 0), 7.0)), translation=vector(0, 0, 0))
    slope = type(SKIN)(
        name="slope", part=SKIN.part, pose=turn, depth=0, side=SKIN.side, free=False, at=SKIN.at
    )
    touching = (Contact(upper="plate", lower="slope", area=400.0, gap=0.0),)
    apart = structure(slope, PLATE)
    assert len(_table(apart).ways("plate")) == 6
    ways = _table(structure(slope, PLATE, contacts=touching)).ways("plate")
    assert len(ways) == 8
    normal = turn.vectors(vector(0, 0, 1))
    assert [any(np.allclose(way, sign * normal) for way in ways) for sign in (1, -1)] == [True, True]


def test_muted_parts_are_never_met() -> None:
    lid = piece("lid", [((0, 0, 50), (100, 100, 51))])
    table = _table(structure(SKIN, PLATE, lid, muted=frozenset({"lid"})))
    assert _met(table, "plate", (0.0, 0.0, 1.0), "skin", "lid") == []


@pytest.mark.parametrize(
    ("low", "high", "direction", "met"),
    [
        ([5, 0, 0], [6, 1, 1], [1, 0, 0], True),
        ([5, 0, 0], [6, 1, 1], [-1, 0, 0], False),
        ([5, 1.001 - TOLERANCE, 0], [6, 2, 1], [1, 0, 0], False),
        ([5, 0.94, 0], [6, 2, 1], [1, 0, 0], True),
        ([5, 5, 0], [6, 6, 1], [np.sqrt(0.5), np.sqrt(0.5), 0], True),
        ([5, 8, 0], [6, 9, 1], [np.sqrt(0.5), np.sqrt(0.5), 0], False),
    ],
)
def test_boxes_on_the_way(low: list[float], high: list[float], direction: list[float], met: bool) -> None:
    # The box 0 to 1 moves; what only comes within the tolerance of 0.05 is not met.
    ends = np.array([low], dtype=float), np.array([high], dtype=float)
    assert box_is_met(np.zeros(3), np.ones(3), *ends, np.array(direction, dtype=float))[0] == met
