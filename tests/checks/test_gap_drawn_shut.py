from pathlib import Path

import pytest

from tests.checks.expect import found_as_marked
from tests.checks.test_gap_in_stack import over_rail


def test_half_a_millimetre_is_always_drawn_shut(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, over_rail(2.0, 0.5, "  # expect: gap-drawn-shut"))[0]
    assert finding.figure == pytest.approx(0.5)
    assert finding.severity == "note"
    assert finding.message == "strap.eye 2: a gap of 0.5 mm between strap and floor is drawn shut."


def test_more_than_that_is_not_for_a_thick_strap(tmp_path: Path) -> None:
    assert len(found_as_marked(tmp_path, over_rail(2.0, 0.6, "  # expect: gap-in-stack"))) == 1
