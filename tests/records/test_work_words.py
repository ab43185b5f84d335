"""Kinks, joggles, cut ends, end tabs and notches as written."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.model import AngleShape
from seqviz.records.work_types import Corner, EndCut, Work
from tests.records.written import Place, model_of, places

MODEL = """\
format: 1
base: rail
parts:
  rail:
    shape: angle
    thickness: 1
    length: 300
    legs: [20, 20]
"""

WORK = """\
    kinks: [{at: 100, angle: 3, towards: inside}, {at: 8 in, angle: 2 deg, flat: leg 2, towards: outside}]
    joggles:
      - {at: end, length: 25, depth: 0.8, run: 6, flat: leg 1, towards: inside}
      - {from: 40, to: 60, depth: 1, towards: outside}
    cut_ends: {start: {leg 1: 45, Leg-2: [15, 10]}, end: -30}
    end tabs: {start: {flat: leg 1, length: 15, width: 10, in: 6}, end: [{flat: leg 2, length: 5}]}
    notches:
      - {flat: leg 2, from: 100, to: 130, depth: 12}
      - {flats: [leg 1, leg 2], at: 200, width: 20, depth: [8, 10]}
      - {flat: leg 1, at: 250, width: 10}
"""


def work_of(folder: Path, text: str) -> Work:
    read = model_of(folder, MODEL + text)
    assert read.findings == []
    shape = read.model.parts["rail"].shape
    assert isinstance(shape, AngleShape)
    return shape.work


def test_all_the_words_are_read(tmp_path: Path) -> None:
    work = work_of(tmp_path, WORK)
    first, second = work.kinks
    assert (first.x, first.angle, first.flat, first.towards, first.at.line) == (100, 3, None, "inside", 9)
    assert (second.x, second.flat, second.towards) == (pytest.approx(203.2), "leg 2", "outside")
    end, middle = work.joggles
    assert (end.end, end.length, end.depth, end.run, end.start) == ("end", 25, 0.8, 6, None)
    # A run left out: six times the depth.
    assert (middle.end, middle.start, middle.stop, middle.run) == (None, 40, 60, 6)
    cuts = [(cut.end, cut.flat, cut.cut) for cut in work.cuts]
    assert cuts == [
        ("start", "leg 1", 45),
        ("start", "leg 2", Corner(along=15, across=10)),
        ("end", None, -30),
    ]
    tabs = [(tab.end, tab.flat, tab.length, tab.width, tab.across) for tab in work.tabs]
    assert tabs == [("start", "leg 1", 15, 10, 6), ("end", "leg 2", 5, None, None)]
    notches = [(notch.flats, notch.start, notch.stop, notch.depth) for notch in work.notches]
    assert notches == [
        (("leg 2",), 100, 130, (12,)),
        (("leg 1", "leg 2"), 190, 210, (8, 10)),
        (("leg 1",), 245, 255, ()),
    ]


def test_without_them_a_part_is_unworked(tmp_path: Path) -> None:
    assert work_of(tmp_path, "") == Work()


def test_a_cut_knows_its_place(tmp_path: Path) -> None:
    (cut,) = work_of(tmp_path, "    cut ends: {end: {leg 2: 20}}\n").cuts
    assert isinstance(cut, EndCut)
    assert (cut.at.line, cut.at.column) == (9, 22)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("kinks: [{at: 100, angle: 3}]", ("missing-word", 9, 13)),
        ("kinks: [{at: 100, angle: 70, towards: inside}]", ("bad-value", 9, 30)),
        ("kinks: {at: 100, angle: 7, towards: inside}", ("bad-value", 9, 12)),
        ("kinks: [{at: 100, angle: 3, towards: leg 2}]", ("unknown-word", 9, 42)),
        ("joggles: [{at: end, depth: 1, towards: inside}]", ("missing-word", 9, 15)),
        ("joggles: [{at: end, length: 9, from: 3, depth: 1, towards: inside}]", ("bad-value", 9, 36)),
        ("joggles: [{depth: 1, towards: inside}]", ("missing-word", 9, 15)),
        ("cut ends: {end: {leg 3: 30}}", ("unknown-word", 9, 22)),
        ("cut ends: {end: 85}", ("bad-value", 9, 21)),
        ("cut ends: {end: {leg 1: [3]}}", ("bad-value", 9, 29)),
        ("cut ends: {end: {leg 1: 3, leg 1: 4}}", ("duplicate-name", 9, 32)),
        ("end tabs: {end: {length: 3}}", ("missing-word", 9, 21)),
        ("notches: [{flat: leg 1, from: 3}]", ("missing-word", 9, 15)),
        ("notches: [{flat: leg 1, from: 3, width: 4}]", ("bad-value", 9, 38)),
        ("notches: [{from: 3, to: 4}]", ("missing-word", 9, 15)),
        ("notches: [{flats: [leg 1, leg 2], from: 3, to: 4}]", ("missing-word", 9, 15)),
    ],
)
def test_each_mistake_has_its_place(tmp_path: Path, line: str, expected: Place) -> None:
    assert places(model_of(tmp_path, f"{MODEL}    {line}\n")) == [expected]
