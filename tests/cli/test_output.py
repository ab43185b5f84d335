from __future__ import annotations

import io
import sys

import pytest

from seqviz.cli import output
from seqviz.report.style import Style


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def style_on(stream: io.StringIO, monkeypatch: pytest.MonkeyPatch, **environment: str) -> Style:
    """Return the style for ``stream``; no fixture, as pytest swaps streams after those."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    for name, value in {"TERM": "xterm", **environment}.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "stdout", stream)
    return output.style()


def test_where_nobody_looks_on_there_is_no_colour_and_a_fixed_width(monkeypatch: pytest.MonkeyPatch) -> None:
    assert style_on(io.StringIO(), monkeypatch, COLUMNS="60") == Style(width=100, colour=False)


@pytest.mark.parametrize(("shown", "width"), [("60", 60), ("200", 100), ("10", 40)])
def test_a_terminal_gets_colour_and_its_own_width(
    monkeypatch: pytest.MonkeyPatch, shown: str, width: int
) -> None:
    assert style_on(Terminal(), monkeypatch, COLUMNS=shown) == Style(width=width, colour=True)


@pytest.mark.parametrize("environment", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_a_terminal_that_wants_no_colour_gets_none(
    monkeypatch: pytest.MonkeyPatch, environment: dict[str, str]
) -> None:
    assert style_on(Terminal(), monkeypatch, COLUMNS="60", **environment) == Style(width=60, colour=False)
