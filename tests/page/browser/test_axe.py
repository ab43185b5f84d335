"""An automatic check for accessibility finds nothing serious, whatever is open and however it looks."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.page.browser.bench import Bench
from tests.page.browser.browsing import DESKTOP, PHONE, Open


def serious(bench: Bench) -> list[str]:
    """Return what is serious or critical, with where it is."""
    response = Axe().run(bench.page).response
    assert len(response["passes"]) > 15  # it did look
    return [
        f"{one['id']}: {node['target']} {node.get('failureSummary', '')[:300]}"
        for one in response["violations"]
        if one["impact"] in {"serious", "critical"}
        for node in one["nodes"][:4]
    ]


@pytest.mark.parametrize("size", [DESKTOP, PHONE], ids=["desktop", "phone"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_all_open(opened: Open, scheme: str, size: tuple[int, int]) -> None:
    bench = opened("battery_shelf_mistakes", size, color_scheme=scheme)
    assert serious(bench) == []
    bench.id("looks").evaluate("one => one.open = true")
    bench.page.get_by_label("by step").check()
    bench.page.locator("#licences summary").click()
    bench.page.locator("#finding-0 .show-it").click()
    bench.page.locator("#parts .opener").nth(1).click()
    bench.button("left out", within="#slip").count()
    bench.page.get_by_label("left out").check()
    assert serious(bench) == []
    bench.page.locator("#slip .places").last.get_by_role("button").first.click()
    assert bench.slip.startswith("Hole ")
    bench.step(2)
    bench.page.get_by_label("Step 2 is done").check()
    assert serious(bench) == []


def test_without_3d(opened: Open) -> None:
    bench = opened("practice_tray", before="HTMLCanvasElement.prototype.getContext = () => null;")
    assert bench.id("no-bench").is_visible()
    assert serious(bench) == []
