"""A page as somebody uses it: opened in a real browser, with everything noted that must not happen."""

from __future__ import annotations

import io
import time
from pathlib import Path
from typing import Any

from PIL import Image, ImageChops
from playwright.sync_api import BrowserContext, ConsoleMessage, Locator, Page, Request

__all__ = ["BLACK_BOX", "Bench", "Trouble", "differing"]

BLACK_BOX = "GL Driver Message"
"""Warnings of the browser's own graphics about reading pixels back: the page could do no better."""

PATIENCE = 30.0
"""Seconds until a picture must have come to rest; the machine may be busy."""


class Trouble:
    """What went wrong on a page, in words."""

    def __init__(self, path: Path) -> None:
        self.found: list[str] = []
        self._own = path.as_uri()

    def watch(self, page: Page) -> None:
        """Listen to a page."""
        page.on("request", self._asked)
        page.on("console", self._said)
        page.on("pageerror", lambda error: self.found.append(f"exception: {error}"))
        page.on("crash", lambda _: self.found.append("the page crashed"))

    def _asked(self, request: Request) -> None:
        own = request.url.partition("#")[0] == self._own
        if not own and not request.url.startswith(("data:", "blob:")):
            self.found.append(f"request: {request.url[:200]}")

    def _said(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"} and BLACK_BOX not in message.text:
            self.found.append(f"console {message.type}: {message.text[:300]}")


class Bench:
    """One page, and hands for it."""

    def __init__(self, context: BrowserContext, path: Path, *, address: str = "") -> None:
        self.page = context.new_page()
        self.path = path
        self.trouble = Trouble(path)
        self.trouble.watch(self.page)
        self.page.goto(path.as_uri() + address)

    def started(self) -> Bench:
        """Wait until the scripts have taken the lists over."""
        self.page.wait_for_selector("#steps .opener, #parts .opener", state="attached")
        return self

    def another_day(self) -> None:
        """Close the page and open it anew: what is kept for one sitting is gone."""
        context = self.page.context
        self.page.close()
        self.page = context.new_page()
        self.trouble.watch(self.page)
        self.page.goto(self.path.as_uri())
        self.started()

    def id(self, name: str) -> Locator:
        return self.page.locator(f"#{name}")

    def button(self, words: str, *, within: str = "body") -> Locator:
        return self.page.locator(within).get_by_role("button", name=words, exact=True)

    @property
    def told(self) -> str:
        """The line over the bench."""
        return self.id("bench-told").inner_text()

    @property
    def at_hand(self) -> str:
        """The id of the step that lies open."""
        open_steps = self.page.locator("#steps > .at-hand")
        assert open_steps.count() == 1
        return str(open_steps.get_attribute("id"))

    @property
    def slip(self) -> str:
        """The heading of the slip; empty where it is put away."""
        heading = self.page.locator("#slip h2")
        return " ".join(heading.inner_text().split()) if heading.count() else ""

    def work(self) -> Any:
        """The data as the page's own module reads them."""
        return self.page.evaluate(
            """async () => {
              const { readWork } = await import("bench/data");
              const { bodies: _, ...work } = await readWork(document);
              return work;
            }"""
        )

    def step(self, number: int) -> None:
        self.page.locator(f"#step-{number} .opener").click()

    def picture(self) -> Image.Image:
        """The bench as it is seen, once it has come to rest."""
        before, end = self._shot(), time.monotonic() + PATIENCE
        while True:
            self.page.wait_for_timeout(350)  # longer than it waits before it puts numbers on
            after = self._shot()
            if after == before:
                return Image.open(io.BytesIO(after)).convert("RGB")
            assert time.monotonic() < end, "the picture never comes to rest"
            before = after

    def glimpse(self) -> Image.Image:
        """The bench as it is seen right now."""
        return Image.open(io.BytesIO(self._shot())).convert("RGB")

    def _shot(self) -> bytes:
        """Return what stands where the bench is; nothing is scrolled for it."""
        x, y, wide, high = self.box("view")
        return self.page.screenshot(clip={"x": x, "y": y, "width": wide, "height": high})

    def box(self, name: str) -> tuple[float, float, float, float]:
        """Where an element is in the window: left, top, width, height."""
        box = self.id(name).bounding_box()
        assert box is not None
        return box["x"], box["y"], box["width"], box["height"]

    def tags(self) -> list[str]:
        """The numbers that lie over the parts, sorted as numbers."""
        self.picture()
        return sorted(self.page.locator(".tag").all_inner_texts(), key=int)

    def tag_place(self, number: int) -> tuple[float, float]:
        """Where on the page a part's number stands."""
        box = self.page.locator(".tag", has_text=str(number)).first.bounding_box()
        assert box is not None
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def middle(self) -> tuple[float, float]:
        """The middle of the bench."""
        left, top, wide, high = self.box("view")
        return left + wide / 2, top + high / 2


def differing(one: Image.Image, other: Image.Image) -> float:
    """Return the share of pixels that differ clearly."""
    grey = ImageChops.difference(one, other).convert("L").point(lambda value: 255 if value > 24 else 0)
    return sum(grey.histogram()[255:]) / (one.width * one.height)
