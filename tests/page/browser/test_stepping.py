"""Playing the order of work: by the list, the buttons, the slider, the keys and the address."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from tests.page.browser.bench import Bench, differing
from tests.page.browser.browsing import PHONE, Open

LAST = 13
"""Steps of the practice tray."""


def test_it_opens_at_the_first_step(opened: Open) -> None:
    bench = opened("practice_tray")
    assert bench.at_hand == "step-1"
    assert bench.told == "Step 1 of 13. Upper side up."
    assert bench.button("Step back").is_disabled()
    assert bench.id("slider").get_attribute("max") == "13"
    assert bench.page.locator(".step-body:visible").count() == 1


def test_the_address_opens_its_step(opened: Open) -> None:
    assert opened("practice_tray", address="#step-9").at_hand == "step-9"


def test_a_tap_on_a_step_takes_it_in_hand_and_shows_what_is_there(opened: Open) -> None:
    bench = opened("practice_tray")
    empty = bench.picture()
    bench.step(7)
    assert bench.at_hand == "step-7"
    assert bench.told == "Step 7 of 13. Upper side up."
    assert bench.id("slider").input_value() == "7"
    assert "Step 7" in str(bench.id("slider").get_attribute("aria-valuetext"))
    assert bench.page.locator("#step-7 .opener").get_attribute("aria-current") == "step"
    # Front and back angle come with this step, and pins in 6 holes.
    assert bench.tags() == ["4", "5"]
    assert bench.id("marks-told").inner_text() == "pin in: 6"
    assert differing(empty, bench.picture()) > 0.02


def test_buttons_go_on_and_back(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.button("Next step").click()
    assert bench.at_hand == "step-2"
    bench.button("Next step").click()
    assert bench.at_hand == "step-3"
    bench.button("Step back").click()
    assert bench.at_hand == "step-2"
    expect(bench.id("says")).to_contain_text("Step 2. Place side angle left and side angle right.")
    bench.step(LAST)
    assert bench.button("Next step").is_disabled()


def test_a_picture_is_of_its_step_whatever_came_before(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(3)
    bench.id("view").press("Home")
    there = bench.picture()
    bench.step(LAST)
    bench.step(3)
    bench.id("view").press("Home")
    assert differing(there, bench.picture()) < 0.001


def test_the_slider_goes_through_the_steps_by_key_and_by_hand(opened: Open) -> None:
    bench = opened("practice_tray")
    slider = bench.id("slider")
    slider.focus()
    bench.page.keyboard.press("ArrowRight")
    assert bench.at_hand == "step-2"
    bench.page.keyboard.press("End")
    assert bench.at_hand == f"step-{LAST}"
    box = slider.bounding_box()
    assert box is not None
    bench.page.mouse.move(box["x"] + box["width"] - 8, box["y"] + box["height"] / 2)
    bench.page.mouse.down()
    bench.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, steps=4)
    bench.page.mouse.up()
    assert bench.at_hand == "step-7"


def test_one_step_plays_to_its_end_and_stops(opened: Open) -> None:
    bench = opened("practice_tray", reduced_motion="no-preference")
    bench.step(6)
    # Pressed again while it happens it is put down as done.
    bench.page.evaluate("['on', 'on'].forEach((name) => document.getElementById(name).click())")
    assert bench.at_hand == "step-7"
    assert bench.id("marks-told").inner_text() == "pin in: 6"
    there = bench.picture()
    bench.button("Watch this step").click()
    moving = bench.glimpse()
    assert differing(moving, there) > 0.01
    bench.page.wait_for_timeout(3_000)  # one of parts and pins lasts 0.6 + 1.2 * 2.5 seconds at most
    assert differing(there, bench.picture()) < 0.001
    assert bench.at_hand == "step-7"


def test_play_runs_to_the_last_step_and_stop_stops(opened: Open) -> None:
    bench = opened("practice_tray", reduced_motion="no-preference")
    bench.id("pace").select_option("2.5")
    bench.step(LAST - 1)
    bench.button("Play").click()
    expect(bench.page.locator("#step-13")).to_have_class(re.compile("at-hand"))
    expect(bench.id("play")).to_have_text("Play")
    assert bench.button("Next step").is_disabled()
    # Played on from the end it begins again.
    bench.button("Play").click()
    assert bench.at_hand == "step-1"
    bench.button("Stop").click()
    assert bench.button("Play").is_visible()


@pytest.mark.parametrize("pace", ["0.5", "2.5"])
def test_the_pace_is_that_of_the_choice(opened: Open, pace: str) -> None:
    assert lasted(opened("practice_tray"), pace) == pytest.approx(6 / float(pace), rel=0.05)


def lasted(bench: Bench, pace: str) -> float:
    """Return how many seconds of the clock a step of 6 seconds takes; the clock is turned by hand."""
    return float(
        bench.page.evaluate(
            """async (pace) => {
              const { createTimeline } = await import("bench/timeline");
              const frames = []; let now = 0;
              const own = { raf: requestAnimationFrame, clock: performance.now };
              globalThis.requestAnimationFrame = (draw) => frames.push(draw);
              performance.now = () => now;
              const line = createTimeline(1, { draw() {}, seconds: () => 6, calm: () => false });
              line.setPace(Number(pace));
              line.act(0);
              while (frames.length && line.at.t < 1) { now += 20; frames.shift()(now); }
              globalThis.requestAnimationFrame = own.raf; performance.now = own.clock;
              return now / 1000;
            }""",
            pace,
        )
    )


def test_nothing_moves_where_nothing_may(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(6)
    bench.button("Next step").click()
    # At once as it is when done: parts and pins are there.
    assert bench.id("marks-told").inner_text() == "pin in: 6"
    assert bench.button("Next step").is_enabled()
    before = bench.glimpse()
    bench.page.wait_for_timeout(600)
    assert differing(before, bench.glimpse()) < 0.02  # only the numbers come to it


def test_the_work_turns_over(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(9)
    before = bench.picture()
    bench.button("Next step").click()
    assert bench.told == "Step 10 of 13. Lower side up."
    assert differing(before, bench.picture()) > 0.05


def test_letters_are_keys(opened: Open) -> None:
    bench = opened("practice_tray")
    press = bench.page.keyboard.press
    for key, step in (("n", 2), ("n", 3), ("b", 2), ("N", 3)):
        press(key)
        assert bench.at_hand == f"step-{step}", key
    press("d")
    assert bench.id("ticks-told").inner_text().startswith("1 of 13 steps done.")
    press("d")
    assert bench.id("ticks-told").inner_text().startswith("0 of 13 steps done.")
    press("s")
    assert bench.page.evaluate("document.activeElement.closest('li').id") == "step-3"
    press("Control+n")
    assert bench.at_hand == "step-3"
    press("p")
    assert bench.button("Stop").is_visible()
    press("p")
    assert bench.button("Play").is_visible()


def test_keys_can_be_switched_off_and_stay_off(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.id("keys-on").uncheck()
    bench.page.keyboard.press("n")
    assert bench.at_hand == "step-1"
    bench.page.reload()
    bench.started()
    assert not bench.id("keys-on").is_checked()
    bench.page.keyboard.press("n")
    assert bench.at_hand == "step-1"


def test_a_phone_shows_bench_and_step_together(opened: Open) -> None:
    bench = opened("practice_tray", PHONE, has_touch=True, is_mobile=True)
    bench.page.locator("#step-9 .opener").tap()
    assert bench.at_hand == "step-9"
    row, playing = bench.page.locator("#step-9 .opener").bounding_box(), bench.id("playing").bounding_box()
    assert row is not None
    assert playing is not None
    assert playing["y"] + playing["height"] <= row["y"] < PHONE[1] - row["height"]
    assert bench.id("view").is_visible()
