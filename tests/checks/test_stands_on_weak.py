from pathlib import Path

import pytest

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED

PINNED = "  - place: [floor, rail, strap]\n    pins: all\n"


@pytest.mark.parametrize(("thick", "mark"), [("0.8", "  # expect: stands-on-weak"), ("1.0", "")])
def test_on_the_edge_of_a_thin_sheet(tmp_path: Path, thick: str, mark: str) -> None:
    model = STRAPPED.replace("thickness: 0.8", f"thickness: {thick}")
    steps = PINNED + f"  - turn over: {{up: left side}}{mark}\n"
    for finding in found_as_marked(tmp_path, model, STEPS + steps):
        assert (finding.steps, finding.parts) == ((2,), ("floor",))
        assert finding.message == "After the turn in step 2 the work stands on the edge of floor alone."
        assert "bench: blocks or bench: trestles in step 2" in finding.fix


@pytest.mark.parametrize("turn", ["{up: left side, bench: blocks}", "sideways"])
def test_on_blocks_or_on_its_face(tmp_path: Path, turn: str) -> None:
    assert found_as_marked(tmp_path, STRAPPED, STEPS + PINNED + f"  - turn over: {turn}\n") == []
