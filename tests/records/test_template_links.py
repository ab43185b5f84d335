"""Templates and pilots in a model: read, handed on to parts and holes, and what may not hang on them."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.parts.make import make_parts
from tests.records.test_hole_actions import GUIDE, PLACED_GUIDE, RAIL_PART, WITH_GUIDE
from tests.records.written import MODEL, Place, changed, model_of, places, said, sequence_of

ROW = "cross 1: {from: [100, 55], to: [100, 305], pitch: 25, size: small}"


def test_a_template_is_one(tmp_path: Path) -> None:
    read = model_of(tmp_path, WITH_GUIDE)
    assert read.findings == []
    parts, findings = make_parts(read.model)
    assert findings == []
    assert {name for name, part in parts.items() if part.tool} == {"guide"}
    assert {name for name, part in read.model.parts.items() if part.tool} == {"guide"}
    assert not model_of(tmp_path, WITH_GUIDE.replace("tool: yes", "tool: no")).model.parts["guide"].tool


@pytest.mark.parametrize(
    ("more", "place"),
    [
        ("  tab: {part: rail, match: {foot.1: guide.lead.1}}\n", ("bad-value", 38, 37)),
        ("  tab: {stock: light angle, along: guide.lead}\n", ("bad-value", 38, 36)),
        ("  tab: {stock: light angle, along: skin.edge, over: [skin, guide]}\n", ("bad-value", 38, 60)),
        ("  tab: {stock: light angle, along: skin.edge, under: guide}\n", ("bad-value", 38, 54)),
    ],
)
def test_nothing_lies_on_a_template(tmp_path: Path, more: str, place: Place) -> None:
    read = model_of(tmp_path, WITH_GUIDE + more)
    assert places(read) == [place]
    assert said(read).message == "`guide` is a template: no part lies on it."
    assert "tab" not in read.model.placed


def test_the_base_is_no_template(tmp_path: Path) -> None:
    read = model_of(tmp_path, changed("shape: skin\n", "shape: skin\n    tool: yes\n"))
    assert places(read) == [("bad-value", 2, 7)]
    assert read.model.base is None


def test_a_wrong_tool(tmp_path: Path) -> None:
    text = changed(RAIL_PART, GUIDE.replace("tool: yes", "tool: drill") + RAIL_PART) + PLACED_GUIDE
    assert places(model_of(tmp_path, text)) == [("bad-value", 22, 11)]


def test_pilots_reach_the_holes(tmp_path: Path) -> None:
    text = ROW.replace("size: small", "size: small, pilot: 2.4, 3: big")
    read = model_of(tmp_path, changed(ROW, text + "\n      loose: {at: [50, 50], size: big, punched: no}"))
    assert read.findings == []
    cross, loose = read.model.parts["skin"].rows[1:3]
    assert (cross.pilot, cross.punched, loose.pilot, loose.punched) == (2.4, True, None, False)
    parts, _ = make_parts(read.model)
    holes = {hole.name: hole for hole in parts["skin"].holes}
    assert (holes["cross 1.3"].diameter, holes["cross 1.3"].pilot, holes["cross 1.3"].punched) == (
        4.1,
        2.4,
        True,
    )
    assert (holes["loose.1"].pilot, holes["loose.1"].punched) == (None, False)
    assert (holes["edge.1"].pilot, holes["edge.1"].punched) == (None, True)
    # Twins have it too.
    text = changed("count: 30, size: small, both", "count: 30, size: small, pilot: 2, both")
    parts, _ = make_parts(model_of(tmp_path, text).model)
    assert {hole.pilot for hole in parts["skin"].holes if hole.row == "rail right"} == {2.0}


def test_a_repeated_row_tells_of_its_pilot_once(tmp_path: Path) -> None:
    same = (
        "  copy:\n    shape: skin\n    thickness: 1\n    outline: [[0, 0], [620, 0], [620, 360], [0, 360]]\n"
    )
    same += "    holes: {same as: skin, rail: none%s}\n"
    wrong = changed(ROW, ROW.replace("size: small", "size: small, pilot: 3.4"))
    text = wrong.replace("  rail:\n    shape", same % "" + "  rail:\n    shape", 1)
    assert places(model_of(tmp_path, text)) == [("bad-value", 18, 81)]
    # Only the copy has a hole as small as the pilot; it is told at the pilot, where the row is written.
    right = changed(ROW, ROW.replace("size: small", "size: big, pilot: 3.4"))
    text = right.replace("  rail:\n    shape", same % ", cross 1: {2: small}" + "  rail:\n    shape", 1)
    assert places(model_of(tmp_path, text)) == [("bad-value", 18, 79)]
    assert MODEL.count(ROW) == 1


DRILL = "        - drill: skin.cross 1.1-4\n          through: guide.lead\n"
PLACE_GUIDE = "        - place: guide\n"


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        (PLACE_GUIDE + DRILL, None),
        (DRILL + PLACE_GUIDE, ("bad-value", 5, 12)),
        (PLACE_GUIDE + "        - take off: guide\n" + DRILL, ("bad-value", 7, 12)),
        # A step that could not be read may have placed it.
        ("        - plaice: guide\n" + DRILL, ("unknown-word", 4, 3)),
    ],
)
def test_a_template_that_leads_the_drill_is_there(tmp_path: Path, steps: str, place: Place | None) -> None:
    read = sequence_of(tmp_path, steps, WITH_GUIDE)
    assert places(read) == ([] if place is None else [place])
    if place and place[0] == "bad-value":
        assert said(read).message == "`guide` is not there to lead the drill."
