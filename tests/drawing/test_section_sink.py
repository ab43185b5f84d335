"""A flush head in a section."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from seqviz.drawing.section import Section
from seqviz.drawing.section_sink import Cone, cut_by
from tests.drawing.cuts import MODEL, STEPS, by_hand, cut, layer, made, pull
from tests.drawing.test_section_svg import SOLID, drawn, lines
from tests.drawing.trial import words

FLUSH = replace(pull(), head=(6.4, 0.0), sunk=0.8)


def flush(thick: float = 1.0, **changes: object) -> Section:
    return by_hand(
        layer(1, "rail", thick),
        layer(2, "skin", 0.8),
        fastener=replace(FLUSH, **changes),  # type: ignore[arg-type]
    )


def test_the_head_of_a_model_lies_flush(tmp_path: Path) -> None:
    sunk = MODEL.replace("with: pull 3.2}", "with: pull 3.2, countersunk: yes}").replace(
        "head diameter: 6.5, head height: 1.1", "head diameter: 6.0"
    )
    fastener = cut(made(tmp_path, sunk), "strip.foot.1").fastener
    assert fastener is not None
    # (6.0 - 3.2) / 2 / tan 50 = 1.4 / 1.191754 = 1.1747 mm deep, nothing above the sheet.
    assert (*fastener.head, fastener.sunk) == pytest.approx((6.0, 0.0, 1.175), abs=0.0006)
    other = cut(made(tmp_path, sunk), "strip.foot.6").fastener
    assert other is not None
    # 1.8 x 4.0 = 7.2 wide, 1.6 / tan 50 = 1.343 deep: the skin's hole says it.
    assert (*other.head, other.sunk) == pytest.approx((7.2, 0.0, 1.343), abs=0.0006)
    assert cut(made(tmp_path, MODEL), "strip.foot.1").fastener == replace(fastener, head=(6.5, 1.1), sunk=0.0)


def test_the_side_of_the_head_follows_the_step(tmp_path: Path) -> None:
    sunk = MODEL.replace("with: pull 3.2}", "with: pull 3.2, countersunk: yes}")
    for hole, on_top in (("strip.foot.1", True), ("strip.foot.3", False)):
        fastener = cut(made(tmp_path, sunk, STEPS), hole).fastener
        # The maker's height is how deep it sits.
        assert fastener is not None
        assert (fastener.head_on_top, fastener.head, fastener.sunk) == (on_top, (6.5, 0.0), 1.1)


def test_a_head_is_drawn_down_into_its_layer() -> None:
    root = drawn(flush())
    # 30 / 6.4 = 4.6875 on the page to a mm; the face at the top of layer 1 and 30 wide about 43.
    face, *sides = lines(root, "head")
    top = min(y for _, y, *_ in lines(root, "face"))
    assert face == pytest.approx((28.0, top, 58.0, top), abs=0.01)
    # Down by 0.8 x 4.6875 = 3.75 to the shank: 43 -+ 1.6 x 4.6875 = 35.5 and 50.5.
    ends = {(round(x, 2), round(y, 2)) for *_, x, y in sides}
    assert ends == {(50.5, round(top + 3.75, 2)), (35.5, round(top + 3.75, 2))}
    assert [y for _, y, *_ in lines(root, "shank")] == pytest.approx([top + 3.75] * 2, abs=0.01)


def test_hatching_faces_and_walls_leave_the_cone_free() -> None:
    root = drawn(flush())
    top = min(y for _, y, *_ in lines(root, "face"))

    def side(y: float) -> float:
        """Return how far the head reaches aside: 15 at the face, 7.5 at 3.75 below."""
        return max(15.0 - 2.0 * (y - top), 0.0)

    drawn_lines = [*lines(root, "hatching"), *lines(root, "hole"), *lines(root, "face")]
    assert len(drawn_lines) > 20
    for x1, y1, x2, y2 in drawn_lines:
        assert all(abs(x - 43.0) >= side(y) - 0.03 for x, y in ((x1, y1), (x2, y2)))
    # Walls of layer 1 begin where the cone is as wide as the hole: (15 - 7.734) / 2 = 3.633 below the top.
    walls = sorted({round(y, 2) for _, y, *_ in lines(root, "hole")})
    assert walls[0] == pytest.approx(top + 3.63, abs=0.02)


def test_a_head_deeper_than_its_layer_goes_on_into_the_next() -> None:
    section = flush(0.5, sunk=0.8)
    root = drawn(section)
    levels = sorted({round(y, 2) for line in lines(root, "head") for y in (line[1], line[3])})
    # 0.5 x 4.6875 = 2.34 in layer 1, 0.3 x 4.6875 = 1.41 in layer 2.
    assert [b - a for a, b in pairwise(levels)] == pytest.approx([2.34, 1.41], abs=0.011)
    told = " ".join(words(root))
    assert "flush in layer 1: 6.4 mm wide" in told
    assert "deeper than the layer is thick." in told
    assert "deeper than" not in " ".join(words(drawn(flush())))


def test_a_flush_head_below() -> None:
    fastener = replace(SOLID, head=(6.4, 0.0), sunk=0.6)
    root = drawn(by_hand(layer(1, "rail", 1.0), layer(2, "skin", 0.8), fastener=fastener))
    bottom = max(y for _, y, *_ in lines(root, "face"))
    face, *sides = lines(root, "head")
    assert face[1] == face[3] == pytest.approx(bottom, abs=0.01)
    assert {round(y, 2) for *_, y in sides} == {round(bottom - 0.6 * 4.6875, 2)}
    assert "layer 2" in " ".join(words(root))
    assert any("flush" in each for each in words(root))


def test_a_break_leaves_the_cone_above_it() -> None:
    section = by_hand(layer(1, "block", 40.0), layer(2, "skin", 0.8), fastener=replace(FLUSH, sunk=1.0))
    root = drawn(section)
    levels = sorted({round(y, 2) for line in lines(root, "head") for y in (line[1], line[3])})
    assert levels[1] - levels[0] == pytest.approx(4.6875, abs=0.011)


def test_lines_are_cut_at_the_cone() -> None:
    cone = Cone(x=0.0, near=0.0, far=4.0, wide=4.0, narrow=2.0)
    # At level 2 the cone reaches to 3, at level 4 to 2.
    assert cut_by(cone, [((1.0, 2.0), (9.0, 2.0))]) == [((3.0, 2.0), (9.0, 2.0))]
    assert cut_by(cone, [((-9.0, 2.0), (-1.0, 2.0))]) == [((-9.0, 2.0), (-3.0, 2.0))]
    assert cut_by(cone, [((3.0, 0.0), (3.0, 4.0))]) == [((3.0, 2.0), (3.0, 4.0))]
    assert cut_by(cone, [((0.5, 1.0), (1.0, 1.0))]) == []
    assert cut_by(None, [((0.5, 1.0), (1.0, 1.0))]) == [((0.5, 1.0), (1.0, 1.0))]
