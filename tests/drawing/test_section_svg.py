from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from seqviz.drawing.section import Section, SectionFastener
from seqviz.drawing.section_svg import section_svg
from tests.drawing.cuts import by_hand, layer, pull
from tests.drawing.trial import classes, words

Line = tuple[float, float, float, float]

SOLID = SectionFastener(
    kind="solid rivet",
    name="driven 3.2",
    diameter=3.2,
    length=8.0,
    made=True,
    head=(6.4, 1.4),
    tail=(4.8, 1.6),
    head_on_top=False,
)
BOLT = SectionFastener(
    kind="bolt",
    name="bolt 5",
    diameter=5.0,
    length=60.0,
    made=True,
    head=(11.5, 3.5),
    tail=(11.5, 8.5),
    washers=(1.5,),
    end=3.0,
)


def drawn(section: Section, *, standalone: bool = True) -> ElementTree.Element:
    return ElementTree.fromstring(section_svg(section, standalone=standalone))


def lines(root: ElementTree.Element, called: str) -> list[Line]:
    """Return the ends of all lines of a class, x and y of both."""
    found: list[Line] = []
    for element in classes(root, called):
        if element.get("d"):
            for start in element.get("d", "")[1:].split("M"):
                x, y, across, down = map(float, re.split("[ l]", start))
                found.append((x, y, x + across, y + down))
        else:
            x1, y1, x2, y2 = (float(element.get(name, "")) for name in ("x1", "y1", "x2", "y2"))
            found.append((x1, y1, x2, y2))
    return found


def corners(root: ElementTree.Element, called: str) -> list[tuple[float, float]]:
    (element,) = classes(root, called)
    return [
        (float(x), float(y)) for x, y in (place.split(",") for place in element.get("points", "").split())
    ]


def test_holes_shank_and_grip_are_to_scale() -> None:
    # The head of 6.4 takes 30: 30 / 6.4 = 4.6875 on the page to a mm, about the middle at (24 + 62) / 2 = 43.
    root = drawn(by_hand(fastener=pull()))
    walls = lines(root, "hole")
    # Holes of 3.3: 43 -+ 1.65 * 4.6875 = 43 -+ 7.734.
    assert {x for x, *_ in walls} == {35.27, 50.73}
    # The shank of 3.2: 43 -+ 7.5, so that 0.05 * 4.6875 = 0.234 is clear on either side.
    assert {x for x, *_ in lines(root, "shank")} == {35.5, 50.5}
    (grip,) = lines(root, "dimension")
    assert grip[3] - grip[1] == pytest.approx(1.8 * 4.6875, abs=0.002)
    assert {"grip", "1.8 mm"} <= set(words(root))
    faces = sorted({y for _, y, *_ in lines(root, "face")})
    assert [b - a for a, b in pairwise(faces)] == pytest.approx([4.69, 3.75], abs=0.011)


def test_head_and_tail_stand_on_their_ends_as_wide_and_high_as_they_are() -> None:
    root = drawn(by_hand(fastener=pull()))
    (_, top, _, bottom) = lines(root, "shank")[0]
    head = corners(root, "head")
    # 6.4 x 1.0 above, 5.12 wide and 4.0 high with the stem's head below.
    assert max(x for x, _ in head) - min(x for x, _ in head) == pytest.approx(30.0, abs=0.01)
    assert (max(y for _, y in head), min(y for _, y in head)) == pytest.approx((top, top - 4.6875), abs=0.01)
    tail = corners(root, "tail")
    assert max(x for x, _ in tail) - min(x for x, _ in tail) == pytest.approx(24.0, abs=0.01)
    assert min(y for _, y in tail) == pytest.approx(bottom, abs=0.01)
    assert max(y for _, y in corners(root, "stem head")) == pytest.approx(bottom + 18.75, abs=0.01)


