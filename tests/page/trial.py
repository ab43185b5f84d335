"""A shelf as a page, and pages taken apart again."""

from __future__ import annotations

import base64
import gzip
import json
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from seqviz.build import Build, build
from tests.cli.shelf import MODEL, SEQUENCE, write_shelf

__all__ = ["Parsed", "parsed", "shelf", "unpacked"]


def shelf(folder: Path, *, model: str = MODEL, sequence: str = SEQUENCE) -> Build:
    """Return the shelf, built from files in ``folder``."""
    write_shelf(folder, model=model, sequence=sequence)
    return build(str(folder / "evening.yaml"))


def unpacked(text: str) -> bytes:
    """Return what was packed, as a browser unpacks it."""
    return gzip.decompress(base64.b64decode(text, validate=True))


class Parsed(HTMLParser):
    """A page as a browser without scripts reads it.

    ``tags``: (tag, attributes) in order; ``scripts``: by id or type; ``words``: all text outside scripts and
    styles, by the id of the nearest element that has one.
    """

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.scripts: dict[str, str] = {}
        self.words: dict[str, str] = {}
        self._open: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        self.tags.append((tag, named))
        if tag not in {"meta", "input", "img", "br", "link", "hr"}:
            inherited = self._open[-1][1] if self._open else ""
            key = named.get("id") or (named.get("type") if tag == "script" else None) or inherited
            self._open.append((tag, key or ""))

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if not self._open:
            return
        tag, key = self._open[-1]
        if tag == "script":
            self.scripts[key] = self.scripts.get(key, "") + data
        elif tag != "style":
            self.words[key] = f"{self.words.get(key, '')} {' '.join(data.split())}".strip()

    def work(self) -> Any:
        """Return the JSON that stands in the page."""
        return json.loads(unpacked(self.scripts["work"]))


def parsed(page: str) -> Parsed:
    """Return a page taken apart."""
    parser = Parsed()
    parser.feed(page)
    parser.close()
    return parser
