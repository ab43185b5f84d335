"""The page of sections: its command prints what it says, and its picture is the one that is drawn."""

from __future__ import annotations

import shlex
import shutil
from pathlib import Path

import pytest

from seqviz.cli.program import run

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"
PAGE = (DOCS / "sections.md").read_text(encoding="utf-8")


def test_the_command_of_the_page_draws_its_picture(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for folder in ("models", "sequences"):
        shutil.copytree(ROOT / folder, tmp_path / folder)
    monkeypatch.chdir(tmp_path)
    command, _, shown = PAGE.partition("$ seqviz ")[2].partition("```")[0].partition("\n")
    assert run(shlex.split(command)) == 0
    assert capsys.readouterr().out == shown
    drawn = (tmp_path / shown.strip()).read_bytes()
    assert drawn == (DOCS / "pictures" / "aft_clip_section.svg").read_bytes()