def test_a_driven_rivet_with_its_head_below() -> None:
    root = drawn(by_hand(fastener=SOLID))
    (_, top, _, bottom) = lines(root, "shank")[0]
    assert min(y for _, y in corners(root, "head")) == pytest.approx(bottom, abs=0.01)
    assert max(y for _, y in corners(root, "tail")) == pytest.approx(top, abs=0.01)
    assert words(root).index("formed head") < words(root).index("manufactured head")
    assert "Hole 3.3 mm (small), rivet 3.2 mm: 0.1 mm play until" in words(root)
    assert "it is driven." in words(root)


def test_hatching_of_neighbours_goes_other_ways_and_leaves_the_hole_free() -> None:
    root = drawn(by_hand(fastener=pull()))
    first, second = classes(root, "hatching")
    assert set(re.findall(r"l[0-9.]+ (-?)", first.get("d", ""))) == {"-"}
    assert set(re.findall(r"l[0-9.]+ (-?)", second.get("d", ""))) == {""}
    for x1, _, x2, _ in lines(root, "hatching"):
        assert max(x1, x2) <= 35.28 or min(x1, x2) >= 50.72


def test_a_layer_that_is_not_drilled_is_solid_and_the_rivet_dashed() -> None:
    section = by_hand(layer(1, "rail", 1.0), layer(2, "strap", 2.0, None), fastener=pull())
    root = drawn(section)
    hatching = classes(root, "hatching")[1]
    assert any(
        min(x1, x2) < 43 < max(x1, x2)
        for x1, _, x2, _ in lines(root, "hatching")
        if hatching.get("d", "").find(f"M{x1:g} ") >= 0
    )
    assert all(element.get("stroke-dasharray") for element in classes(root, "shank"))
    assert "not drilled" in words(root)
    assert "Layer 2 is not drilled: nothing goes through yet." in words(root)


def test_a_gap_that_stays_open_is_left_and_one_drawn_shut_is_not() -> None:
    open_gap = replace(layer(1, "rail", 1.0), gap=1.2, shut=False)
    shut_gap = replace(layer(1, "rail", 1.0), gap=0.4, shut=True)
    skin = layer(2, "skin", 0.8)
    root = drawn(by_hand(open_gap, skin, fastener=pull()))
    faces = sorted({y for _, y, *_ in lines(root, "face")})
    # 1.2 * 4.6875 = 5.625 between the second and the third face; the grip leaves it out.
    assert faces[2] - faces[1] == pytest.approx(5.625, abs=0.011)
    assert len(lines(root, "dimension")) == 2
    assert "The gap under layer 1 wants a joggle, or a shim of" in " ".join(words(root))
    root = drawn(by_hand(shut_gap, skin, fastener=pull()))
    assert "gap 0.4 mm, drawn shut" in " ".join(words(root))
    assert len({y for _, y, *_ in lines(root, "face")}) == 3


def test_thick_layers_are_broken_thin_ones_thickened_and_it_is_told() -> None:
    # 30 / 11.5 = 2.609 to a mm: 0.4 would be 1.04 high and is 2; 50 would be 130 and is 26 with a break.
    section = by_hand(layer(1, "sheet", 0.4, 5.1), layer(2, "block", 50.0, 5.1), fastener=BOLT, pin=5.1)
    root = drawn(section)
    faces = sorted({y for _, y, *_ in lines(root, "face")})
    assert [b - a for a, b in pairwise(faces)] == pytest.approx([2.0, 26.0], abs=0.011)
    assert len(classes(root, "break")) == 2
    assert len(lines(root, "shank")) == 4
    assert "A layer with a break in it is thicker than drawn." in words(root)
    assert "A thin layer is drawn thicker than it is." in words(root)
    assert {"50.4 mm", "bolt 5, length 60 mm."} <= set(words(root))
    assert words(drawn(by_hand(fastener=pull())))[-1].startswith("Hole 3.3")


