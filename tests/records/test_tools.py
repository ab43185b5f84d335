"""The builder's tools."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.load import Loaded
from seqviz.records.steps import BodyPiece, Reach, Tool
from tests.records.written import MODEL, Place, loaded, places

HEAD = "format: 1\nmodel: model.yaml\nsteps: []\ntools:\n"


def read(folder: Path, tools: str) -> Loaded:
    return loaded(folder, MODEL, HEAD + tools)


def test_a_tool_is_read(tmp_path: Path) -> None:
    body = "[{cylinder: 10, from: 0, to: 20}, {box: [1 in, 60], from: 20, to: 250}]"
    reach = "{diameter: 80, length: 500, along: across}"
    text = f"  long: {{for: Solid-Rivet, body: {body}, turns: 8, tilt: 5 deg, reach: {reach}}}\n"
    result = read(tmp_path, text + "  short: {for: blind rivet, body: [{cylinder: 9, from: 0, to: 9}]}\n")
    assert result.findings == []
    assert result.sequence is not None
    assert result.sequence.tools is not None
    long, short = result.sequence.tools
    assert long == Tool(
        name="long",
        kind="solid rivet",
        body=(
            BodyPiece(start=0.0, end=20.0, diameter=10.0),
            BodyPiece(start=20.0, end=250.0, box=(25.4, 60.0)),
        ),
        turns=8,
        tilt=5.0,
        reach=Reach(diameter=80.0, length=500.0, along="across"),
        at=long.at,
    )
    assert (long.at.line, long.at.column) == (5, 3)
    assert (short.turns, short.tilt, short.reach) == (
        1,
        0.0,
        Reach(diameter=100.0, length=600.0, along="axis"),
    )


def test_wrenches_and_bars(tmp_path: Path) -> None:
    text = "  wrench: {for: bolt, body: [{cylinder: 9, from: 0, to: 9}], end: Tail, swing: 30 deg}\n"
    text += "  bar: {for: solid rivet, body: [{cylinder: 9, from: 0, to: 9}], end: head, note: typical}\n"
    result = read(tmp_path, text)
    assert result.findings == []
    assert result.sequence is not None
    assert result.sequence.tools is not None
    wrench, bar = result.sequence.tools
    assert (wrench.kind, wrench.end, wrench.swing, wrench.note) == ("bolt", "tail", 30.0, None)
    assert (bar.kind, bar.end, bar.swing, bar.note) == ("solid rivet", "head", 0.0, "typical")


@pytest.mark.parametrize(
    ("tool", "place"),
    [
        ("{for: bolt, body: [{cylinder: 9, from: 0, to: 9}], end: both}", ("unknown-word", 5, 62)),
        ("{for: bolt, body: [{cylinder: 9, from: 0, to: 9}], swing: 400}", ("bad-value", 5, 64)),
        ("{for: solid rivet, body: [{cylinder: 9, from: 0, to: 9}], swing: 40}", ("bad-value", 5, 64)),
        ("{for: blind rivet, body: [{cylinder: 9, from: 0, to: 9}], end: head}", ("bad-value", 5, 64)),
        ("{body: [{cylinder: 9, from: 0, to: 9}]}", ("missing-word", 5, 3)),
        ("{for: blind rivet}", ("missing-word", 5, 3)),
        ("{for: bold, body: [{cylinder: 9, from: 0, to: 9}]}", ("unknown-word", 5, 12)),
        ("{for: blind rivet, body: []}", ("bad-value", 5, 31)),
        ("{for: blind rivet, body: [{cylinder: 9, from: 9, to: 9}]}", ("bad-value", 5, 59)),
        ("{for: blind rivet, body: [{from: 0, to: 9}]}", ("missing-word", 5, 32)),
        ("{for: blind rivet, body: [{cylinder: 9, box: [1, 2], from: 0, to: 9}]}", ("bad-value", 5, 46)),
        ("{for: blind rivet, body: [{cylinder: 9, from: -1, to: 9}]}", ("bad-value", 5, 52)),
        ("{for: blind rivet, body: [{cylinder: 9, from: 0, to: 9}], tilt: 6}", ("bad-value", 5, 70)),
        ("{for: blind rivet, body: [{cylinder: 9, from: 0, to: 9}], turns: 0}", ("bad-value", 5, 71)),
        (
            "{for: blind rivet, body: [{cylinder: 9, from: 0, to: 9}], reach: {along: up}}",
            ("unknown-word", 5, 79),
        ),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, tool: str, place: Place) -> None:
    result = read(tmp_path, f"  p: {tool}\n")
    assert places(result) == [place]
    assert result.sequence is not None
    # With a tool left out no verdict of reach would be right.
    assert (result.sequence.tools, result.sequence.broken) == ((), (0,))
