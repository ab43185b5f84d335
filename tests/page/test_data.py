from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.page.contract import Work
from seqviz.page.data import told_of
from tests.cli.shelf import SEQUENCE, write_shelf
from tests.page.trial import shelf
from tests.test_uses import SKIN, TWO, made, steps

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def work(tmp_path_factory: pytest.TempPathFactory) -> Work:
    return told_of(shelf(tmp_path_factory.mktemp("shelf"))).work


def test_the_whole(work: Work) -> None:
    assert (work["format"], work["title"], work["unit"]) == (1, "First shelf", "mm")
    assert [Path(name).name for name in work["files"]] == ["evening.yaml", "shelf.yaml"]
    assert (work["up"], work["forward"]) == ([0, 0, 1], [1, 0, 0])
    # The panel of 0.8, and an angle 20 high on it.
    assert work["box"] == [[0, 0, 0], [300, 120, 20.8]]
    assert [caution.split(".")[0] for caution in work["cautions"]] == [
        "seqviz is a planning aid",
        "In the workshop: eye and hearing protection",
    ]
    assert work["findings"] == []
    assert work["before"] == []


def test_a_row_with_two_lengths_is_told_before_the_work_begins(tmp_path: Path) -> None:
    # 1.0 + 0.8 = 1.8 takes length 6 of the maker; a strap of 2.4 over the last holes makes it 4.2.
    text = (
        "format: 1\nbase: skin\nsizes: {small: {diameter: 3.3, with: blind rivet 3.2}}\n"
        "parts:\n  skin: {shape: sketch, thickness: 0.8}\n  rail: {shape: sketch, thickness: 1.0}\n"
        "  strap: {shape: sketch, thickness: 2.4}\n"
        "rows:\n  foot: {layers: [rail, skin], count: 6, size: small, 5-6: [strap, rail, skin]}\n"
    )
    (tmp_path / "model.yaml").write_text(text, encoding="utf-8")
    before = told_of(build(str(tmp_path / "model.yaml"))).work["before"]
    assert before == [
        "More than one length in a row: "
        "rail.foot takes of blind rivet 3.2 length 6 in 1-4 and length 8 in 5-6."
    ]


def test_parts_in_the_order_of_placing(work: Work) -> None:
    panel, stiffener = work["parts"]
    assert (panel["name"], panel["no"], panel["first"], panel["thickness"]) == ("panel", 1, 0, "0.8 mm")
    assert (stiffener["name"], stiffener["no"], stiffener["first"]) == ("stiffener", 2, 1)
    assert (panel["on"], panel["under"]) == ([], [1])
    assert (stiffener["on"], stiffener["under"]) == ([0], [])
    # The angle lies under the manufactured heads.
    assert (stiffener["layer"], panel["layer"]) == (1, 2)
    assert stiffener["pose"] == [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0.8]
    assert (panel["shape"], stiffener["shape"]) == (0, 1)
    assert panel["stacks"] == stiffener["stacks"] == list(range(14))
    # 300 x 120 x 0.8 less 14 holes of 3.3, of aluminium: 28704 mm3 x 2.70 g/cm3.
    assert panel["facts"][:2] == ["Skin, 300 x 120 x 0.8 mm.", "It weighs about 78 g."]
    assert not panel["tool"]


def test_stacks_and_their_one_section(work: Work) -> None:
    assert len(work["stacks"]) == 14
    stack = work["stacks"][4]
    assert stack["name"] == "stiffener.foot.5"
    assert stack["names"] == ["stiffener.foot.5", "panel.edge.5"]
    # The fifth of 14 holes from 20 to 280, 20 apart, on the upper face of the angle: 0.8 + 1.
    assert (stack["at"], stack["axis"], stack["diameter"]) == ([100, 10, 1.8], [0, 0, 1], 3.3)
    assert stack["lines"] == [
        "1: stiffener 1",
        "2: panel 0.8",
        "Grip 1.8 mm.",
        "Hole 3.3 mm (small): blind rivet 3.2 length 6 (grips 1.5 to 3.5).",
        "Set in step 2 with the hand puller.",
    ]
    assert stack["layers"] == [[0, 1], [1, 0]]
    assert {one["section"] for one in work["stacks"]} == {0}
    assert len(work["sections"]) == 1
    assert work["sections"][0].startswith("<svg")