def test_a_bolt_with_washer_nut_and_end() -> None:
    root = drawn(by_hand(layer(1, "lug", 9.0, 5.1), layer(2, "web", 2.0, 5.1), fastener=BOLT, pin=5.1))
    bottom = lines(root, "shank")[0][3]
    scale = 30 / 11.5
    heights = {
        name: max(y for _, y in corners(root, name)) - bottom for name in ("washer", "tail", "bolt end")
    }
    assert heights == pytest.approx(
        {"washer": 1.5 * scale, "tail": 8.5 * scale, "bolt end": 11.5 * scale}, abs=0.01
    )


def test_off_centre_holes_are_drawn_where_they_are() -> None:
    off = [replace(layer(1, "rail", 1.0), aside=-0.2), replace(layer(2, "skin", 0.8), aside=0.2)]
    root = drawn(by_hand(*off, fastener=pull(), pin=2.9))
    # 43 -+ 0.2 * 4.6875 -+ 7.734.
    assert {x for x, *_ in lines(root, "hole")} == {34.33, 49.8, 36.2, 51.67}
    assert "The holes are off centre: a pin of at most 2.9 mm" in " ".join(words(root))


def test_inside_a_page_it_has_the_colour_of_the_text_and_no_names_of_holes() -> None:
    text = section_svg(by_hand(fastener=pull()), standalone=False)
    assert text == section_svg(replace(by_hand(fastener=pull()), holes=("x.y.1",)), standalone=False)
    assert "foot" not in text
    assert "black" not in text
    assert "white" not in text
    assert text.count("currentColor") == 2
    alone = section_svg(by_hand(fastener=pull()), standalone=True)
    assert "rail.foot.3" in alone
    assert "currentColor" not in alone


def test_hostile_and_endless_names_are_shortened_and_harmless() -> None:
    bad = "</svg><script>alert('x')</script>\u202e\x00" + "y" * 10_000 + " left"
    text = section_svg(by_hand(layer(1, bad, 1.0), layer(2, "skin", 0.8), fastener=pull()), standalone=False)
    root = ElementTree.fromstring(text)
    assert "<script" not in text
    assert "\u202e" not in text
    assert len(text) < 8000
    assert max(len(line) for line in words(root)) < 60
    assert any(line.endswith("left") for line in words(root))


def test_nothing_is_written_beside_the_page() -> None:
    many = [layer(k, f"a name of some length {k}", 0.5) for k in range(1, 13)]
    root = drawn(by_hand(*many, fastener=pull()))
    _, _, wide, high = map(float, root.get("viewBox", "").split())
    places = [element for element in root.iter() if element.tag.endswith("text")]
    assert all(0 < float(element.get("y", "")) < high for element in places)
    assert wide == 108.0
    # The words of layers do not lie on each other: 3.4 high, each on a line of its own.
    beside = sorted(float(element.get("y", "")) for element in places if float(element.get("x", "")) == 72.0)
    assert min(b - a for a, b in pairwise(beside)) >= 4.4


@pytest.mark.parametrize(
    ("section", "told"),
    [
        (by_hand(), "Fastener not named."),
        (by_hand(layer(1, "skin", 0.8)), "One layer alone: there is nothing to join."),
        (by_hand(fastener=replace(pull(), length=None)), "pull 3.2 (blind rivet): no length fits this grip."),
        (by_hand(fastener=replace(pull(), length=None, made=False)), "pull 3.2 (blind rivet)."),
        (
            by_hand(fastener=pull(), pin=-0.2),
            "The holes are so far off that nothing goes through all of them.",
        ),
        (
            by_hand(
                replace(layer(1, "wall", 1.0), gap=30.0, shut=False), layer(2, "wall", 1.0), fastener=pull()
            ),
            "Under layer 1 only a spacer of 30 mm keeps the walls apart.",
        ),
    ],
)
def test_what_is_said_under_it(section: Section, told: str) -> None:
    assert told in " ".join(words(drawn(section)))


def test_inches_where_the_model_is_in_inches() -> None:
    root = drawn(replace(by_hand(fastener=pull()), units="in"))
    # 1.8 / 25.4 = 0.07087
    assert "0.0709 in" in words(root)
