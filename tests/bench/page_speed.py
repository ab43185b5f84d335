"""Size and speed of pages in a browser. Run: ``python -m tests.bench.page_speed [BOXES] [--file FILE]``.

20 boxes, the default, are 521 parts and 7,440 fasteners. For each page: how long it took to write, its
size, the time from opening it to the first picture, the time of a step change (middle and worst of
steps spread over the sequence), and of a picture while the work is turned. Drawn by this machine's processor,
without a graphics card: the worst case. Times are of the wall, so do nothing else meanwhile.
"""

from __future__ import annotations

import argparse
import statistics
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from seqviz.build import build
from seqviz.page.write import page_of, page_text
from tests.bench.boxes import write
from tests.page.browser.browsing import DESKTOP, chromium, launched

PICTURE = (
    "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now()))))"
)
FIRST = f"""
window.first = 0;
new MutationObserver(async () => {{
  if (window.first || !document.querySelector("#steps .at-hand")) return;
  window.first = -1;
  window.first = await {PICTURE};
}}).observe(document, {{ subtree: true, attributes: true, childList: true }});
"""
STEP = f"""async (index) => {{
  const slider = document.getElementById("slider");
  const begin = performance.now();
  slider.value = String(index + 1);
  slider.dispatchEvent(new Event("input"));
  return (await {PICTURE}) - begin;
}}"""
TURN = f"""async () => {{
  const begin = performance.now();
  for (let k = 0; k < 10; k++) {{
    document.getElementById("view").dispatchEvent(new KeyboardEvent("keydown", {{ key: "ArrowLeft" }}));
    await {PICTURE};
  }}
  return (performance.now() - begin) / 10;
}}"""
COUNTED = 12
"""Steps over which a change is measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One line of the table; seconds, and milliseconds of the last three."""

    name: str
    written: float
    megabytes: float
    first: float
    step: float
    worst: float
    turning: float


def measured(browser: Browser, file: Path, folder: Path) -> Measured:
    """Write the page of a sequence and open it."""
    begin = time.perf_counter()
    path = folder / f"{file.stem}.html"
    path.write_text(page_text(page_of(build(str(file))), {}), encoding="utf-8")
    written = time.perf_counter() - begin
    context = browser.new_context(
        viewport={"width": DESKTOP[0], "height": DESKTOP[1]}, reduced_motion="reduce"
    )
    context.add_init_script(FIRST)
    page = context.new_page()
    page.goto(path.as_uri())
    first = _first(page)
    page.wait_for_timeout(1500)
    last = int(page.locator("#slider").get_attribute("max") or "1") - 1
    steps = [page.evaluate(STEP, round(last * k / COUNTED)) for k in range(1, COUNTED + 1)]
    turning = page.evaluate(TURN)
    context.close()
    return Measured(
        name=file.stem,
        written=written,
        megabytes=path.stat().st_size / 1e6,
        first=first / 1000,
        step=statistics.median(steps),
        worst=max(steps),
        turning=turning,
    )


def _first(page: Page) -> float:
    """Return when the first picture was there, ms after the page was asked for."""
    while True:
        at = float(page.evaluate("window.first"))
        if at > 0:
            return at
        page.wait_for_timeout(100)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "boxes", nargs="*", type=int, help="how many boxes; 20 if neither these nor files are given"
    )
    parser.add_argument("--file", nargs="*", type=Path, default=[], help="sequences of your own")
    asked = parser.parse_args()
    where = chromium()
    if where is None:
        parser.exit(1, "There is no chromium here: apt-get install chromium\n")
    sizes = asked.boxes or ([] if asked.file else [20])
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        browser = launched(playwright, where)
        print("page                 written     size   first picture   step: middle, worst   while turning")
        files = [*asked.file]
        for boxes in sizes:
            folder = Path(name) / f"{boxes}"
            folder.mkdir()
            files.append(write(folder, boxes).rename(folder / f"boxes {boxes}.yaml"))
        for file in files:
            one = measured(browser, file, Path(name))
            print(
                f"{one.name:<20} {one.written:5.1f} s  {one.megabytes:5.2f} MB  {one.first:10.1f} s"
                f"  {one.step:8.0f} ms {one.worst:6.0f} ms   {one.turning:8.0f} ms"
            )
        browser.close()


if __name__ == "__main__":
    main()
