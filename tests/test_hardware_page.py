"""The page of hardware: its command prints what it says."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from seqviz.cli.program import run

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "docs" / "hardware.md").read_text(encoding="utf-8")


def test_the_command_of_the_page_prints_what_it_shows(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    command, _, shown = PAGE.partition("$ seqviz ")[2].partition("```")[0].partition("\n")
    assert run(shlex.split(command)) == 0
    assert capsys.readouterr().out == shown
