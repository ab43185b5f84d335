from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from seqviz.drawing.section import section_of
from tests import test_uses as uses
from tests.drawing.cuts import MODEL, STEPS, by_hand, cut, made, pull


def test_layers_and_the_fastener_of_a_model(tmp_path: Path) -> None:
    section = cut(made(tmp_path), "strip.foot.1")
    assert section.holes == ("strip.foot.1", "skin.edge.1")
    assert [(one.number, one.name, one.thickness, one.hole) for one in section.layers] == [
        (1, "strip", 1.0, 3.3),
        (2, "skin", 0.8, 3.3),
    ]
    assert (section.grip, section.diameter, section.size, section.pin) == (1.8, 3.3, "small", 3.3)
    assert (section.top, section.bottom, section.bench) == ("upper side", "lower side", None)
    fastener = section.fastener
    assert fastener is not None
    # The maker's head; a bulb of 1.6 x 3.2, standing out by 6 - 1.8.
    assert (fastener.head, fastener.tail) == ((6.5, 1.1), (5.12, 4.2))
    assert (fastener.kind, fastener.diameter, fastener.length) == ("blind rivet", 3.2, 6)
    assert fastener.head_on_top
    assert section.goes_in


def test_a_bolt_has_nut_washer_and_what_stands_out_of_the_nut(tmp_path: Path) -> None:
    fastener = cut(made(tmp_path), "lug.hole.1").fastener
    assert fastener is not None
    assert fastener.kind == "bolt"
    # Common practice: nut with washer 1.7 x 5, of it the washer 0.3 x 5; the bolt is 24 - 10.8 - 8.5 longer.
    assert (fastener.tail[1], fastener.washers) == (8.5, (1.5,))
    assert fastener.end == pytest.approx(4.7)


def test_holes_of_other_sizes(tmp_path: Path) -> None:
    section = cut(made(tmp_path), "strip.foot.6")
    assert [one.hole for one in section.layers] == [4.1, 3.3]
    assert section.goes_in is False  # a rivet of 4.0 in a hole of 3.3
    assert section.fastener is not None
    assert (section.fastener.name, section.pin) == ("blind rivet 4.0", 3.3)


def test_holes_that_are_off_centre_lie_about_the_middle(tmp_path: Path) -> None:
    section = cut(made(tmp_path), "tab.hole.3")
    # 0.4 apart: 0.2 to either side, whichever comes first; a pin of 3.3 - 0.4 goes through, 3.2 does not.
    assert sorted(one.aside for one in section.layers) == [-0.2, 0.2]
    assert section.pin == pytest.approx(2.9)
    assert not section.goes_in
    assert [one.aside for one in cut(made(tmp_path), "tab.hole.1").layers] == [0.0, 0.0]


def test_a_layer_that_is_not_drilled_and_a_lone_hole(tmp_path: Path) -> None:
    build = made(tmp_path)
    section = cut(build, "strip.foot.2")
    assert [(one.name, one.hole) for one in section.layers] == [("strip", 3.3), ("skin", 3.3), ("pad", None)]
    assert not section.goes_in
    lone = cut(build, "skin.lone.1")
    assert (lone.joins, lone.fastener, len(lone.layers)) == (False, None, 1)


def test_a_layer_that_a_step_drills_is_drilled(tmp_path: Path) -> None:
    steps = (
        "format: 1\nmodel: cuts.yaml\nup: upper\nsteps:\n  - place: [strip, pad]\n  - drill: strip.foot.2\n"
    )
    section = cut(made(tmp_path, steps=steps), "strip.foot.2")
    assert [one.hole for one in section.layers] == [3.3, 3.3, 3.3]


@pytest.mark.parametrize(
    ("hole", "bench", "on_top"),
    [("strip.foot.1", "top", True), ("strip.foot.3", "top", False), ("strip.foot.4", "bottom", False)],
)
def test_what_faces_up_when_it_is_filled(tmp_path: Path, hole: str, bench: str, on_top: bool) -> None:
    section = cut(made(tmp_path, steps=STEPS), hole)
    assert section.bench == bench
    assert section.fastener is not None
    assert section.fastener.head_on_top is on_top


def test_a_gap_that_stays_open(tmp_path: Path) -> None:
    # The strip lies over the tab, which is as thick as the gap: 1.2, more than 1/20 of the way.
    model = MODEL.replace(
        "tab: {part: tab, match: {hole.1: skin.tab.1, hole.2: skin.tab.2}}",
        "tab: {part: tab, at: [130, 0, 0.8], x along: forward, y along: left}",
    ).replace(
        "strip: {part: strip, match: {foot.1: skin.edge.1, foot.5: skin.edge.5}}",
        "strip: {part: strip, match: {foot.1: skin.edge.1, foot.5: skin.edge.5}, over: tab}",
    )
    section = cut(made(tmp_path, model), "strip.foot.5")
    assert [(one.name, one.gap, one.shut) for one in section.layers] == [
        ("strip", 1.2, False),
        ("skin", 0.0, None),
    ]
    assert section.grip == 1.8


def test_the_layers_inside_another_model_whichever_way_up(tmp_path: Path) -> None:
    upright = uses.made(tmp_path, skin=uses.SKIN + uses.TWO)
    assert cut(upright, "skin.one.1").layers[0].inside == (("doubler", 0.8), ("floor", 1.0))
    under = uses.TWO.replace("skin.one.5}}", "skin.one.5}, side: lower}")
    below = cut(uses.made(tmp_path, skin=uses.SKIN + under), "skin.one.1")
    # Under the skin the floor is the nearer one.
    assert [one.name for one in below.layers] == ["skin", "box 1"]
    assert below.layers[1].inside == (("floor", 1.0), ("doubler", 0.8))


def test_rows_without_places_have_layers_and_no_sides(tmp_path: Path) -> None:
    model = """\
format: 1
name: First evening
base: skin
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
rows:
  foot: {layers: [rail, skin], count: 3, size: small}
"""
    section = cut(made(tmp_path, model), "rail.foot.2")
    assert [(one.name, one.thickness, one.hole, one.aside) for one in section.layers] == [
        ("rail", 1.6, 3.3, 0.0),
        ("skin", 0.8, 3.3, 0.0),
    ]
    assert (section.top, section.bottom) == ("", "")


def test_holes_of_a_row_are_one_section(tmp_path: Path) -> None:
    build = made(tmp_path)
    sections = {section_of(build, index) for index in range(len(build.assembly.stacks))}
    # edge 1 and 3 to 5 are alike, 2 with the pad, 6 of the other size; tab 1 and 2, 3 off; lug; lone.
    assert len(build.assembly.stacks) == 12
    assert len(sections) == 7


def test_sections_differ_by_all_but_the_names_of_their_holes() -> None:
    assert replace(by_hand(), holes=("other.foot.1",)) == by_hand()
    assert replace(by_hand(), bench="top") != by_hand()
    assert by_hand(fastener=pull()) != by_hand(fastener=pull(top=False))
