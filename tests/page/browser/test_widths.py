"""Desktop, tablet and phone: nothing runs out of the page, nothing lies over something to press."""

from __future__ import annotations

from typing import Any

import pytest

from tests.page.browser.bench import Bench
from tests.page.browser.browsing import DESKTOP, PHONE, TABLET, Open

SMALL_PHONE, LYING = (360, 640), (760, 360)

COVERED = """() => {
  // What is to be pressed and seen, and what a finger in its middle would meet instead.
  const clipped = (one, x, y) => { for (let up = one.parentElement; up; up = up.parentElement) {
    if (getComputedStyle(up).overflow === 'visible') continue;
    const box = up.getBoundingClientRect();
    if (x < box.left || x > box.right || y < box.top || y > box.bottom) return true; } return false; };
  const found = [];
  const bench = document.getElementById('bench').getBoundingClientRect();
  const floats = getComputedStyle(document.getElementById('bench')).position === 'sticky' && innerWidth < 900;
  for (const one of document.querySelectorAll('button, input, select, summary, a')) {
    const box = one.getBoundingClientRect();
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    if (!box.width || !one.checkVisibility() || one.closest('.skip') || clipped(one, x, y)) continue;
    if (x < 0 || y < 0 || x >= innerWidth || y >= innerHeight) continue;
    const met = document.elementFromPoint(x, y);
    if (met === one || one.contains(met) || met?.contains(one) && met.tagName === 'LABEL') continue;
    // The sheet goes by under the bench of a phone: that is meant.
    if (floats && y < bench.bottom && !one.closest('#bench')) continue;
    found.push(`${one.id || one.textContent.trim()} under ${met?.id || met?.tagName}`);
  }
  return found;
}"""

SMALL_TARGETS = """() =>
  [...document.querySelectorAll("button, select, summary, .choices label, .done, .file")]
  .map((one) => [one, one.getBoundingClientRect()])
  .filter(([one, box]) => one.checkVisibility() && box.width && (box.height < 43 || box.width < 43))
  .map(([one, box]) => `${one.textContent.trim().slice(0, 40)}: ${box.width} x ${box.height}`)"""


def looked_at(bench: Bench, size: tuple[int, int]) -> None:
    """Go down the whole page and look whether anything runs out of it or lies over a control."""
    assert bench.page.evaluate("document.documentElement.scrollWidth") <= size[0]
    high = bench.page.evaluate("document.documentElement.scrollHeight")
    covered: list[Any] = []
    for top in range(0, min(high, 6 * size[1]), size[1] // 2):
        bench.page.evaluate("(top) => scrollTo(0, top)", top)
        covered += bench.page.evaluate(COVERED)
    assert covered == []


@pytest.mark.parametrize(
    "size", [DESKTOP, TABLET, PHONE, SMALL_PHONE, LYING], ids=lambda size: f"{size[0]}x{size[1]}"
)
@pytest.mark.parametrize("stem", ["practice_tray", "float_bay_mistakes"])
def test_all_can_be_read_and_pressed(opened: Open, stem: str, size: tuple[int, int]) -> None:
    bench = opened(stem, size)
    looked_at(bench, size)
    assert bench.page.evaluate(SMALL_TARGETS) == []
    bench.id("looks").evaluate("one => one.open = true")
    bench.page.get_by_label("by step").check()
    bench.page.locator("#parts .opener").nth(1).click()
    looked_at(bench, size)
    assert bench.page.evaluate(SMALL_TARGETS) == []


def test_the_bench_gets_most_of_a_desktop(opened: Open) -> None:
    bench = opened("practice_tray", DESKTOP)
    box = bench.id("view").bounding_box()
    assert box is not None
    assert box["width"] * box["height"] > 0.45 * DESKTOP[0] * DESKTOP[1]


def test_letters_twice_as_large_still_fit(opened: Open) -> None:
    bench = opened("practice_tray", PHONE)
    bench.page.add_style_tag(content="html { font-size: 200%; }")
    assert bench.page.evaluate("document.documentElement.scrollWidth") <= PHONE[0]


def test_on_paper_all_steps_lie_open(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.page.emulate_media(media="print")
    assert bench.page.locator(".step-body:visible").count() == 13
    assert not bench.id("view").is_visible()
    assert bench.page.locator("button:visible").evaluate_all(
        "all => all.every((one) => one.matches('.opener'))"
    )
