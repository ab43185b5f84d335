"""The page's scripts as texts: what they must not do, how large they are, who imports whom."""

from __future__ import annotations

import graphlib
import re
from pathlib import Path

WEB = Path(__file__).parents[2] / "seqviz" / "page" / "web"
SCRIPTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(WEB.glob("*.js"))}

FORBIDDEN = (
    "innerHTML",
    "outerHTML",
    "insertAdjacentHTML",
    "document.write",
    "fetch(",
    "XMLHttpRequest",
    "WebSocket",
    "sendBeacon",
    "eval(",
)
"""What could make HTML of words that people wrote, or ask for something outside the page."""


def test_words_never_become_html_and_nothing_is_asked_for() -> None:
    assert len(SCRIPTS) > 30
    found = [(name, word) for name, text in SCRIPTS.items() for word in FORBIDDEN if word in text]
    assert found == []


def test_modules_import_each_other_without_a_cycle() -> None:
    imports = {
        name: re.findall(r'^import [^"]*from "bench/([^"]+)";$', text, re.MULTILINE)
        for name, text in SCRIPTS.items()
    }
    order = list(graphlib.TopologicalSorter(imports).static_order())
    assert order[-1] == "main"
    assert set(order) == set(SCRIPTS)


def test_modules_stay_small_and_say_what_they_are_for() -> None:
    assert [name for name, text in SCRIPTS.items() if text.count("\n") > 250] == []
    assert [name for name, text in SCRIPTS.items() if not text.startswith("/**")] == []
