"""Taps on the bench, and what is then at hand: parts, holes, layers, sections, what is left out."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PIL import Image
from playwright.sync_api import expect

from tests.page.browser.bench import Bench, differing
from tests.page.browser.browsing import PHONE, Open


def test_a_tap_on_a_part_tells_it(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(7)
    assert bench.tags() == ["4", "5"]
    bench.page.mouse.click(*bench.tag_place(5))
    assert bench.slip == "5 back angle"
    words = bench.id("slip").inner_text()
    assert "Thickness 0.8 mm" in words
    assert "How to tell: the two short angles." in words
    assert bench.page.locator("#slip .places h3").all_inner_texts() == ["Sits on", "On it sit", "Its holes"]
    # The focus stays on the bench, so that its keys go on working.
    assert bench.page.evaluate("document.activeElement.id") == "view"
    bench.page.keyboard.press("Escape")
    assert bench.slip == ""
    assert not bench.id("slip").is_visible()


def test_a_tap_beside_the_work_puts_the_slip_away(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(7)
    bench.tags()
    bench.page.mouse.click(*bench.tag_place(4))
    assert bench.slip == "4 front angle"
    box = bench.id("view").bounding_box()
    assert box is not None
    bench.page.mouse.click(box["x"] + box["width"] - 6, box["y"] + 40)
    assert bench.slip == ""


def test_a_finger_taps_too_and_turning_is_no_tap(opened: Open) -> None:
    bench = opened("practice_tray", PHONE, has_touch=True, is_mobile=True)
    bench.page.locator("#step-7 .opener").tap()
    before = bench.picture()
    x, y = bench.tag_place(4)
    bench.page.touchscreen.tap(x, y)
    assert bench.slip == "4 front angle"
    bench.button("Put away").tap()
    assert bench.slip == ""
    stroke(bench, (x, y), (x - 80, y))
    assert bench.slip == ""
    assert differing(before, bench.picture()) > 0.05


def stroke(bench: Bench, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw one finger over the page."""
    fingers = bench.page.context.new_cdp_session(bench.page)
    for share in range(6):
        at = [
            {"x": a + (b - a) * share / 5, "y": a2 + (b2 - a2) * share / 5}
            for a, b, a2, b2 in [(start[0], end[0], start[1], end[1])]
        ]
        fingers.send(
            "Input.dispatchTouchEvent", {"type": "touchMove" if share else "touchStart", "touchPoints": at}
        )
    fingers.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def test_two_fingers_come_nearer(opened: Open) -> None:
    bench = opened("practice_tray", PHONE, has_touch=True, is_mobile=True)
    before = bench.picture()
    x, y = bench.middle()
    fingers = bench.page.context.new_cdp_session(bench.page)
    for apart in (40, 70, 100, 130):
        at = [{"x": x - apart, "y": y, "id": 0}, {"x": x + apart, "y": y, "id": 1}]
        kind = "touchStart" if apart == 40 else "touchMove"
        fingers.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": at})
    fingers.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    assert bench.slip == ""
    assert metal(bench.picture()) > 1.5 * metal(before)


def test_mouse_and_wheel_turn_shift_and_come_nearer(opened: Open) -> None:
    bench = opened("practice_tray")
    mouse, (x, y) = bench.page.mouse, bench.middle()
    pictures = [bench.picture()]
    for button in ("left", "right"):
        mouse.move(x, y)
        mouse.down(button=button)
        mouse.move(x + 90, y + 30, steps=3)
        mouse.up(button=button)
        pictures.append(bench.picture())
    mouse.wheel(0, -600)
    pictures.append(bench.picture())
    assert all(differing(one, other) > 0.05 for one, other in pairwise(pictures))
    assert bench.slip == ""
    bench.id("view").press("Home")


