"""Names within a model: what is looked up, and what a wrong entry mutes."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At, Related
from tests.records.test_placing import CROSS, RAIL
from tests.records.written import MODEL, Place, changed, loaded, places, said


@pytest.mark.parametrize(
    ("old", "new", "place", "good"),
    [
        # A wrong entry is left out; what hangs on it by its holes goes with it, what only lies over it stays.
        (RAIL, RAIL.replace("part: rail", "part: ral"), ("unknown-name", 28, 16), ["cross 1"]),
        (RAIL, RAIL.replace("other hand", "mirrored"), ("unknown-word", 28, 87), ["cross 1"]),
        (RAIL, RAIL.replace("rail: {", "ra.il: {", 1), ("bad-value", 28, 3), ["cross 1"]),
        ("legs: [20, 25]", "legs: [20]", ("bad-value", 24, 11), ["cross 1"]),
        ("legs: [18, 18]", "legs: [18]", ("bad-value", 10, 53), ["rail"]),
        ("thickness: 0.8", "thickness: zero", ("bad-value", 14, 16), []),
        ("size: small, both", "size: smal, both", ("unknown-name", 17, 62), []),
        ("base: skin", "base: skn", ("unknown-name", 2, 7), []),
        ("base: skin\n", "", ("missing-word", 1, 1), []),
        ("mirror line: y=180", "mirror line: 180", ("bad-value", 3, 14), []),
    ],
)
def test_what_a_mistake_mutes(tmp_path: Path, old: str, new: str, place: Place, good: list[str]) -> None:
    read = loaded(tmp_path, changed(old, new))
    assert places(read) == [place]
    assert list(read.model.placed) == good


def test_an_unknown_base_is_none(tmp_path: Path) -> None:
    read = loaded(tmp_path, changed("base: skin", "base: skn"))
    assert read.model.base is None
    assert said(read).fix == "Did you mean `skin`?"


def test_a_name_taken_twice_tells_of_the_first(tmp_path: Path) -> None:
    read = loaded(tmp_path, changed("cross 1: {stock", "rail left: {stock"))
    finding = said(read)
    assert (finding.kind, finding.at.line) == ("duplicate-name", 29)
    first = At(file=str(tmp_path / "model.yaml"), line=28, column=3)
    assert finding.related == (Related(at=first, message="the first one"),)
    # The first one is still good.
    assert list(read.model.placed) == ["rail"]
    assert "rail left" not in read.model.broken


def test_twins_are_called_after_the_way_the_mirror_line_runs(tmp_path: Path) -> None:
    across = changed("mirror line: y=180", "mirror line: x=310")
    assert places(loaded(tmp_path, across)) == [("unknown-name", 29, 61), ("unknown-name", 29, 72)]
    fore = across.replace("[rail left, rail right]", "[rail forward, rail aft]")
    assert places(loaded(tmp_path, fore)) == []
    turned = fore.replace("format: 1\n", "format: 1\nforward: -y\n")
    # Forward is -y now, so the line at x runs along: left and right again.
    assert [kind for kind, _, _ in places(loaded(tmp_path, turned))] == ["unknown-name", "unknown-name"]


def test_holes_of_stock_are_those_of_the_row_beneath(tmp_path: Path) -> None:
    more = CROSS + "\n  pad: {part: rail, match: {foot.1: cross 1.cross 1.%d}}"
    assert places(loaded(tmp_path, changed(CROSS, more % 11))) == []
    assert places(loaded(tmp_path, changed(CROSS, more % 12))) == [("unknown-name", 30, 37)]


def test_parts_on_stock_on_stock(tmp_path: Path) -> None:
    # Of a row on a row it is not counted how many holes it has; nothing is told then.
    more = CROSS + "\n  second: {stock: light angle, along: cross 1.cross 1}"
    assert places(loaded(tmp_path, changed(CROSS, more))) == []


@pytest.mark.parametrize(
    ("later", "found"),
    [
        ("{holes: skin.cross 1, why: tray}", []),
        ("{holes: [skin.cross 1.3, skin.edge.2-4], why: tray}", []),
        ("{part: cross 1, why: tray}", []),
        ("{part: rail, why: tray}", []),
        ("{part: tray, why: x}", [("unknown-name", 31, 12)]),
        ("{holes: skin.cros 1, why: tray}", [("unknown-name", 31, 13)]),
        ("{holes: skin.cross 1.12, why: tray}", [("unknown-name", 31, 13)]),
        ("{holes: skin.cross 1}", [("missing-word", 31, 5)]),
        ("{why: tray}", [("missing-word", 31, 5)]),
        ("{holes: skin.cross 1, part: rail, why: tray}", [("bad-value", 31, 27)]),
    ],
)
def test_later(tmp_path: Path, later: str, found: list[Place]) -> None:
    read = loaded(tmp_path, MODEL + f"later:\n  - {later}\n")
    assert places(read) == found
    assert len(read.model.later) == (0 if found else 1)


def test_what_hangs_on_a_broken_part_goes_with_it(tmp_path: Path) -> None:
    more = CROSS + "\n  pad: {part: rail, match: {foot.1: rail left.foot.9}}"
    more += "\n  tab: {part: rail, match: {foot.1: pad.foot.9}}"
    text = changed(CROSS, more)
    assert list(loaded(tmp_path, text).model.placed) == ["rail", "cross 1", "pad", "tab"]
    read = loaded(tmp_path, text.replace("skin.rail.30}", "skin.rail.31}"))
    assert places(read) == [("unknown-name", 28, 60)]
    assert list(read.model.placed) == ["cross 1"]
    assert {"rail", "rail left", "pad", "tab"} <= read.model.broken
