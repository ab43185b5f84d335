"""Table K: pins and set fasteners in the way, heads and tails under a part."""

from __future__ import annotations

from typing import Literal

import pytest

from seqviz.assembly.structure import PlacedPart
from seqviz.sequence.fixings import FixingTable
from seqviz.sequence.hardware import SetFastener
from seqviz.sequence.tables import Fixing, Way
from tests.sequence.by_hand import Box, piece, structure

# One rivet at (50, 50) through skin and strap, faces at z = 0 and 2; head 8 x 2, tail 5 x 4.
HOLE = [(50.0, 50.0)]
SKIN = piece("skin", [((0, 0, 0), (100, 100, 1))], {"row": HOLE})
STRAP = piece("strap", [((30, 30, 1), (70, 70, 2))], {"row": HOLE})
RIVET = SetFastener(kind="blind rivet", head=(8.0, 2.0), tail=(5.0, 4.0))
UP, DOWN, ALONG = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)


def _fixing(kind: Literal["pin", "fastener"] = "fastener", end: int = 1) -> Fixing:
    return Fixing(stack=0, kind=kind, end=end)


def _table(part: PlacedPart) -> FixingTable:
    own = structure(SKIN, STRAP).stacks
    return FixingTable(structure(SKIN, STRAP, part, stacks=own), lambda _stack, _name: RIVET)


def _lies_on(box: Box, end: int = 1, hole: float | None = None) -> bool:
    rows = {"big": [(50.0, 50.0)]} if hole else None
    part = piece("plate", [box], rows, diameter=hole or 3.3)
    fixing = _fixing(end=end)
    return _table(part).under("plate", frozenset({fixing})) == {fixing}


@pytest.mark.parametrize(
    ("edge", "under"), [(45.9, False), (46.0, False), (46.04, False), (46.06, True), (50.0, True)]
)
def test_an_edge_over_a_head_of_radius_4(edge: float, under: bool) -> None:
    # The plate lies on the strap and ends at x = edge; the head reaches from 46 to 54.
    assert _lies_on(((0, 40, 2), (edge, 60, 3))) is under


def test_the_tail_counts_on_the_other_side() -> None:
    below: Box = ((0, 40, -1), (47.0, 60, 0))
    # The tail's radius is 2.5: it reaches to x = 47.5, the head's 4 to 46.
    assert _lies_on(below) is False
    assert _lies_on(below, end=-1) is True


@pytest.mark.parametrize(("hole", "under"), [(7.9, True), (8.0, False), (12.0, False)])
def test_a_hole_that_lets_the_head_through(hole: float, under: bool) -> None:
    assert _lies_on(((0, 40, 2), (100, 60, 3)), hole=hole) is under


def test_a_plate_above_the_head_does_not_lie_on_it() -> None:
    assert _lies_on(((0, 40, 4), (100, 60, 5))) is False
    assert _lies_on(((0, 40, 3.9), (100, 60, 5))) is True


def test_pins_never_lie_under_a_part() -> None:
    table = _table(piece("plate", [((0, 40, 2), (100, 60, 3))]))
    assert table.under("plate", frozenset({_fixing("pin")})) == frozenset()


def _closes(box: Box, out: tuple[float, float, float], fixing: Fixing, hole: float | None = None) -> bool:
    part = piece("plate", [box], {"big": HOLE} if hole else None, diameter=hole or 3.3)
    return bool(_table(part).in_way("plate", Way(out), frozenset({fixing})))


def test_a_part_beside_a_pin_goes_up_and_not_over_it() -> None:
    # A pin's body is 12 wide and 30 high; the plate ends 10 before its middle.
    beside: Box = ((0, 40, 2), (40, 60, 3))
    assert _closes(beside, UP, _fixing("pin")) is False
    assert _closes(beside, ALONG, _fixing("pin")) is True
    # From below only the tip of 3.3 x 8 stands out above: in the way ALONG too, but not at y > 52.
    assert _closes(beside, ALONG, _fixing("pin", -1)) is True
    assert _closes(((0, 52, 2), (40, 60, 3)), ALONG, _fixing("pin", -1)) is False
    assert _closes(((0, 52, 2), (40, 60, 3)), ALONG, _fixing("pin", 1)) is True


def test_a_part_above_a_pins_body_closes_only_its_way_down() -> None:
    above: Box = ((40, 40, 33), (60, 60, 34))
    assert [_closes(above, out, _fixing("pin")) for out in (UP, DOWN, ALONG)] == [False, True, False]


def test_a_part_where_the_pins_body_stands_has_no_way() -> None:
    there: Box = ((45, 40, 10), (60, 60, 11))
    assert [_closes(there, out, _fixing("pin")) for out in (UP, DOWN, ALONG)] == [True, True, True]


def test_a_head_in_a_clearance_hole_lets_the_part_move_off_it_only() -> None:
    # Down it would come to the tail, through the strap and the skin.
    around: Box = ((0, 40, 2), (100, 60, 3))
    fixing = _fixing()
    assert [_closes(around, out, fixing, hole=9.0) for out in (UP, DOWN, ALONG)] == [False, True, True]


@pytest.mark.parametrize(("y", "closed"), [(48.3, False), (48.45, True), (50.0, True), (51.7, False)])
def test_the_shank_between_gaping_layers_closes_a_slot(y: float, closed: bool) -> None:
    # The strap lifted to z = 3 leaves a slot of 2 under it; the shank, as thick as its hole of 3.3, reaches
    # from y = 48.35 to 51.65. A strip 20 wide lies left of it in the slot and goes out along x.
    high = piece("strap", [((30, 30, 3), (70, 70, 4))], {"row": HOLE})
    own = structure(SKIN, high).stacks
    low, top = (y - 20.0, y) if y <= 50.0 else (y, y + 20.0)
    strip = piece("strip", [((0, low, 1.2), (20, top, 2.8))])
    table = FixingTable(structure(SKIN, high, strip, stacks=own), lambda _stack, _name: RIVET)
    found = table.in_way("strip", Way(ALONG), frozenset({_fixing()}))
    assert (found == {_fixing()}) is closed
    assert table.in_way("strip", Way((-1.0, 0.0, 0.0)), frozenset({_fixing()})) == frozenset()
