from __future__ import annotations

import numpy as np

from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.hand import other_hand
from seqviz.parts.likeness import Look, Motion, look_of, motions, same_body, unmatched
from seqviz.parts.make import make_parts
from seqviz.parts.part import Part
from seqviz.records.model import BlockShape, Points, Row, Shape, TubeShape
from tests.parts.samples import angle, model, part, row, skin, zed

RECTANGLE = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0))


def made(shape: Shape, *rows: Row) -> Part:
    parts, findings = make_parts(model(part(shape, *rows)))
    assert findings == []
    return parts["p"]


def look(shape: Shape, *rows: Row) -> Look:
    found = look_of(made(shape, *rows))
    assert found is not None
    return found


def points(*places: tuple[float, float], flat: str | None = None) -> Row:
    return row(Points(points=places), "r", flat=flat)


def kept(one: Look) -> list[Motion]:
    return [motion for motion in motions(one) if same_body(one, one, motion, 0.1)]


def signs(found: list[Motion]) -> set[tuple[float, float, bool, bool]]:
    return {(float(m.matrix[0, 0]), float(m.matrix[1, 1]), m.over, m.proper) for m in found}


def test_a_rectangle_goes_into_itself_eight_ways() -> None:
    ways = signs(kept(look(skin(RECTANGLE))))
    # two mirror lines and the half turn, and all of that on the other face; quarter turns change its size
    assert ways == {
        (1, 1, False, True),
        (-1, -1, False, True),
        (-1, 1, False, False),
        (1, -1, False, False),
        (1, 1, True, False),
        (-1, -1, True, False),
        (-1, 1, True, True),
        (1, -1, True, True),
    }


def test_a_square_may_be_turned_by_a_quarter() -> None:
    square = ((0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0))
    assert len(kept(look(skin(square)))) == 16


def test_an_angle_with_uneven_legs_has_its_mirror_image_only() -> None:
    assert signs(kept(look(angle()))) == {(1, 1, False, True), (-1, 1, False, False)}


def test_an_angle_with_even_legs_may_change_them() -> None:
    assert signs(kept(look(angle(legs=(20.0, 20.0))))) == {
        (1, 1, False, True),
        (-1, 1, False, False),
        (1, -1, False, False),
        (-1, -1, False, True),
    }


def test_a_zed_with_even_flanges_turns_over() -> None:
    even = zed()
    from dataclasses import replace

    even = replace(even, flanges=(15.0, 15.0))
    ways = signs(kept(look(even)))
    # bends down and up: its two flanges change places only when it is turned over
    assert (1, -1, True, True) in ways
    assert (-1, -1, False, True) not in ways


def test_a_tube_does_not_turn_inside_out() -> None:
    tube = look(TubeShape(length=100.0, diameter=30.0, wall=1.0))
    assert not any(motion.over for motion in motions(tube))


def test_holes_that_meet_none_are_named() -> None:
    # 20 and 80 of 100 meet each other turned end for end; 30 would have to meet one at 70
    one = look(skin(RECTANGLE), points((20, 30), (80, 30), (30, 30)))
    turn = next(motion for motion in kept(one) if float(motion.matrix[0, 0]) < 0)
    assert [feature.name for feature in unmatched(one.features, one.features, turn)] == ["r.3"]


def test_half_a_millimetre_is_seen_and_less_is_not() -> None:
    for off, missing in ((0.4, 0), (0.6, 2)):
        one = look(skin(RECTANGLE), points((20, 30), (80 + off, 30)))
        turn = next(motion for motion in kept(one) if float(motion.matrix[0, 0]) < 0)
        assert len(unmatched(one.features, one.features, turn)) == missing


def test_holes_of_a_block_turn_with_it() -> None:
    block = BlockShape(length=40.0, width=20.0, height=20.0)
    one = look(block, points((20, 10), flat="top"))
    assert len(kept(one)) == 8
    # in the middle of top: every turn and mirror image of the box leaves it there
    assert all(unmatched(one.features, one.features, motion) == () for motion in motions(one))
    off = look(block, points((10, 10), flat="top"))
    turned = [motion for motion in motions(off) if unmatched(off.features, off.features, motion)]
    assert {float(motion.matrix[0, 0]) for motion in turned} == {-1.0}


def test_hands_meet_under_a_mirror_image_and_no_turn() -> None:
    one = made(angle(), points((20, 12), (200, 12), flat="leg 1"))
    this, other = look_of(one), look_of(other_hand(one))
    assert this is not None
    assert other is not None
    meets = [
        motion.proper
        for motion in motions(this)
        if same_body(this, other, motion, 0.5) and not unmatched(this.features, other.features, motion)
    ]
    assert meets == [False]
    assert flat_pattern(one) is not None
    assert np.allclose(this.size, other.size)
