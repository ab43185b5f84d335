"""Repeated rows: where their holes lie, and where what is wrong with them is told."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from seqviz.build import Build, build
from seqviz.parts.make import make_parts
from tests.records.test_same_holes import AT, plate
from tests.records.written import changed


def built(folder: Path, text: str) -> Build:
    (folder / "model.yaml").write_text(text, encoding="utf-8")
    return build(str(folder / "model.yaml"))


def test_twin_rows_of_the_base_have_their_names(tmp_path: Path) -> None:
    text = changed(AT, plate("same as skin") + AT)
    text += (
        "  liner: {part: liner, match: {rail left.1: skin.rail left.1, rail right.30: skin.rail right.30}}\n"
    )
    (tmp_path / "model.yaml").write_text(
        text.replace("[rail left, rail right]", "[rail left, rail right, liner]")
    )
    made = build(str(tmp_path / "model.yaml"))
    assert [finding.message for finding in made.noticed if finding.kind != "say-over-or-under"] == []
    part = made.assembly.placed["liner"].part
    holes = {hole.name: hole.centre for hole in part.holes}
    # The rail's row runs at y = 10 from x = 20 in steps of 20; its twin at 360 - 10.
    assert np.allclose(holes["rail left.2"], [40, 350, 0.25])
    # Along the aft edge of the skin: x = 10 in, 20 from the right end.
    assert np.allclose(holes["edge.1"], [10, 20, 0.25])


def test_places_are_those_on_the_part_that_is_repeated(tmp_path: Path) -> None:
    # A smaller liner, drawn where it lies on the skin: its own edge at x = 5 counts for nothing.
    text = plate("{same as: skin, rail: none}").replace(
        "[[0, 0], [620, 0], [620", "[[5, 10], [120, 10], [120"
    )
    made = built(tmp_path, changed(AT, text.replace("[0, 360]]", "[5, 360]]") + AT))
    assert made.noticed == ()
    holes = {hole.name: hole.centre for hole in make_parts(made.model)[0]["liner"].holes}
    assert np.allclose(holes["edge.1"][:2], [10, 20])


def test_mistakes_of_the_layout_are_told_once(tmp_path: Path) -> None:
    text = changed("pitch: 20, size: small}", "pitch: 21, size: small, 3: none}")
    noticed = built(tmp_path, text.replace(AT, plate("same as skin") + AT)).noticed
    assert [(finding.kind, finding.at.line) for finding in noticed] == [("bad-value", 19)]


def test_a_hole_that_misses_the_copy_is_told_there(tmp_path: Path) -> None:
    text = plate("{same as: skin, rail: none}").replace("[620, 360], [0, 360]", "[620, 200], [0, 200]")
    noticed = built(tmp_path, changed(AT, text + AT)).noticed
    assert [(finding.kind, finding.at.line, finding.at.column) for finding in noticed] == [
        ("bad-value", 24, 22),
        ("bad-value", 24, 22),
    ]
    assert noticed[0].message.startswith("Holes 7-11 of row cross 1 lie off the flat")


def test_a_flat_of_that_name_must_be_there(tmp_path: Path) -> None:
    noticed = built(tmp_path, changed(AT, plate("same as rail") + AT)).noticed
    assert [(finding.kind, finding.at.line) for finding in noticed] == [("unknown-name", 24)]
    assert noticed[0].message == "There is no flat leg 1."
