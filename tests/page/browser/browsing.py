"""Which browser, how it is started, window sizes, and pages to open in it."""

from __future__ import annotations

import io
import shutil
from collections.abc import Callable
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Playwright

from seqviz.build import build
from seqviz.page.write import Picture, page_of, page_text
from tests.page.browser.bench import Bench

__all__ = [
    "DESKTOP",
    "PHONE",
    "SMALL",
    "TABLET",
    "Open",
    "Pages",
    "Written",
    "chromium",
    "launched",
    "write_page",
]

DESKTOP, TABLET, PHONE = (1400, 900), (820, 1180), (390, 844)
SMALL = (920, 600)
"""The least that counts as wide: quickest to draw without a graphics card."""

Open = Callable[..., Bench]
Pages = Callable[[str], Path]
Written = Callable[[Path, Path], Path]

_FLAGS = (
    "--no-sandbox",
    "--enable-unsafe-swiftshader",
    "--use-angle=swiftshader",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def chromium() -> str | None:
    """Return where the browser is."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


def launched(playwright: Playwright, where: str) -> Browser:
    """Start the browser: no screen, no graphics card, no network of its own, a fresh profile."""
    return playwright.chromium.launch(executable_path=where, args=[*_FLAGS])


def write_page(file: Path, to: Path) -> Path:
    """Write the page of a model or sequence, with pictures in place of drawn ones, and return where it is."""
    page = page_of(build(str(file)))
    pictures = {step["no"]: _drawn(step["no"]) for step in page.told.work["steps"]}
    to.write_text(page_text(page, pictures), encoding="utf-8")
    return to


def _drawn(number: int) -> Picture:
    """Return a picture of a colour of its own."""
    file = io.BytesIO()
    Image.new("RGB", (64, 48), (number * 9 % 256, 90, 160)).save(file, "PNG")
    return Picture(kind="png", data=file.getvalue(), size=(64, 48))
