from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from seqviz.checks.run import run
from seqviz.report.starter import Start, model_text, sequence_text, start_mistake, usual
from tests.checks.expect import built

MM = usual("mm")


@pytest.mark.parametrize(
    "start",
    [
        MM,
        usual("in"),
        replace(MM, rails=1, length=80.0, pitch=500.0),
        replace(MM, rails=10, leg=20.0, pitch=7.0),
        replace(MM, leg=21.0, rivet="solid rivet 3.2"),
        replace(MM, leg=40.0, rail_thickness=3.0),
        replace(MM, length=3000.0, width=1200.0, rails=5, leg=30.0),
    ],
)
def test_every_start_is_read_and_stands(start: Start, tmp_path: Path) -> None:
    assert start_mistake(start) is None
    made = built(tmp_path, model_text(start), sequence_text(start, "model.yaml"))
    findings = run(made)
    assert [finding.message for finding in findings if finding.severity == "error"] == []
    assert len(made.assembly.stacks) == start.rails * (start.spaces + 1)
    assert {len(stack.layers) for stack in made.assembly.stacks} == {2}


@pytest.mark.parametrize(
    ("start", "words"),
    [
        (replace(MM, length=79.0), "The sheet must be longer than 80 for a row of rivets."),
        (replace(MM, rails=11), "So many rails do not fit side by side; 10 would."),
        (replace(MM, leg=13.0), "A leg of 13 is too narrow for these rivets."),
        (replace(MM, leg=20.5, rivet="solid rivet 3.2"), "A leg of 20.5 is too narrow for these rivets."),
        (replace(MM, rail_thickness=2.6), "Rails so thick cannot be bent with legs of 20."),
    ],
)
def test_what_cannot_be(start: Start, words: str) -> None:
    assert start_mistake(start) == words