def test_a_hole_is_tapped_and_its_layers_lead_to_their_parts(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes")
    hole = next(k for k, one in enumerate(bench.work()["findings"]) if one["kind"] == "hole-size-differs")
    bench.page.locator(f"#finding-{hole} .show-it").click()
    bench.picture()
    bench.page.mouse.click(*bench.middle())
    assert bench.slip.startswith("Hole ")
    name = bench.slip.removeprefix("Hole ")
    work = bench.work()
    stack = next(one for one in work["stacks"] if one["name"] == name)
    assert work["findings"][hole]["spot"] == pytest.approx(stack["at"], abs=5)
    assert bench.page.locator("#slip .layers li").all_inner_texts() == stack["lines"]
    drawing = bench.page.locator("#slip figure.section svg")
    box = drawing.bounding_box()
    assert box is not None
    assert box["width"] > 150
    assert drawing.get_attribute("role") == "img"
    line, part = stack["layers"][0]
    bench.page.locator("#slip .layers li").nth(line).get_by_role("button").click()
    assert bench.slip == f"{work['parts'][part]['no']} {work['parts'][part]['name']}"


def test_what_it_sits_on_and_its_holes_are_places_to_go_to(opened: Open) -> None:
    bench = opened("practice_tray")
    work = bench.work()
    bench.page.locator("#parts .opener").nth(2).click()
    assert bench.slip == "3 side angle right"
    assert bench.page.evaluate("document.activeElement.textContent") == "3 side angle right"
    bench.button("1 bottom", within="#slip").click()
    assert bench.slip == "1 bottom"
    sits = bench.page.locator("#slip .places").nth(1).get_by_role("button").all_inner_texts()
    assert sits == [f"{work['parts'][k]['no']} {work['parts'][k]['name']}" for k in work["parts"][0]["under"]]
    holes = bench.page.locator("#slip .places").nth(2)
    assert holes.get_by_role("button").count() == 9  # eight, and how many more there are
    holes.get_by_role("button").last.click()
    assert holes.get_by_role("button").count() == len(work["parts"][0]["stacks"])
    holes.get_by_role("button").first.click()
    assert bench.slip == f"Hole {work['stacks'][work['parts'][0]['stacks'][0]]['name']}"


def test_a_part_leads_to_its_step(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.page.locator("#parts .opener").nth(5).click()
    bench.button("Comes with step 8").click()
    assert bench.at_hand == "step-8"


def metal(picture: Image.Image) -> float:
    """Return the share of the picture that shows parts."""
    counts = picture.getcolors(picture.width * picture.height) or []
    seen = sum(count for count, colour in counts if isinstance(colour, tuple) and is_metal(*colour))
    return seen / (picture.width * picture.height)


def is_metal(red: int, green: int, blue: int) -> bool:
    """Say whether it is the grey or the blue of a part, in daylight colours."""
    return blue >= red - 4 and 90 < green < 238


def test_parts_are_left_out_made_glass_and_shown_again(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(13)
    bench.page.locator("#parts .opener").first.click()
    whole = bench.picture()
    bench.page.get_by_label("left out").check()
    gone = bench.picture()
    bench.page.get_by_label("like glass").check()
    glass = bench.picture()
    assert min(differing(whole, gone), differing(whole, glass), differing(gone, glass)) > 0.02
    assert bench.id("put-by").inner_text() == "Not drawn as it is: bottom"
    bench.button("Put away").click()
    bench.button("Show all as it is").click()
    assert not bench.button("Show all as it is").is_visible()
    bench.page.locator("#parts .opener").first.click()
    assert bench.page.get_by_label("shown", exact=True).is_checked()
    assert differing(whole, bench.picture()) < 0.001


def test_shadings_have_numbers_and_a_key(opened: Open) -> None:
    bench = opened("practice_tray", (920, 1000))
    bench.id("looks").locator("summary").click()
    bench.step(13)
    plain = bench.picture()
    legend = bench.id("legend").locator("li")
    assert legend.all_inner_texts() == ["there", "comes with this step"]
    bench.page.get_by_label("by layer").check()
    layers = bench.picture()
    assert set(bench.tags()) <= {str(part["layer"]) for part in bench.work()["parts"]}
    assert legend.first.inner_text() == "layer 1, under the manufactured heads"
    bench.page.get_by_label("by step").check()
    steps = bench.picture()
    assert "7" in bench.tags()
    assert "Step 7. Place front angle and back angle." in legend.all_inner_texts()
    assert min(differing(plain, layers), differing(layers, steps)) > 0.05
    swatches = [patch.get_attribute("src") for patch in bench.id("legend").locator("img").all()]
    assert len(set(swatches)) == len(swatches)
    bench.page.get_by_label("plain").check()
    assert differing(plain, bench.picture()) < 0.001


def test_the_work_is_pulled_apart_and_put_together(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.id("looks").locator("summary").click()
    bench.step(13)
    bench.id("view").press("Home")
    together = bench.picture()
    bench.id("pull").fill("100")
    expect(bench.id("put-by")).to_have_text("Pulled apart")
    assert differing(together, bench.picture()) > 0.05
    bench.button("Show all as it is").click()
    assert bench.id("pull").input_value() == "0"
    bench.id("view").press("Home")
    assert differing(together, bench.picture()) < 0.001


def test_sides_are_looked_at(opened: Open) -> None:
    bench = opened("practice_tray")
    bench.step(9)
    bench.id("looks").locator("summary").click()
    buttons = bench.id("sides").get_by_role("button")
    assert buttons.count() == 8
    seen = []
    for name in ("upper", "lower", "forward", "left"):
        bench.id("sides").locator(f"button[value={name}]").click()
        seen.append(bench.picture())
    assert all(differing(one, other) > 0.03 for one, other in pairwise(seen))
    bench.button("what faces up").click()
    # The upper side is up in step 9.
    assert differing(seen[0], bench.picture()) < 0.02


def test_keys_turn_shift_and_come_nearer_while_the_bench_has_the_focus(opened: Open) -> None:
    bench = opened("practice_tray")
    view = bench.id("view")
    view.press("Home")
    start = bench.picture()
    for keys in (["ArrowLeft"], ["ArrowUp"], ["Shift+ArrowRight"], ["+", "+"]):
        for key in keys:
            view.press(key)
        assert differing(start, bench.picture()) > 0.02, keys
    view.press("Home")
    assert bench.at_hand == "step-1"
