"""Everything by keyboard alone: the Tab key reaches it, what has the focus is seen, keys do what they say."""

from __future__ import annotations

from itertools import pairwise

from playwright.sync_api import expect

from tests.page.browser.bench import Bench
from tests.page.browser.browsing import Open

FOCUS = """() => {
  const one = document.activeElement;
  const box = one.getBoundingClientRect();
  const line = getComputedStyle(one.matches('.file input') ? one.parentElement : one);
  const name = one.id || one.closest('[id]')?.id || one.tagName;
  return { name, words: one.textContent.trim().slice(0, 60), tag: one.tagName,
    ring: line.outlineStyle !== 'none' && parseFloat(line.outlineWidth) >= 2,
    seen: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth };
}"""


def way(bench: Bench, key: str = "Tab", most: int = 80) -> list[dict[str, object]]:
    """Return what gets the focus, one after the other, until it comes to the page's end."""
    found: list[dict[str, object]] = []
    for _ in range(most):
        bench.page.keyboard.press(key)
        at = bench.page.evaluate(FOCUS)
        if at["tag"] == "BODY":
            break
        found.append(at)
    return found


def test_the_tab_key_reaches_everything_and_shows_where_it_is(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.id("looks").evaluate("one => one.open = true")
    found = way(bench)
    names = [str(at["name"]) for at in found]
    wanted = [
        "view",
        "slider",
        "back",
        "play",
        "on",
        "pace",
        "looks",
        "pull",
        "sides",
        "legend",
        "step-1",
        "ticks-out",
        "ticks-in",
    ]
    # Step back does nothing at the first step.
    assert [name for name in wanted if name not in names] == ["back"]
    assert {"finding-0", "part-0", "keys-on", "licences"} <= set(names)
    assert [at for at in found if not at["ring"]] == []
    assert [at for at in found if not at["seen"]] == []
    # The list of steps is one stop, and so is the list of parts.
    openers = [at for at in found if at["tag"] == "BUTTON" and str(at["words"]).startswith("Step ")]
    assert len([at for at in openers if at["name"] != "step-1"]) == 0


def test_the_skip_link_goes_to_the_steps(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.page.keyboard.press("Tab")
    assert bench.page.evaluate("document.activeElement.textContent") == "To the steps"
    bench.page.keyboard.press("Enter")
    assert bench.page.evaluate("document.activeElement.id") == "steps-title"


def test_an_evening_without_a_mouse(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes")
    press = bench.page.keyboard.press
    # Down the list of steps, take one in hand, tick it.
    press("s")
    for key in ("ArrowDown", "ArrowDown", "Enter"):
        press(key)
    assert bench.at_hand == "step-3"
    for _ in range(12):
        press("Tab")
        if bench.page.evaluate("document.activeElement.type") == "checkbox":
            break
    press("Space")
    expect(bench.id("ticks-told")).to_have_text("1 of 35 steps done.")
    # To what was found, on to its part, and back to where it was.
    press("f")
    assert bench.page.evaluate("document.activeElement.id") == "finding-0"
    press("Tab")
    press("Tab")
    before = bench.page.evaluate("document.activeElement.textContent")
    press("Enter")
    assert bench.slip == before
    assert bench.page.evaluate("document.activeElement.closest('#slip') !== null")
    press("Escape")
    assert bench.slip == ""
    assert bench.page.evaluate("document.activeElement.textContent") == before
    press("Escape")
    assert bench.page.locator("#findings > .at-hand").count() == 0
    assert bench.at_hand == "step-3"


def test_parts_and_radios_by_arrows(opened: Open) -> None:
    bench = opened("practice_tray")
    press = bench.page.keyboard.press
    bench.page.locator("#parts .opener").first.focus()
    press("End")
    press("ArrowUp")
    press("Space")
    assert bench.slip == "6 divider"
    bench.page.get_by_label("shown", exact=True).focus()
    press("ArrowDown")
    assert bench.page.get_by_label("like glass").is_checked()
    press("a")
    expect(bench.id("put-by")).to_have_text("")


def test_the_page_tells_a_screen_reader_what_changes(opened: Open) -> None:
    bench = opened("practice_tray")
    assert bench.page.locator("html").get_attribute("lang") == "en"
    assert bench.id("view").get_attribute("aria-label") == "The work on the bench, in 3D"
    helps = str(bench.id("view").get_attribute("aria-describedby")).split()
    assert all(bench.id(name).inner_text() for name in helps)
    bench.step(10)
    expect(bench.id("says")).to_have_text("Step 10. Turn the work over sideways. Lower side up.")
    levels = [
        int(tag[1])
        for tag in bench.page.evaluate("[...document.querySelectorAll('h1,h2,h3')].map((h) => h.tagName)")
    ]
    assert levels[0] == 1
    assert all(below - above <= 1 for above, below in pairwise(levels))
