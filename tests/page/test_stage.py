"""The bench in 3D: driven as others drive it, and looked at by its pixels."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.page.bench import Bench, opened
from tests.page.work import work


@pytest.fixture(scope="module")
def started(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    with opened(browser, tmp_path_factory.mktemp("stage"), reduced_motion="reduce") as bench:
        bench.run("try/driving", "window.drive = m; window.stage = await m.start(given);", work())
        yield bench


@pytest.fixture
def bench(started: Bench) -> Iterator[Bench]:
    started.page.evaluate("drive.reset()")
    yield started
    assert started.mistakes == []


def drawn(bench: Bench, change: str) -> Any:
    """Return the colours of the picture after a change."""
    return bench.page.evaluate(f"async () => {{ {change}; await drive.still(); return drive.colours(); }}")


def tags(bench: Bench) -> list[str]:
    """Return the numbers that lie on the picture, once it stands still."""
    bench.page.evaluate("drive.still()")
    return sorted(bench.page.locator(".tag").all_inner_texts())


def test_nothing_is_drawn_while_nothing_changes(bench: Bench) -> None:
    before = bench.page.evaluate("drive.drawnSoFar()")
    bench.page.wait_for_timeout(700)
    assert before > 0
    assert bench.page.evaluate("drive.drawnSoFar()") == before


def test_what_is_new_is_blue_with_its_number_and_what_was_there_is_not(bench: Bench) -> None:
    assert drawn(bench, "stage.show(3, 1)")["blue"] > 100
    assert tags(bench) == ["3"]
    assert drawn(bench, "stage.show(4, 1)")["blue"] == 0
    assert tags(bench) == []


def test_by_layer_each_part_that_is_seen_has_its_number(bench: Bench) -> None:
    drawn(bench, "stage.show(3, 1); window.key = stage.setShading('layer')")
    # layers: sheet 2, bar 1; the cap is in no stack
    assert tags(bench) == ["1", "2"]
    assert [line["number"] for line in bench.page.evaluate("key")] == ["", "1", "2"]
    assert all(line["swatch"].startswith("data:image/png") for line in bench.page.evaluate("key"))


def test_a_hidden_part_is_gone_until_all_are_shown(bench: Bench) -> None:
    shown = drawn(bench, "stage.show(3, 1)")["blue"]
    assert drawn(bench, "stage.setHidden(2, 'hidden')")["blue"] == 0
    assert bench.page.evaluate("stage.hidden(2)") == "hidden"
    assert drawn(bench, "stage.showAll()")["blue"] == pytest.approx(shown, rel=0.05)
    assert bench.page.evaluate("stage.hidden(2)") == "shown"


def test_a_finding_shows_what_is_in_the_way_until_it_is_put_away(bench: Bench) -> None:
    assert drawn(bench, "stage.showConflict(0)")["orange"] > 500
    assert bench.page.evaluate("stage.now()") == {"step": 3, "t": 1}
    assert drawn(bench, "stage.showConflict(null)")["orange"] < 300


def test_a_tap_tells_part_and_hole(bench: Bench) -> None:
    drawn(bench, "stage.show(2, 1); stage.viewFromUp()")
    # Forward is up in the picture, and the middle of the work (100, 50) in its middle.
    assert bench.page.evaluate("drive.tap(320, 240)")["part"] == 0
    assert bench.page.evaluate("drive.tap(5, 5)") == {"part": None, "stack": None, "point": None}
    drawn(bench, "stage.flyTo({ spot: [180, 10, 12], radius: 20, from: [0, 0, 1] })")
    pick = bench.page.evaluate("drive.tap(320, 240)")
    assert (pick["part"], pick["stack"]) == (1, 1)
    assert pick["point"] == pytest.approx([180, 10, 12], abs=2.5) or pick["point"][2] == pytest.approx(
        12, abs=0.1
    )


def test_a_stroke_turns_and_does_not_tap(bench: Bench) -> None:
    bench.page.mouse.move(200, 200)
    bench.page.mouse.down()
    bench.page.mouse.move(300, 220, steps=3)
    bench.page.mouse.up()
    assert bench.page.evaluate("drive.picks") == []


def test_the_picture_comes_back_when_the_graphics_do(bench: Bench) -> None:
    shown = drawn(bench, "stage.show(3, 1)")["blue"]
    assert bench.page.evaluate("drive.loseAndRegain()") == ["lost", "back"]
    assert drawn(bench, "stage.show(3, 1)")["blue"] == pytest.approx(shown, rel=0.05)
    # The browser and the library each say in the console that it was lost.
    bench.mistakes[:] = [one for one in bench.mistakes if "context" not in one.lower()]
