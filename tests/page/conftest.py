"""One browser for all tests of the page: two cannot be driven at once."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.page.browser.browsing import chromium, launched


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    where = chromium()
    if where is None:
        pytest.skip("there is no chromium here: apt-get install chromium")
    with sync_playwright() as playwright:
        started = launched(playwright, where)
        yield started
        started.close()
