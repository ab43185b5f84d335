"""A page that is loaded again comes back to the step, the view and the shading at which it was left."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.page.browser.bench import Bench, differing
from tests.page.browser.browsing import Open, Pages, Written


def again(bench: Bench) -> None:
    bench.page.reload()
    bench.started()


def test_it_comes_back_to_step_view_and_shading(opened: Open) -> None:
    bench = opened("practice_tray", (920, 1000))
    bench.id("looks").locator("summary").click()
    bench.step(9)
    bench.page.get_by_label("by step").check()
    bench.id("view").press("ArrowLeft")
    bench.id("view").press("+")
    bench.id("looks").locator("summary").click()  # takes the focus off the bench, and its ring
    left = bench.picture()
    again(bench)
    assert bench.at_hand == "step-9"
    assert bench.told == "Step 9 of 13. Upper side up."
    assert bench.id("looks").get_attribute("open") is None
    assert differing(left, bench.picture()) < 0.001
    bench.id("looks").locator("summary").click()
    assert bench.page.get_by_label("by step").is_checked()


def test_the_address_counts_only_the_first_time(opened: Open) -> None:
    bench = opened("practice_tray", address="#step-4")
    bench.step(8)
    again(bench)
    assert bench.at_hand == "step-8"


def test_who_opens_the_page_begins_at_the_first_step_that_is_not_done(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(8)
    bench.page.goto("about:blank")
    bench.page.goto(bench.path.as_uri())
    bench.started()
    assert bench.at_hand == "step-1"


def test_it_comes_back_to_the_step_of_that_title_when_steps_are_put_in_before_it(
    opened: Open, written: Written, tmp_path: Path
) -> None:
    file, model = tmp_path / "order.yaml", Path("models/practice_tray.yaml").resolve()
    steps = ["place: bottom", "place: divider", "note: Feel along it."]
    page = tmp_path / "order.html"

    def write() -> None:
        head = f"format: 1\nmodel: {json.dumps(str(model))}\nsteps:\n"
        file.write_text(head + "".join(f"  - {step}\n" for step in steps), encoding="utf-8")
        written(file, page)

    write()
    bench = opened(page)
    bench.step(2)
    steps.insert(0, "note: Clear the bench.")
    write()
    again(bench)
    assert bench.at_hand == "step-3"
    assert bench.id("step-3").locator("h3").inner_text().startswith("Step 3. Place divider.")


def test_another_structure_has_a_place_of_its_own(opened: Open, pages: Pages, tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_bytes(pages("practice_tray").read_bytes())
    bench = opened(page)
    bench.step(8)
    page.write_bytes(pages("battery_shelf").read_bytes())
    again(bench)
    assert bench.page.title() == "Battery shelf"
    assert bench.at_hand == "step-1"


REFUSED = "Object.defineProperty(window, 'sessionStorage', { get() { throw new Error('refused'); } });"
MANGLED = """
addEventListener('pagehide', (event) => {
  for (const key of Object.keys(sessionStorage)) sessionStorage.setItem(key, WRITTEN);
  event.stopImmediatePropagation();
});
document.addEventListener('visibilitychange', (event) => event.stopImmediatePropagation(), true);
sessionStorage.setItem('seqviz place ["Practice tray","sequences/practice_tray.yaml"]', WRITTEN);
"""


@pytest.mark.parametrize(
    "before",
    [
        REFUSED,
        *(
            MANGLED.replace("WRITTEN", json.dumps(written))
            for written in ("{", "7", '{"no": 1e9, "view": {"spot": [null, 1, 2]}}', '{"no": "x", "view": 3}')
        ),
    ],
)
def test_it_starts_as_well_where_nothing_is_kept_or_something_strange(opened: Open, before: str) -> None:
    bench = opened("practice_tray", before=before)
    bench.step(8)
    again(bench)
    assert bench.at_hand in {"step-1", "step-13"}  # a number that is too large is that of the last step
    assert bench.tags() == [] or bench.at_hand == "step-1"
    bench.button("Step back" if bench.at_hand == "step-13" else "Next step").click()
    assert bench.at_hand in {"step-2", "step-12"}


def test_a_side_that_is_looked_at_stays_when_the_bench_changes_its_size(opened: Open) -> None:
    bench = opened("practice_tray", (920, 1000))
    bench.step(9)
    bench.id("looks").locator("summary").click()
    bench.id("sides").locator("button[value=lower]").click()
    below = bench.picture()
    bench.id("looks").locator("summary").click()
    bench.picture()
    bench.id("looks").locator("summary").click()
    assert differing(below, bench.picture()) < 0.01
