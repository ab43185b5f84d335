"""One browser a session, pages written once, and for each test a page that nothing may go wrong on."""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Browser, sync_playwright

from seqviz.build import build
from seqviz.page.write import Picture, page_of, page_text
from tests.page.browser.bench import Bench

ROOT = Path(__file__).parents[3]
FLAGS = (
    "--no-sandbox",
    "--enable-unsafe-swiftshader",
    "--use-angle=swiftshader",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
DESKTOP, TABLET, PHONE = (1400, 900), (820, 1180), (390, 844)

Pages = Callable[[str], Path]
Open = Callable[..., Bench]


def chromium() -> str:
    """Return where the browser is, or skip."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.skip("there is no chromium here: apt-get install chromium")
    return found


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    where = chromium()
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=where, args=[*FLAGS])
        yield started
        started.close()


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Pages:
    """Return the page of a sequence in the repo, by its stem; pictures stand in for drawn ones."""
    folder = tmp_path_factory.mktemp("pages")

    @cache
    def page(stem: str) -> Path:
        told = page_of(build(os.path.relpath(ROOT / "sequences" / f"{stem}.yaml")))
        pictures = {step["no"]: drawn(step["no"]) for step in told.told.work["steps"]}
        path = folder / f"{stem}.html"
        path.write_text(page_text(told, pictures), encoding="utf-8")
        return path

    return page


def drawn(number: int) -> Picture:
    """Return a picture of a colour of its own."""
    file = io.BytesIO()
    Image.new("RGB", (64, 48), (number * 9 % 256, 90, 160)).save(file, "PNG")
    return Picture(kind="png", data=file.getvalue(), size=(64, 48))


@pytest.fixture
def opened(browser: Browser, pages: Pages) -> Iterator[Open]:
    """Return what opens a page: a stem or a path, the window's size, and how the device is set.

    Nothing moves unless ``reduced_motion="no-preference"``. At the end of the test nothing may have gone wrong.
    """
    contexts, benches = [], []

    def open_page(
        what: str | Path, size: tuple[int, int] = DESKTOP, *, address: str = "", **device: Any
    ) -> Bench:
        path = what if isinstance(what, Path) else pages(what)
        settings: dict[str, Any] = {"reduced_motion": "reduce", "offline": True, **device}
        context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **settings)
        contexts.append(context)
        context.set_default_timeout(30_000)
        bench = Bench(context, path, address=address)
        benches.append(bench)
        return bench if settings.get("java_script_enabled") is False else bench.started()

    yield open_page
    trouble = [words for bench in benches for words in bench.trouble.found]
    for context in contexts:
        context.close()
    assert trouble == []
