"""Half outlines: what they become, and where their mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.model import MirrorLine, SkinShape
from tests.records.written import MODEL, Place, changed, loaded, places

OUTLINE = "outline: [[0, 0], [620, 0], [620, 360], [0, 360]]"
"""Stands in line 15, column 5, of MODEL, whose mirror line is y=180."""


def outline(folder: Path, text: str) -> tuple[tuple[float, float], ...]:
    read = loaded(folder, changed(OUTLINE, text))
    assert read.findings == []
    shape = read.model.parts["skin"].shape
    assert isinstance(shape, SkinShape)
    return shape.outline


def test_the_other_half_is_mirrored_and_keeps_the_sense(tmp_path: Path) -> None:
    half = "half outline: [[0, 180], [0, 60], [80, 0], [620, 0], [620, 180]]"
    # The left half follows backwards: y -> 360 - y.
    assert outline(tmp_path, half) == (
        *((0, 180), (0, 60), (80, 0), (620, 0), (620, 180)),
        *((620, 360), (80, 360), (0, 300)),
    )


def test_a_line_of_its_own_counts(tmp_path: Path) -> None:
    half = "half outline: [[0, 0], [620, 0], [620, 200], [0, 200]]\n    mirror line: x=0"
    assert outline(tmp_path, half) == ((0, 0), (620, 0), (620, 200), (0, 200), (-620, 200), (-620, 0))
    read = loaded(tmp_path, changed(OUTLINE, half))
    assert read.model.parts["skin"].mirror_line == MirrorLine(axis="x", value=0.0)


def test_units_count_for_the_line_too(tmp_path: Path) -> None:
    half = "half outline: [[0, 0], [3, 0], [3, 1.5], [0, 1.5]]\n    mirror line: y=1.5"
    text = changed(OUTLINE, half).replace("base: skin", "base: skin\nunits: in")
    shape = loaded(tmp_path, text).model.parts.get("skin")
    assert shape is None  # the half begins at y = 0, off the line
    half = half.replace("[[0, 0], [3, 0], [3, 1.5], [0, 1.5]]", "[[0, 1.5], [0, 0], [3, 0], [3, 1.5]]")
    text = changed(OUTLINE, half).replace("base: skin", "base: skin\nunits: in")
    found = loaded(tmp_path, text).model.parts["skin"].shape
    assert isinstance(found, SkinShape)
    # 1.5 in = 38.1 mm
    assert [*found.outline[-2], *found.outline[-1]] == pytest.approx([76.2, 76.2, 0.0, 76.2])


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("half outline: [[0, 180], [0, 60], [620, 0], [620, 170]]", ("bad-value", 15, 19)),
        ("half outline: [[0, 180], [0, 60], [300, 200], [620, 180]]", ("bad-value", 15, 19)),
        (f"{OUTLINE}\n    half outline: [[0, 180], [0, 60], [620, 180]]", ("bad-value", 16, 5)),
        ("half outline: [[0, 180], [0, 60]]", ("bad-value", 15, 19)),
        ("material: 6061-T6", ("missing-word", 12, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, text: str, place: Place) -> None:
    assert places(loaded(tmp_path, changed(OUTLINE, text))) == [place]


HALF = changed(OUTLINE, "half outline: [[0, 180], [0, 0], [620, 0], [620, 180]]")


def test_without_any_line(tmp_path: Path) -> None:
    text = HALF.replace("mirror line: y=180\n", "").replace(", both sides: yes", "")
    text = text.replace("both sides: other hand", "standing leg: left").replace(
        "[rail left, rail right]", "rail"
    )
    assert places(loaded(tmp_path, text)) == [("missing-word", 14, 5)]


def test_a_line_that_cannot_be_read_is_told_once(tmp_path: Path) -> None:
    assert places(loaded(tmp_path, HALF.replace("y=180", "y=18O"))) == [("bad-value", 3, 14)]
    assert loaded(tmp_path, MODEL).findings == []
