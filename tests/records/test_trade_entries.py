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


def test_lengths_of_a_solid_rivet_need_no_grips(tmp_path: Path) -> None:
    text = "pull 4.0: {kind: solid rivet, diameter: 4, lengths: [8, 1/2 in], half sizes: yes}"
    entry = loaded(tmp_path, changed(HARDWARE, text)).model.hardware["pull 4.0"]
    assert (entry.lengths, entry.plain_lengths, entry.half_sizes) == ((), (8.0, 12.7), True)


@pytest.mark.parametrize(
    ("text", "place", "fix"),
    [
        # Without grips nobody knows which of them fits a blind rivet's joint.
        (
            "{kind: blind rivet, diameter: 4, lengths: [6, 8]}",
            ("bad-value", 8, 55),
            "Write `{6: [1.5, 3.5]}`.",
        ),
        ("{kind: bolt, diameter: 4, half sizes: yes}", ("bad-value", 8, 51), "Leave it out."),
        ("{diameter: 4, half sizes: no}", ("bad-value", 8, 39), "Leave it out."),
    ],
)
def test_what_only_solid_rivets_have(tmp_path: Path, text: str, place: Place, fix: str) -> None:
    read = loaded(tmp_path, changed(HARDWARE, f"pull 4.0: {text}"))
    assert [one for one in places(read) if one[0] != "unknown-name"] == [place]
    assert said(read).fix == f"{fix} If it is a solid rivet, say so: `kind: solid rivet`."


@pytest.mark.parametrize("text", ["[]", "[8, eight]", "[8, 0]"])
def test_a_list_of_lengths_holds_lengths(tmp_path: Path, text: str) -> None:
    hardware = f"pull 4.0: {{kind: solid rivet, diameter: 4, lengths: {text}}}"
    assert {kind for kind, _, _ in places(loaded(tmp_path, changed(HARDWARE, hardware)))} == {"bad-value"}


def test_flush_heads_are_read(tmp_path: Path) -> None:
    text = changed("with: blind rivet 3.2}", "with: blind rivet 3.2, countersunk: yes}")
    hardware = HARDWARE.replace("diameter: 4.0,", "diameter: 4.0, head angle: 120 degrees,")
    model = loaded(tmp_path, text.replace(HARDWARE, hardware)).model
    assert [size.countersunk for size in model.sizes.values()] == [True, False]
    assert model.hardware["pull 4.0"].head_angle == 120.0
    assert loaded(tmp_path, MODEL).model.hardware["pull 4.0"].head_angle is None


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("diameter: 3.3,", "diameter: 3.3, countersunk: deep,", ("bad-value", 5, 39)),
        ("diameter: 4.0,", "diameter: 4.0, head angle: 20,", ("bad-value", 8, 60)),
        ("diameter: 3.3,", "diameter: 3.3, counter sunk: yes,", ("unknown-word", 5, 26)),
    ],
)
def test_where_mistakes_of_flush_heads_stand(tmp_path: Path, old: str, new: str, place: Place) -> None:
    found = places(loaded(tmp_path, changed(old, new)))
    assert [one for one in found if one[1] == place[1]] == [place]
