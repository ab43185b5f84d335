from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from seqviz.drawing.flat_sheet import flat_sheet
from seqviz.drawing.svg import text_width
from tests.drawing.trial import MODEL, classes, facts_of, sheet_of, words

SHAPES = ["taper", "rail left", "rail right", "hat"]


def ring(element: ElementTree.Element) -> np.ndarray:
    return np.array([[float(v) for v in point.split(",")] for point in (element.get("points") or "").split()])


@pytest.mark.parametrize("name", SHAPES)
def test_the_sheet_is_true_to_size(name: str, tmp_path: Path) -> None:
    root, facts = sheet_of(tmp_path, name), facts_of(tmp_path, name)
    wide, high = root.get("width"), root.get("height")
    assert wide is not None
    assert high is not None
    assert root.get("viewBox") == f"0 0 {wide.removesuffix('mm')} {high.removesuffix('mm')}"
    (outline,) = classes(root, "outline")
    corners = ring(outline)
    assert np.ptp(corners, axis=0) == pytest.approx(facts.pattern.size, abs=2e-3)
    assert corners.min() > 0
    assert corners[:, 0].max() < float(wide.removesuffix("mm"))


def test_every_hole_opening_and_bend_is_drawn_once(tmp_path: Path) -> None:
    root = sheet_of(tmp_path, "taper")
    # 17 places and 2 lines of the legend; big ones have a frame, in the legend too
    assert len(classes(root, "hole")) == 17 + 2
    assert len(classes(root, "frame")) == 2 + 1
    assert len(classes(root, "opening")) == 2
    assert len(classes(root, "bend")) == 0
    hat = sheet_of(tmp_path, "hat")
    assert len(classes(hat, "bend")) == 4
    assert len(classes(hat, "bend end")) == 8


def test_a_hole_is_where_it_is_on_the_pattern(tmp_path: Path) -> None:
    root, facts = sheet_of(tmp_path, "rail left"), facts_of(tmp_path, "rail left")
    corners = ring(classes(root, "outline")[0])
    left, bottom = corners[:, 0].min(), corners[:, 1].max()
    drawn = {
        (round(float(c.get("cx") or 0) - left, 2), round(bottom - float(c.get("cy") or 0), 2), c.get("r"))
        for c in classes(root, "hole")
    }
    for hole in facts.pattern.holes:
        x, y = hole.centre.tolist()
        assert (round(x, 2), round(y, 2), f"{hole.diameter / 2:.3g}") in drawn


def test_names_of_rows_and_dimensions_are_written(tmp_path: Path) -> None:
    written = words(sheet_of(tmp_path, "rail left"))
    for said in ("foot.1", "foot.4", "340 mm", "42.76 mm", "B1 18.88 mm", "x", "50 mm"):
        assert said in written
    assert "3 holes of diameter 3.3 mm (small)" in written
    assert "1 hole of diameter 4.1 mm (big)" in written


def test_every_tenth_hole_has_its_number(tmp_path: Path) -> None:
    text = MODEL.replace("first: 15, last in: 15, count: 9", "first: 5, last in: 5, count: 23")
    written = words(sheet_of(tmp_path, "taper", text))
    assert [said for said in written if said in {"10", "20", "30"}] == ["10", "20"]


def test_words_lie_on_no_hole_and_on_no_other_words(tmp_path: Path) -> None:
    for name in SHAPES:
        root = sheet_of(tmp_path, name)
        circles = [
            (float(c.get("cx") or 0), float(c.get("cy") or 0), float(c.get("r") or 0))
            for c in classes(root, "hole")
        ]
        boxes = [box for box in map(box_of, root.iter()) if box]
        for number, (left, top, right, bottom) in enumerate(boxes):
            for x, y, reach in circles:
                near = np.hypot(x - np.clip(x, left, right), y - np.clip(y, top, bottom))
                assert near > reach, (name, number)
            for other in boxes[number + 1 :]:
                apart = other[0] >= right or other[2] <= left or other[1] >= bottom or other[3] <= top
                assert apart, (name, number)


def box_of(element: ElementTree.Element) -> tuple[float, float, float, float] | None:
    """Return where a text lies at most: left, top, right, bottom."""
    if not element.tag.endswith("text"):
        return None
    size = float(element.get("font-size") or 0)
    wide = text_width(element.text or "", size)
    x, y = float(element.get("x") or 0), float(element.get("y") or 0)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "start")]
    return left, y - 0.75 * size, left + wide, y


def test_the_same_bytes_every_time(tmp_path: Path) -> None:
    assert flat_sheet(facts_of(tmp_path, "hat")) == flat_sheet(facts_of(tmp_path, "hat"))


def test_it_is_black_and_white(tmp_path: Path) -> None:
    root = sheet_of(tmp_path, "taper")
    colours = {element.get(key) for element in root.iter() for key in ("fill", "stroke")}
    assert colours <= {None, "none", "black", "white"}
