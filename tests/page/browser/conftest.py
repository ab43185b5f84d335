"""Pages written once, and for each test a page that nothing may go wrong on."""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.page.browser.bench import Bench
from tests.page.browser.browsing import SMALL, Open, Pages, Written, write_page

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Pages:
    """Return the page of a sequence in the repo, by its stem; pictures stand in for drawn ones."""
    own = tmp_path_factory.mktemp("pages")
    # All workers of a run share the folder above their own.
    shared = tmp_path_factory.getbasetemp().parent if "PYTEST_XDIST_WORKER" in os.environ else own

    @cache
    def page(stem: str) -> Path:
        path = shared / f"{stem}.html"
        if path.exists():
            return path
        file = Path(os.path.relpath(ROOT / "sequences" / f"{stem}.yaml"))
        return write_page(file, own / f"{stem} written.html").replace(path)

    return page


@pytest.fixture(scope="session")
def written() -> Written:
    """Return what writes the page of a file."""
    return write_page


@pytest.fixture
def opened(browser: Browser, pages: Pages) -> Iterator[Open]:
    """Return what opens a page: a stem or a path, the window's size, and how the device is set.

    ``before``: a script that runs before the page's own. Nothing moves unless
    ``reduced_motion="no-preference"``. At the end of the test nothing may have gone wrong.
    """
    contexts, benches = [], []

    def open_page(
        what: str | Path, size: tuple[int, int] = SMALL, *, address: str = "", before: str = "", **device: Any
    ) -> Bench:
        path = what if isinstance(what, Path) else pages(what)
        settings: dict[str, Any] = {"reduced_motion": "reduce", "offline": True, **device}
        context = browser.new_context(viewport={"width": size[0], "height": size[1]}, **settings)
        contexts.append(context)
        context.set_default_timeout(30_000)
        if before:
            context.add_init_script(before)
        bench = Bench(context, path, address=address)
        benches.append(bench)
        return bench if settings.get("java_script_enabled") is False else bench.started()

    yield open_page
    trouble = [words for bench in benches for words in bench.trouble.found]
    for context in contexts:
        context.close()
    assert trouble == []
