"""``rows``: what lies over what without dimensions, and the names that hang on it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.written import Place, loaded, places, said

SKETCH = """\
format: 1
base: skin
sizes: {small: {diameter: 3.3}, big: {diameter: 4.1}}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
  strap: {shape: sketch, thickness: 2}
rows:
  foot: {layers: [rail, skin], count: 30, size: small, 1-3: big, 5: none, 28-30: [strap, rail, skin]}
"""
"""A model without a mistake; 9 lines."""


def changed(old: str, new: str) -> str:
    assert old in SKETCH
    return SKETCH.replace(old, new, 1)


def sequence(steps: str) -> str:
    return f"format: 1\nmodel: model.yaml\nsteps:\n{steps}"


def test_a_row_is_read(tmp_path: Path) -> None:
    read = loaded(tmp_path, SKETCH)
    assert read.findings == []
    row = read.model.rows["foot"]
    assert (row.count, row.size and row.size.text, row.at.line, row.at.column) == (30, "small", 9, 3)
    assert [(other.first, other.last, other.size) for other in row.exceptions] == [
        (1, 3, "big"),
        (5, 5, None),
    ]
    assert row.layers_at(27) == ("rail", "skin")
    assert row.layers_at(28) == ("strap", "rail", "skin")


def test_parts_that_a_row_names_are_placed_without_an_entry(tmp_path: Path) -> None:
    placed = loaded(tmp_path, SKETCH).model.placed
    # The base stands already; the other two come as entries of their own, at the part.
    assert [(name, entry.at.line, entry.has_way) for name, entry in placed.items()] == [
        ("rail", 6, False),
        ("strap", 7, False),
    ]


def test_an_entry_may_say_more_of_them(tmp_path: Path) -> None:
    read = loaded(tmp_path, SKETCH + "placed:\n  rail: {part: rail, over: strap}\n")
    assert read.findings == []
    assert [name.text for name in read.model.placed["rail"].over] == ["strap"]


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("layers: [rail, skin]", "layers: [rail]", ("bad-value", 9, 18)),
        ("layers: [rail, skin]", "layers: rail", ("bad-value", 9, 18)),
        ("layers: [rail, skin]", "layers: [rail, rail]", ("bad-value", 9, 25)),
        ("layers: [rail, skin]", "layers: [rial, skin]", ("unknown-name", 9, 19)),
        ("layers: [rail, skin], ", "", ("missing-word", 9, 3)),
        ("count: 30, ", "", ("missing-word", 9, 3)),
        ("size: small", "size: smal", ("unknown-name", 9, 49)),
        ("size: small, ", "", ("missing-word", 9, 3)),
        ("5: none", "5: bg", ("unknown-name", 9, 69)),
        ("5: none", "31: none", ("bad-value", 9, 66)),
        ("5: none", "skip: [31]", ("bad-value", 9, 72)),
        ("28-30:", "30-28:", ("bad-value", 9, 75)),
        ("[strap, rail, skin]", "[strop, rail, skin]", ("unknown-name", 9, 83)),
        ("foot:", "5:", ("bad-value", 9, 3)),
        ("thickness: 1.6", "legs: [1, 2], thickness: 1.6", ("unknown-word", 6, 25)),
        ("thickness: 1.6", "holes: {}, thickness: 1.6", ("unknown-word", 6, 25)),
    ],
)
def test_one_mistake_is_one_finding(tmp_path: Path, old: str, new: str, place: Place) -> None:
    assert places(loaded(tmp_path, changed(old, new))) == [place]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("layers: [rail, skin]", "layers: [rial, skin]"),
        ("size: small,", "size: smal,"),
        ("count: 30", "count: x"),
        ("rows:\n  foot: {", "rows:\n  fo.ot: {"),
        ("thickness: 1.6", "thickness: thick"),
        ("thickness: 0.8", "thickness: thin"),
    ],
)
def test_a_wrong_row_or_part_mutes_what_hangs_on_it(tmp_path: Path, old: str, new: str) -> None:
    steps = "  - place: rail\n  - rivet: rail.foot.7\n  - place: strap\n  - rivet: strap.foot.28\n"
    assert len(loaded(tmp_path, changed(old, new), sequence(steps)).findings) == 1


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        ("  - rivet: rail.foot.31\n", ("unknown-name", 4, 12)),
        ("  - rivet: rail.foot.5\n", ("unknown-name", 4, 12)),
        ("  - rivet: strap.foot.27\n", ("unknown-name", 4, 12)),
        ("  - rivet: strap.foot.28\n", None),
        ("  - rivet: rail.feet\n", ("unknown-name", 4, 12)),
        ("  - place: clip\n", ("unknown-name", 4, 12)),
    ],
)
def test_steps_know_the_holes_of_rows(tmp_path: Path, steps: str, place: Place | None) -> None:
    assert places(loaded(tmp_path, SKETCH, sequence(steps))) == ([place] if place else [])


def test_one_of_twins_is_meant_in_a_row(tmp_path: Path) -> None:
    text = SKETCH + "placed:\n  rail: {part: rail, both sides: same part}\n"
    messages = {finding.message for finding in loaded(tmp_path, text).findings}
    assert messages == {"One of two is meant here: rail left or rail right."}


def test_an_entry_that_nothing_puts_anywhere(tmp_path: Path) -> None:
    finding = said(loaded(tmp_path, SKETCH + "placed:\n  spare: {part: rail}\n"))
    assert (finding.kind, finding.at.line, finding.message) == (
        "missing-word",
        11,
        "`match` or `at` is missing.",
    )
    assert finding.fix == "Add `match` or `at`, or name it among the layers of a row."


def test_a_sketch_hangs_on_no_holes(tmp_path: Path) -> None:
    finding = said(loaded(tmp_path, SKETCH + "placed:\n  rail: {part: rail, match: {foot.1: skin.foot.1}}\n"))
    assert (finding.kind, finding.at.line, finding.at.column) == ("bad-value", 11, 22)
    assert "`rail` is a sketch" in finding.message


def test_nothing_hangs_on_a_hole_without_a_place(tmp_path: Path) -> None:
    plate = """\
  plate:
    shape: plate
    thickness: 1
    outline: [[0, 0], [50, 0], [50, 50]]
    holes: {eye: {at: [[40, 10]], size: small}}
"""
    text = (
        changed("rows:", plate + "rows:") + "placed:\n  plate: {part: plate, match: {eye.1: rail.foot.1}}\n"
    )
    finding = said(loaded(tmp_path, text))
    assert (finding.kind, finding.at.line, finding.message) == (
        "bad-value",
        16,
        "`rail.foot` has no place yet.",
    )


def test_heads_of_a_row_may_lie_flush(tmp_path: Path) -> None:
    text = changed("count: 30,", "count: 30, countersunk: yes,")
    assert loaded(tmp_path, text).model.rows["foot"].countersunk is True
    assert loaded(tmp_path, SKETCH).model.rows["foot"].countersunk is None
