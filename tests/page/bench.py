"""Modules of the page in a real browser, without the page around them."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser

from seqviz.page.library import library

__all__ = ["Bench", "opened"]

_FOLDERS = {
    "bench": Path(__file__).parents[2] / "seqviz" / "page" / "web",
    "try": Path(__file__).parent / "js",
}
_POLICY = "default-src 'none'; script-src 'unsafe-inline' data:; style-src 'unsafe-inline'; img-src data:"


class Bench:
    """A page with a bare canvas and all modules at hand.

    Attributes
    ----------
    page
        Playwright's.
    mistakes
        What the browser's console told: warnings, errors, what was asked of any network.
    """

    def __init__(self, page: Any) -> None:
        self.page = page
        self.mistakes: list[str] = []
        page.on("console", self._told)
        page.on("pageerror", lambda error: self.mistakes.append(str(error)))
        page.on("request", self._asked)

    def run(self, module: str, code: str, given: object = None) -> Any:
        """Return what ``code`` returns; in it ``m`` is the module and ``given`` what was given."""
        script = f"async (given) => {{ const m = await import('{module}'); {code} }}"
        return self.page.evaluate(script, given)

    def _told(self, message: Any) -> None:
        if message.type in {"warning", "error"}:
            self.mistakes.append(message.text)

    def _asked(self, request: Any) -> None:
        if not request.url.startswith(("file:", "data:", "blob:")):
            self.mistakes.append(request.url)


@contextmanager
def opened(
    browser: Browser, folder: Path, size: tuple[int, int] = (640, 480), **options: Any
) -> Iterator[Bench]:
    """Open a bench of that size."""
    file = folder / "bench.html"
    file.write_text(_html(), encoding="utf-8")
    context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **options)
    page = context.new_page()
    bench = Bench(page)
    page.goto(file.as_uri())
    yield bench
    context.close()


def _html() -> str:
    files = {name: sorted(folder.glob("*.js")) for name, folder in _FOLDERS.items()}
    texts = {f"{name}/{file.stem}": file.read_bytes() for name in files for file in files[name]}
    addresses = {
        name: f"data:text/javascript;base64,{base64.b64encode(text).decode('ascii')}"
        for name, text in texts.items()
    }
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'
        "<style>body{margin:0}#top{position:relative;height:100vh}canvas{width:100%;height:100%}</style></head>"
        '<body><div id="top"><canvas id="view"></canvas></div>'
        f"<script>{library().code}</script>"
        f'<script type="importmap">{json.dumps({"imports": addresses})}</script></body></html>'
    )
