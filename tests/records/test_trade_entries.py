"""Sizes and hardware."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.written import MODEL, Place, changed, loaded, places, said

HARDWARE = "pull 4.0: {kind: blind rivet, diameter: 4.0, lengths: {6: [1.0, 3.0]}}"
"""Stands in line 8, column 3, of MODEL."""


def test_sizes_and_hardware_are_read(tmp_path: Path) -> None:
    text = (
        "pull 4.0: {kind: Blind_Rivet, diameter: 4, lengths: {6: [1, 3], 1/2 in: [3, 5]}, head diameter: 8}"
    )
    model = loaded(tmp_path, changed(HARDWARE, text)).model
    entry = model.hardware["pull 4.0"]
    assert (entry.kind, entry.diameter, entry.hole, entry.head_height) == ("blind rivet", 4.0, None, None)
    assert entry.lengths == ((6.0, 1.0, 3.0), (12.7, 3.0, 5.0))
    assert entry.head_diameter == 8.0
    size = model.sizes["big"]
    assert size.fastener is not None
    assert (size.diameter, size.fastener.text, size.fastener.at.line, size.fastener.at.column) == (
        4.1,
        "pull 4.0",
        6,
        30,
    )


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("with: pull 4.0", "with: pull 5.0", ("unknown-name", 6, 30)),
        ("with: blind rivet 3.2", "with: bland rivet 3.2", ("unknown-name", 5, 32)),
        ("diameter: 3.3,", "diameter: 3,3,", ("bad-value", 5, 21)),
        ("diameter: 3.3,", "diameter:3.3,", ("bad-value", 5, 11)),
        ("diameter: 3.3, ", "", ("missing-word", 5, 3)),
        ("{6: [1.0, 3.0]}", "{6: [3.0, 1.0]}", ("bad-value", 8, 61)),
        ("{6: [1.0, 3.0]}", "{6: [1,0, 3.0]}", ("bad-value", 8, 61)),
        ("{6: [1.0, 3.0]}", "{six: [1.0, 3.0]}", ("bad-value", 8, 58)),
        ("{6: [1.0, 3.0]}", "{6: [1.0, 3.0], 6.0: [3, 5]}", ("duplicate-name", 8, 73)),
        ("{6: [1.0, 3.0]}", "{6}", ("bad-value", 8, 58)),
        ("kind: blind rivet, diameter", "kind: nail, diameter", ("unknown-word", 8, 20)),
        ("  pull 4.0: {kind", "  pull#4: {kind", ("bad-value", 8, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, old: str, new: str, place: Place) -> None:
    found = places(loaded(tmp_path, changed(old, new)))
    assert [one for one in found if one[1:] != (6, 30) or place[1:] == (6, 30)] == [place]


def test_broken_hardware_mutes_the_sizes_that_name_it(tmp_path: Path) -> None:
    read = loaded(tmp_path, changed("diameter: 4.0, lengths", "diameter: none, lengths"))
    assert places(read) == [("bad-value", 8, 43)]
    assert list(read.model.sizes) == ["small"]
    assert {"pull 4.0", "big"} <= read.model.broken


def test_did_you_mean(tmp_path: Path) -> None:
    assert (
        said(loaded(tmp_path, changed("with: pull 4.0", "with: pull 4.1"))).fix == "Did you mean `pull 4.0`?"
    )


def test_the_model_of_these_tests_is_right(tmp_path: Path) -> None:
    read = loaded(tmp_path, MODEL)
    assert (read.findings, read.model.broken) == ([], frozenset())
