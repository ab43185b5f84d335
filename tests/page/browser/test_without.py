"""What is left where something is missing: scripts, 3D, its context, motion, kind names."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, expect

from tests.cli.shelf import MODEL, SEQUENCE, write_shelf
from tests.page.browser.bench import differing
from tests.page.browser.browsing import PHONE, Open, Written

BREAKS_OUT = (
    "</script><script>document.title='broken out'</script><img src=x onerror=\"document.title='b'\">'\"&lt;"
)
NO_3D = (
    "HTMLCanvasElement.prototype.getContext = function (own) { return function (kind, ...rest) {"
    " return kind.startsWith('webgl') ? null : own.call(this, kind, ...rest); }; }"
    "(HTMLCanvasElement.prototype.getContext);"
)


def test_without_scripts_steps_pictures_findings_and_parts_are_there(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes", java_script_enabled=False)
    page = bench.page
    assert page.locator("#steps > li").count() == 35
    assert page.locator("#step-1").inner_text().startswith("Step 1. ")
    assert page.locator(".step-body:visible").count() == 35
    picture = page.locator("#step-3 img")
    assert picture.is_visible()
    assert page.locator("#steps img").count() == 35
    assert page.locator("#findings > li:visible").count() > 8
    assert "Fix: " in page.locator("#finding-0").inner_text()
    assert page.locator("#parts > li:visible").count() > 5
    assert not page.locator(".only-scripts:visible").count()
    assert page.locator("button:visible").count() == 0


def test_without_3d_the_page_says_so_in_one_line_and_goes_on(opened: Open) -> None:
    bench = opened("practice_tray", before=NO_3D)
    assert bench.id("no-bench").inner_text() == (
        "This browser cannot draw in 3D. Steps, pictures and all that was found stand here in words."
    )
    assert not bench.id("view").is_visible()
    assert not bench.id("looks").is_visible()
    bench.step(7)
    assert bench.at_hand == "step-7"
    assert bench.page.locator("#step-7 img").is_visible()
    assert not bench.button("Watch this step").count()
    bench.page.get_by_label("Step 7 is done").check()
    expect(bench.id("ticks-told")).to_have_text("1 of 13 steps done.")
    bench.page.locator("#parts .opener").first.click()
    assert bench.slip == "1 bottom"


def test_lost_graphics_come_back(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(7)
    bench.id("view").press("Home")
    before = bench.picture()
    bench.page.evaluate(
        """async () => {
          const canvas = document.getElementById("view");
          const loss = canvas.getContext("webgl2").getExtension("WEBGL_lose_context");
          const heard = (name) => new Promise((done) => canvas.addEventListener(name, done, { once: true }));
          const lost = heard("webglcontextlost"); loss.loseContext(); await lost;
          document.getElementById("on").click();  // somebody goes on meanwhile
          document.getElementById("back").click();
          const back = heard("webglcontextrestored");
          setTimeout(() => loss.restoreContext(), 50); await back;
        }"""
    )
    bench.trouble.found[:] = [words for words in bench.trouble.found if "Context Lost" not in words]
    assert bench.at_hand == "step-7"
    bench.id("view").press("Home")
    assert differing(before, bench.picture()) < 0.01


def hostile(folder: Path, words: str) -> Path:
    """Write the shelf with ``words`` wherever a file may hold free text, and return its sequence."""
    quoted = json.dumps(words)
    model = MODEL.replace("name: First shelf", f"name: {quoted}").replace(
        "    length: 300\n", f"    length: 300\n    how to tell: {quoted}\n    drawing: {quoted}\n"
    )
    sequence = SEQUENCE.replace("    pins: ends and every 4th\n", f"    note: {quoted}\n") + (
        f"  - check: {quoted}\n  - note: {quoted}\n"
    )
    write_shelf(folder, model=model, sequence=sequence)
    return folder / "evening.yaml"


@pytest.mark.parametrize(
    "words",
    [BREAKS_OUT, "rail \u202etfel\u2066 \x07end\u2028line", "long " * 2000, "W" * 10_000],
    ids=["breaks out", "turns round", "10,000 letters", "one word of 10,000"],
)
def test_hostile_words_do_no_harm(opened: Open, written: Written, tmp_path: Path, words: str) -> None:
    page = written(hostile(tmp_path, words), tmp_path / "evening.html")
    bench = opened(page, PHONE)
    assert bench.page.title() not in {"broken out", "b"}
    assert bench.page.locator("script").count() == 5
    bench.page.locator("#parts .opener").nth(1).click()
    assert bench.slip == "2 stiffener"
    if words == BREAKS_OUT:
        assert bench.page.locator("h1").inner_text() == words
        assert f"How to tell: {words}" in bench.id("slip").inner_text()
        assert bench.page.locator("img:not(.patch):not(#steps img)").count() == 0
    bench.step(3)
    assert bench.at_hand == "step-3"
    bench.page.get_by_label("Step 3 is done").check()
    for width in (PHONE[0], 1400):
        bench.page.set_viewport_size({"width": width, "height": 800})
        assert bench.page.evaluate("document.documentElement.scrollWidth") <= width
    assert not any(sign in bench.page.locator("body").inner_text() for sign in "\u202e\u2066\x07")


def test_ticks_of_hostile_titles_are_kept_and_saved(opened: Open, written: Written, tmp_path: Path) -> None:
    import yaml

    bench = opened(written(hostile(tmp_path, BREAKS_OUT), tmp_path / "evening.html"))
    bench.step(4)
    bench.page.get_by_label("Step 4 is done").check()
    with bench.page.expect_download() as download:
        bench.button("Save the ticks").click()
    download.value.save_as(tmp_path / "ticks.yaml")
    told = yaml.safe_load((tmp_path / "ticks.yaml").read_text(encoding="utf-8"))
    assert told["structure"] == BREAKS_OUT
    assert BREAKS_OUT in told["steps"][0]["title"]


def test_a_model_alone_is_shown_without_steps(opened: Open, written: Written, tmp_path: Path) -> None:
    write_shelf(tmp_path)
    bench = opened(written(tmp_path / "shelf.yaml", tmp_path / "shelf.html"))
    assert bench.told == "The whole structure."
    assert not bench.id("playing").is_visible()
    assert not bench.button("Save the ticks").count()
    bench.page.locator("#parts .opener").nth(1).click()
    assert "Sits on" in bench.id("slip").inner_text()


def test_nothing_is_drawn_while_nothing_changes(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.picture()
    bench.page.wait_for_timeout(500)
    drawn = bench.page.evaluate(
        """async () => {
          let asked = 0;
          const own = requestAnimationFrame;
          globalThis.requestAnimationFrame = (draw) => { asked += 1; return own(draw); };
          await new Promise((done) => setTimeout(done, 700));
          return asked;
        }"""
    )
    assert drawn == 0


def test_the_context_has_no_network(opened: Open) -> None:
    """The tests themselves would see a request: here one is made on purpose, and refused by the page."""
    bench = opened("practice_tray")
    bench.page.evaluate("() => { new Image().src = 'http://seqviz.invalid/picture.png'; }")
    bench.page.wait_for_timeout(300)
    assert any(
        "seqviz.invalid" in words or "Content Security Policy" in words for words in bench.trouble.found
    )
    bench.trouble.found.clear()
    assert isinstance(bench.page.context, BrowserContext)