def test_steps(work: Work) -> None:
    place, rivet = work["steps"]
    assert (place["no"], place["title"]) == (1, "Step 1. Place stiffener.")
    assert place["lines"] == ["Pins in 5 holes."]
    assert (place["up"], place["up_name"], place["turn"]) == ([0, 0, 1], "upper side", None)
    assert place["there"] == rivet["there"] == [0, 1]
    (move,) = place["moves"]
    assert (move["part"], move["piece"], move["leaves"]) == (1, "stiffener", False)
    # It comes down onto the panel, and is in its place at the end.
    assert move["path"][0][:2] == [0, 0]
    assert move["path"][0][2] > 0
    assert move["path"][-1] == [0, 0, 0]
    assert rivet["moves"] == []
    assert (place["at"]["line"], place["at"]["column"]) == (5, 5)
    assert [mark["stack"] for mark in place["marks"]] == [0, 4, 8, 12, 13]
    assert place["marks"][1] == {
        "stack": 4,
        "part": 1,
        "kind": "pin in",
        "at": [100, 10, 1.8],
        "out": [0, 0, 1],
        "wide": 3.3,
    }
    assert rivet["holes"] == "Holes: stiffener.foot 1-14."
    assert (place["hold"], place["bare"], place["work"]) == (False, False, None)


def test_what_stands_in_the_holes(work: Work) -> None:
    place, rivet = work["steps"]
    # Five pins, then 14 heads and 14 tails.
    assert len(work["fixings"]) == 5 + 28
    assert (place["fixed_before"], place["fixed"]) == ([], [[0, 4]])
    assert (rivet["fixed_before"], rivet["fixed"]) == ([[0, 4]], [[5, 32]])
    kinds = [(one["kind"], one["part"], one["at"][2], one["out"][2]) for one in work["fixings"]]
    assert kinds[:5] == [("pin", 1, 1.8, 1)] * 5
    assert sorted(kinds[5:]) == [("head", 1, 1.8, 1)] * 14 + [("tail", 0, 0, -1)] * 14


def test_a_model_alone_has_parts_and_holes_and_no_steps(tmp_path: Path) -> None:
    write_shelf(tmp_path)
    work = told_of(build(str(tmp_path / "shelf.yaml"))).work
    assert (work["steps"], work["fixings"]) == ([], [])
    assert [part["first"] for part in work["parts"]] == [None, None]
    assert len(work["stacks"]) == 14
    assert work["stacks"][0]["lines"][-1] == (
        "Hole 3.3 mm (small): blind rivet 3.2 length 6 (grips 1.5 to 3.5)."
    )


def test_parts_without_dimensions_are_listed(tmp_path: Path) -> None:
    model = """\
format: 1
base: panel
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts: {panel: {shape: sketch, thickness: 0.8}, stiffener: {shape: sketch, thickness: 1}}
rows: {foot: {layers: [stiffener, panel], count: 14, size: small}}
"""
    told = told_of(shelf(tmp_path, model=model))
    assert [part["shape"] for part in told.work["parts"]] == [None, None]
    assert [part["thickness"] for part in told.work["parts"]] == ["0.8 mm", "1 mm"]
    assert [step["bare"] for step in told.work["steps"]] == [True, True]
    assert {stack["at"] is None for stack in told.work["stacks"]} == {True}
    assert told.work["shapes"] == []
    assert told.work["title"] == "shelf"


def test_a_finding_knows_its_place_and_parts(tmp_path: Path) -> None:
    sequence = SEQUENCE.replace("  - place", "  - rivet: panel.edge.5\n  - place")
    work = told_of(shelf(tmp_path, sequence=sequence)).work
    finding = next(one for one in work["findings"] if one["kind"] == "layer-missing")
    assert finding["severity"] == "error"
    assert (finding["at"]["line"], finding["steps"], finding["stacks"]) == (5, [1, 2], [4])
    assert finding["spot"] is not None
    assert [round(value) for value in finding["spot"][:2]] == [100, 10]
    assert set(finding["parts"]) == {0, 1}


def test_a_tool_that_is_stopped_is_a_shape() -> None:
    work = told_of(build(str(ROOT / "sequences" / "practice_tray_mistakes_order.yaml"))).work
    finding = next(one for one in work["findings"] if one["kind"] == "tool-blocked")
    assert finding["tool"] is not None
    shape = work["shapes"][finding["tool"]]
    assert shape["faces"][1] > 0
    assert [work["parts"][k]["name"] for k in finding["blockers"]] == ["bridge"]


def test_another_model_as_one_piece_is_a_part_with_its_shape(tmp_path: Path) -> None:
    order = steps("  - place: [box 1, box 2]\n  - rivet: [skin.one, box 2.doubler.foot]\n")
    work = told_of(made(tmp_path, skin=SKIN + TWO, steps=order)).work
    assert [part["name"] for part in work["parts"]] == ["skin", "box 1", "box 2"]
    # Two boxes alike are one mesh.
    assert [part["shape"] for part in work["parts"]] == [0, 1, 1]
    # doubler 0.8 + floor 1.0 over the skin of 0.6.
    lines = next(one["lines"] for one in work["stacks"] if "skin.one.3" in one["names"])
    assert lines[0].startswith("1: box 1 1.8 (")
    assert lines[1:3] == ["2: skin 0.6", "Grip 2.4 mm."]
