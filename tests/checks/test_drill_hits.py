from pathlib import Path

import pytest

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import with_parts

# A shelf under the floor, over x = 0 to 110: 1.5 thick, its upper side `high` mm below the floor's lower one.
SHELF = with_parts(
    "  shelf: {shape: bar, length: 110, width: 60, thickness: 1.5}\n",
    "  shelf: {part: shelf, at: [0, 20, LEVEL], x along: forward, y along: left}\n",
)


@pytest.mark.parametrize(("high", "mark"), [(14.9, "  # expect: drill-hits"), (15.0, "")])
def test_what_stands_close_behind(tmp_path: Path, high: float, mark: str) -> None:
    model = SHELF.replace("LEVEL", f"{-1.5 - high}")
    steps = f"  - place: [floor, rail, shelf]\n  - drill: rail.foot{mark}\n"
    for finding in found_as_marked(tmp_path, model, STEPS + steps):
        assert finding.holes == ("rail.foot.1", "rail.foot.2", "rail.foot.3")
        assert finding.message == (
            "rail.foot 1-3: shelf stands 14.9 mm behind these holes where the drill of step 2 comes out."
        )
        assert (finding.steps, finding.parts) == ((2,), ("shelf", "rail", "floor"))
        assert [place.message for place in finding.related] == ["Step 1 places shelf."]


def test_before_it_comes_and_from_the_other_side(tmp_path: Path) -> None:
    model = SHELF.replace("LEVEL", "-8")
    first = "  - place: [floor, rail]\n  - drill: rail.foot\n  - place: shelf\n"
    assert found_as_marked(tmp_path, model, STEPS + first) == []
    # Turned over the drill comes out at the rail, where nothing stands.
    turned = """\
  - place: [floor, rail, shelf]
    pins: rail.foot.4-5
  - turn over: sideways
  - drill: rail.foot.1-3
"""
    assert found_as_marked(tmp_path, model, STEPS + turned) == []
