"""What stands out on both ends of a set fastener."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seqviz.records.model import Hardware
from seqviz.sequence.hardware import fastener_in
from tests.sequence.by_hand import HERE, model, piece, structure

SKIN = piece("skin", [((0, 0, 0), (80, 40, 1))], {"rail": [(20, 10)]})
RAIL = piece("rail", [((0, 0, 1), (80, 20, 2.5))], {"foot": [(20, 10)]})
(STACK,) = structure(SKIN, RAIL).stacks  # grip 1.0 + 1.5 = 2.5


def test_by_name_from_the_tables() -> None:
    # Blind rivet 3.2: head 2.0 D x 0.3 D, tail 1.6 D x 1.5 D (common practice).
    found = fastener_in(model("skin"), STACK, "blind rivet 3.2")
    assert found.kind == "blind rivet"
    assert [round(x, 6) for x in (*found.head, *found.tail)] == [6.4, 0.96, 5.12, 4.8]


def test_by_the_makers_own_data() -> None:
    own = Hardware(
        name="pull 3.2",
        kind=None,
        diameter=3.2,
        lengths=((6.0, 1.5, 3.5), (8.0, 3.5, 5.0)),
        hole=None,
        head_diameter=7.0,
        head_height=1.1,
        at=HERE,
    )
    found = fastener_in(model("skin", hardware={"pull 3.2": own}), STACK, "pull 3.2")
    # Without a kind it is a blind rivet; length 6 for grip 2.5 stands out by 3.5.
    assert (found.kind, found.head) == ("blind rivet", (7.0, 1.1))
    assert [round(x, 6) for x in found.tail] == [5.12, 3.5]


def test_an_unknown_name_is_a_blind_rivet_as_thick_as_the_hole() -> None:
    found = fastener_in(model("skin"), STACK, None)
    assert (found.kind, round(found.head[0], 6)) == ("blind rivet", 6.6)
    assert fastener_in(model("skin"), STACK, "bolt AN3").kind == "bolt"


def test_a_flush_head_stands_out_by_nothing() -> None:
    sunk = replace(STACK, countersunk=True)
    # Solid rivet 1/8: MS20426 .225 in wide; its tail and the room for it are as of any.
    found = fastener_in(model("skin"), sunk, "solid rivet 1/8")
    usual = fastener_in(model("skin"), STACK, "solid rivet 1/8")
    assert found.head == pytest.approx((5.715, 0.0), abs=1e-12)
    assert (found.tail, found.room) == (usual.tail, usual.room)
    # The length of a flush bolt holds its head: 20 in, and nothing above.
    own = Hardware(
        name="flush 5",
        kind="bolt",
        diameter=5.0,
        lengths=((20.0, 1.0, 8.0),),
        hole=None,
        head_diameter=9.0,
        head_height=2.0,
        at=HERE,
        head_angle=90.0,
    )
    bolt = fastener_in(model("skin", hardware={"flush 5": own}), STACK, "flush 5")
    assert (bolt.head, bolt.way_in) == ((9.0, 0.0), 20.0)


def test_lengths_of_the_tables_count_for_room_and_way_in() -> None:
    # Grip 2.5. AN3-4: .531 in = 13.487; out of the sheet 10.987, and in all with the head 0.7 x 4.7625.
    bolt = fastener_in(model("skin"), STACK, "bolt AN3")
    assert bolt.room is not None
    assert bolt.room[1] == pytest.approx(0.531 * 25.4 - 2.5)
    assert bolt.way_in == pytest.approx(0.531 * 25.4 + 0.7 * 3 / 16 * 25.4)
    # 4-5: 2.5 + 1.5 x 3.175 = 7.26, rounded up to 5/16 in = 7.9375, which stands out by 5.4375.
    rivet = fastener_in(model("skin"), STACK, "solid rivet 1/8")
    assert rivet.room is not None
    assert rivet.room[1] == pytest.approx(5.4375)
