"""Playing the order of work: by the list, the buttons, the slider, the keys and the address."""

from __future__ import annotations

from tests.page.browser.conftest import Open


def test_it_opens_at_the_first_step(opened: Open) -> None:
    bench = opened("practice_tray")
    assert bench.at_hand == "step-1"
    assert bench.told.startswith("Step 1 of 13.")
