"""Fingers on the bench, as a tablet tells of them: one turns, two shift and go nearer; a tap is a tap."""

from __future__ import annotations

import math
from typing import Any

import pytest

from tests.page.browser.bench import Bench
from tests.page.browser.browsing import TABLET, Open

HALF = math.tan(math.radians(12))
"""Of the picture's height, at a distance of 1: its opening is 24 degrees."""

Finger = tuple[float, float]


def view(bench: Bench) -> dict[str, Any]:
    """Where the eye is, as the page keeps it when it is left."""
    kept: dict[str, Any] = bench.page.evaluate(
        """() => {
          dispatchEvent(new Event("pagehide"));
          const key = Object.keys(sessionStorage).find((name) => name.startsWith("seqviz place"));
          return JSON.parse(sessionStorage.getItem(key)).view;
        }"""
    )
    return kept


def stroke(bench: Bench, before: list[Finger], after: list[Finger], *, strides: int = 4) -> None:
    """Put fingers down, move them, and lift them; places are in pixels from the middle of the bench."""
    session = bench.page.context.new_cdp_session(bench.page)
    x, y = bench.middle()

    def told(kind: str, fingers: list[Finger]) -> None:
        points = [{"x": x + right, "y": y + down, "id": k} for k, (right, down) in enumerate(fingers)]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    told("touchStart", before)
    for stride in range(1, strides + 1):
        share = stride / strides
        there = [
            (a + share * (c - a), b + share * (d - b)) for (a, b), (c, d) in zip(before, after, strict=True)
        ]
        told("touchMove", there)
    told("touchEnd", [])
    session.detach()


@pytest.fixture
def bench(opened: Open) -> Bench:
    bench = opened("practice_tray", TABLET, has_touch=True, is_mobile=True)
    bench.step(9)
    return bench


def height(bench: Bench) -> float:
    box = bench.id("view").bounding_box()
    assert box is not None
    return box["height"]


def test_one_finger_turns(bench: Bench) -> None:
    before = view(bench)
    stroke(bench, [(-50, 0)], [(50, -40)])
    after = view(bench)
    # A stroke as long as the picture is high turns by 200 degrees; the work follows the finger.
    assert after["round"] - before["round"] == pytest.approx(-100 / height(bench) * 200, abs=0.2)
    assert after["high"] - before["high"] == pytest.approx(-40 / height(bench) * 200, abs=0.2)
    assert (after["far"], after["spot"]) == (before["far"], before["spot"])
    assert bench.slip == ""


def test_two_fingers_that_part_go_nearer(bench: Bench) -> None:
    before = view(bench)
    stroke(bench, [(-40, 0), (40, 0)], [(-80, 0), (80, 0)])
    after = view(bench)
    # 80 apart become 160: half as far, and what is between the fingers stays there.
    assert after["far"] == pytest.approx(before["far"] / 2, rel=0.01)
    assert after["spot"] == pytest.approx(before["spot"], abs=0.01 * before["far"])
    assert (after["round"], after["high"]) == (before["round"], before["high"])
    stroke(bench, [(-80, 0), (80, 0)], [(-40, 0), (40, 0)])
    assert view(bench)["far"] == pytest.approx(before["far"], rel=0.01)
    assert bench.slip == ""


def test_two_fingers_side_by_side_shift(bench: Bench) -> None:
    before = view(bench)
    stroke(bench, [(-40, 0), (40, 0)], [(20, 0), (100, 0)])
    after = view(bench)
    # The work goes 60 pixels to the right with the fingers, the eye so much to the left.
    right = [math.cos(math.radians(before["round"])), math.sin(math.radians(before["round"])), 0]
    mm = 60 / height(bench) * 2 * HALF * before["far"]
    wanted = [value - mm * way for value, way in zip(before["spot"], right, strict=True)]
    assert after["spot"] == pytest.approx(wanted, abs=0.03 * mm)
    assert after["far"] == pytest.approx(before["far"], rel=0.01)
    assert bench.slip == ""


def test_a_finger_that_stays_is_a_tap(bench: Bench) -> None:
    stroke(bench, [(0, 0)], [(3, 3)])
    assert bench.slip != ""


def test_the_page_under_the_fingers_stays(bench: Bench) -> None:
    before = bench.page.evaluate("scrollY")
    stroke(bench, [(0, 60)], [(0, -120)])
    assert bench.page.evaluate("scrollY") == before
    assert bench.page.evaluate("visualViewport.scale") == 1
