"""The page of parts and patterns: what it prints is printed, and its picture is the one that is drawn."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from seqviz.cli.program import run

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"
PAGE = (DOCS / "parts-and-patterns.md").read_text(encoding="utf-8")


def test_what_the_page_prints_is_printed(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    command, _, shown = PAGE.partition("$ seqviz ")[2].partition("```")[0].partition("\n")
    assert run(shlex.split(command)) == 0
    printed = capsys.readouterr().out
    pieces = [piece for piece in shown.split("...\n") if piece]
    assert len(pieces) == 4
    place = 0
    for piece in pieces:
        place = printed.find(piece, place)
        assert place >= 0, piece
        place += len(piece)


def test_the_picture_is_what_is_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    drawn = tmp_path / "drawn.svg"
    assert run(["stack", "models/battery_shelf.yaml", "--flat", "strap bracket", "--out", str(drawn)]) == 0
    assert drawn.read_bytes() == (DOCS / "pictures" / "strap_bracket_flat.svg").read_bytes()
