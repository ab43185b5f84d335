"""What was found: going to the place, and what is shown there."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from tests.page.browser.bench import Bench, differing
from tests.page.browser.browsing import PHONE, Open


def first(bench: Bench, kind: str) -> int:
    """Return the number of the first finding of a kind."""
    return next(k for k, one in enumerate(bench.work()["findings"]) if one["kind"] == kind)


def test_a_tap_flies_to_the_place_and_shows_the_tool_and_what_bars_it(opened: Open) -> None:
    bench = opened("float_bay_mistakes")
    bench.picture()
    found = bench.work()["findings"]
    index = next(k for k, one in enumerate(found) if one["tool"] is not None and one["blockers"])
    step = found[index]["step"]
    bench.step(step)
    before = bench.picture()
    bench.page.locator(f"#finding-{index} .show-it").click()
    assert bench.at_hand == f"step-{step}"
    shown = bench.picture()
    assert differing(before, shown) > 0.1
    expect(bench.page.locator(f"#finding-{index}")).to_have_class(re.compile("at-hand"))
    assert bench.page.evaluate("document.activeElement.id") == f"finding-{index}"
    # The alarm colour of what bars it stands in the picture, and its number.
    assert reddish(shown) > 0.002
    assert reddish(before) < reddish(shown) / 4
    # Once more: what is shown ends, the step stays.
    bench.page.keyboard.press("Escape")
    assert not bench.page.locator("#findings > .at-hand").count()
    assert reddish(bench.picture()) < reddish(shown) / 4
    assert bench.at_hand == f"step-{step}"


def reddish(picture: object) -> float:
    """Return the share of the picture in the colours of alarm."""
    from PIL import Image

    assert isinstance(picture, Image.Image)
    counts = picture.getcolors(picture.width * picture.height) or []
    red = sum(count for count, (r, g, b) in counts if r > g + 45 and r > b + 70)  # type: ignore[misc]
    return red / (picture.width * picture.height)


def test_the_place_is_in_the_middle_and_its_hole_can_be_tapped(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes")
    index = first(bench, "tool-blocked")
    finding = bench.work()["findings"][index]
    bench.page.locator(f"#finding-{index} .show-it").click()
    bench.picture()
    bench.page.mouse.click(*bench.middle())
    assert bench.slip != ""
    names = {bench.work()["stacks"][k]["name"] for k in finding["stacks"]}
    if bench.slip.startswith("Hole "):
        assert bench.slip.removeprefix("Hole ") in names


def test_parts_of_a_finding_lead_to_them_and_say_which_is_in_the_way(opened: Open) -> None:
    bench = opened("float_bay_mistakes")
    found, parts = bench.work()["findings"], bench.work()["parts"]
    index = next(k for k, one in enumerate(found) if one["blockers"])
    words = bench.page.locator(f"#finding-{index} .places li button").all_inner_texts()
    for part in found[index]["blockers"][:2]:
        assert f"{parts[part]['no']} {parts[part]['name']} (in the way)" in words
    bench.page.locator(f"#finding-{index} .places li button").last.click()
    assert bench.slip == words[-1].removesuffix(" (in the way)")


def test_holes_of_a_finding_lead_to_their_layers(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes")
    index = first(bench, "tool-blocked")
    work = bench.work()
    name = work["stacks"][work["findings"][index]["stacks"][0]]["name"]
    bench.page.locator(f"#finding-{index}").get_by_role("button", name=f"Hole {name}", exact=True).click()
    assert bench.slip == f"Hole {name}"


def test_a_step_names_what_is_to_be_looked_at_first(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes")
    index = first(bench, "tool-blocked")
    finding = bench.work()["findings"][index]
    bench.step(finding["step"])
    link = bench.page.locator(f"#step-{finding['step']} .places").first.get_by_role("button")
    assert "Look at first:" in bench.page.locator(f"#step-{finding['step']} .places").first.inner_text()
    link.filter(has_text=finding["message"][:40]).first.click()
    expect(bench.page.locator("#findings > .at-hand")).to_have_id(f"finding-{index}")


def test_one_after_the_other_by_key(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes")
    found = bench.work()["findings"]
    for index in (0, 1):
        bench.page.keyboard.press("f")
        expect(bench.page.locator("#findings > .at-hand")).to_have_id(f"finding-{index}")
    # Round to the one that belongs to no step: it is shown on the whole structure.
    alone = next(k for k, one in enumerate(found) if not one["step"])
    bench.page.evaluate(
        "(count) => { for (let k = 0; k < count; k++)"
        " document.dispatchEvent(new KeyboardEvent('keydown', { key: 'f', bubbles: true })); }",
        len(found) - 1 + alone,
    )
    expect(bench.page.locator("#findings > .at-hand")).to_have_id(f"finding-{alone}")
    assert bench.told == "The whole structure."


@pytest.mark.parametrize("stem", ["battery_shelf_mistakes", "float_bay_mistakes"])
def test_every_finding_can_be_shown(opened: Open, stem: str) -> None:
    bench = opened(stem)
    for one in bench.page.locator(".show-it").all():
        one.evaluate("button => button.click()")
        bench.page.evaluate(
            "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
        )
    assert bench.page.locator("#findings > .at-hand").count() == 1


def test_on_a_phone_the_finding_stands_under_the_bench(opened: Open) -> None:
    bench = opened("battery_shelf_mistakes", PHONE, has_touch=True, is_mobile=True)
    index = first(bench, "tool-blocked")
    bench.page.locator(f"#finding-{index} .show-it").tap()
    heading = bench.page.locator(f"#finding-{index} h3").bounding_box()
    playing = bench.id("playing").bounding_box()
    assert heading is not None
    assert playing is not None
    assert playing["y"] + playing["height"] <= heading["y"] < PHONE[1] - 60
