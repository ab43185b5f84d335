"""Steps ticked as done: kept on the device, saved as YAML, read back."""

from __future__ import annotations

import datetime
from pathlib import Path

import yaml
from playwright.sync_api import expect

from tests.cli.shelf import MODEL, SEQUENCE, write_shelf
from tests.page.browser.bench import Bench
from tests.page.browser.browsing import Open, Written


def tick(bench: Bench, number: int) -> None:
    """Tick a step as somebody does it."""
    bench.step(number)
    bench.page.get_by_label(f"Step {number} is done").check()


def saved(bench: Bench, to: Path) -> Path:
    """Save the ticks and return the file."""
    with bench.page.expect_download() as download:
        bench.button("Save the ticks").click()
    assert download.value.suggested_filename == to.name
    download.value.save_as(to)
    return to


def test_ticks_stay_and_another_day_the_first_step_without_one_lies_open(opened: Open) -> None:
    bench = opened("practice_tray")
    expect(bench.id("ticks-told")).to_have_text("0 of 13 steps done.")
    tick(bench, 1)
    tick(bench, 2)
    expect(bench.id("ticks-told")).to_have_text("2 of 13 steps done.")
    bench.another_day()
    expect(bench.id("ticks-told")).to_have_text("2 of 13 steps done.")
    assert bench.at_hand == "step-3"
    assert bench.page.locator("#steps > .is-done").count() == 2
    assert "done 20" in bench.page.locator("#step-2 .done-on").inner_text()
    bench.step(2)
    bench.page.get_by_label("Step 2 is done").uncheck()
    bench.another_day()
    expect(bench.id("ticks-told")).to_have_text("1 of 13 steps done.")


def test_they_are_saved_as_yaml_and_read_back_on_another_device(opened: Open, tmp_path: Path) -> None:
    bench = opened("practice_tray", timezone_id="Pacific/Auckland")
    tick(bench, 1)
    tick(bench, 5)
    day = bench.page.evaluate("new Date().toLocaleDateString('sv-SE')")
    file = saved(bench, tmp_path / "practice_tray ticks.yaml")
    assert yaml.safe_load(file.read_text(encoding="utf-8")) == {
        "format": 1,
        "structure": "Practice tray",
        "sequence": "sequences/practice_tray.yaml",
        "steps": [
            {"step": 1, "title": "Place bottom.", "done": datetime.date.fromisoformat(day)},
            {"step": 5, "title": "Pull 16 blind rivets.", "done": datetime.date.fromisoformat(day)},
        ],
    }
    other = opened("practice_tray")
    expect(other.id("ticks-told")).to_have_text("0 of 13 steps done.")
    other.id("ticks-in").set_input_files(file)
    expect(other.id("ticks-told")).to_have_text("2 ticks read. 2 of 13 steps done.")
    assert other.page.locator("#steps > .is-done h3").all_inner_texts()[1].startswith("Step 5.")


def test_a_file_without_ticks_is_told(opened: Open, tmp_path: Path) -> None:
    (tmp_path / "other.yaml").write_text("format: 1\nsteps: [{place: rail}]\n", encoding="utf-8")
    bench = opened("practice_tray")
    tick(bench, 1)
    bench.id("ticks-in").set_input_files(tmp_path / "other.yaml")
    expect(bench.id("ticks-told")).to_have_text(
        "In that file are no ticks for these steps. 1 of 13 steps done."
    )


def test_a_tick_goes_with_its_step_when_one_is_put_in_before_it(
    opened: Open, written: Written, tmp_path: Path
) -> None:
    write_shelf(tmp_path)
    page = tmp_path / "evening.html"
    bench = opened(written(tmp_path / "evening.yaml", page))
    tick(bench, 2)
    write_shelf(
        tmp_path,
        model=MODEL,
        sequence=SEQUENCE.replace("steps:\n", "steps:\n  - note: Look at the drawing.\n"),
    )
    written(tmp_path / "evening.yaml", page)
    bench.another_day()
    assert bench.page.locator("#steps > .is-done").get_attribute("id") == "step-3"
    assert bench.at_hand == "step-1"


def test_where_nothing_is_kept_it_is_said(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.page.evaluate("() => { Storage.prototype.setItem = () => { throw new Error('refused'); }; }")
    tick(bench, 1)
    expect(bench.id("ticks-told")).to_have_text(
        "1 of 13 steps done. This browser keeps nothing: save the ticks before you close the page."
    )
