from pathlib import Path

import pytest

from tests.checks.expect import MODEL, built, found_as_marked
from tests.checks.test_gap_in_stack import over_rail
from tests.checks.test_holes_off import PLACED, shifted

MODEL_SAYS = "measured to: 1 mm  # expect: measured-loosely\nsizes:"
LOOSE = "  rail:\n    measured to: 1 mm  # expect: measured-loosely\n"


def loosely(by: float, mark: str = "") -> str:
    return shifted(by, mark).replace("  rail:\n", LOOSE, 1)


def test_holes_may_be_off_by_as_much_besides(tmp_path: Path) -> None:
    # 3.3 - 3.2 leaves 0.1; with 1 mm besides 1.09 passes and 1.11 does not.
    note = found_as_marked(tmp_path, loosely(1.09))[0]
    assert note.message == "rail was measured to 1 mm."
    assert (note.severity, note.parts) == ("note", ("rail",))
    found_as_marked(tmp_path, loosely(1.11, "  # expect: holes-off"))


def fit(ends: float, mark: str = "") -> str:
    """A rail whose matched holes are 2 x ``ends`` too far apart."""
    text = MODEL.replace("to: [170, 10]", f"to: [{170 + 2 * ends}, 10]").replace("  rail:\n", LOOSE, 1)
    return text + (
        f"placed:\n  rail:\n    part: rail\n    match: {{foot.1: floor.mid.1, foot.5: floor.mid.5}}{mark}\n"
    )


def test_a_fit_may_be_off_by_as_much_besides(tmp_path: Path) -> None:
    found_as_marked(tmp_path, fit(1.05))
    found_as_marked(tmp_path, fit(1.2, "  # expect: holes-off"))


BLOCK = "  block: {{part: block, at: [150, 10, {}], x along: forward, y along: left}}{}\n"


@pytest.mark.parametrize(("deep", "mark"), [(1.0, ""), (1.1, "  # expect: parts-interfere")])
def test_parts_may_meet_by_as_much_besides(tmp_path: Path, deep: float, mark: str) -> None:
    # The floor's upper face is at z = 8; the limit is 0.05 + 1.
    text = MODEL.replace("thickness: 0.8", "thickness: 8").replace("sizes:", MODEL_SAYS)
    text += "  block: {shape: block, length: 10, width: 10, height: 30}\n"
    block = f"  block: {{part: block, at: [150, 10, {8 - deep}], x along: forward, y along: left}}{mark}\n"
    found_as_marked(tmp_path, text + PLACED + block)


@pytest.mark.parametrize(("deep", "mark"), [(1.0, ""), (1.1, "  # expect: parts-interfere")])
def test_stock_is_as_loose_as_the_model(tmp_path: Path, deep: float, mark: str) -> None:
    # The angle's leg stands 10 from the row, at y = 60; the block, which says it is exact, goes into it.
    text = MODEL.replace("sizes:", MODEL_SAYS) + (
        "  block: {shape: block, length: 10, width: 10, height: 10, measured to: 0.001}\n"
        "stock:\n  edge: {shape: angle, thickness: 3, legs: [20, 20], row in: 10, ends: 8}\n"
        "placed:\n  edge: {stock: edge, along: floor.mid, standing leg: left}"
        f"{mark}\n  block: {{part: block, at: [90, {60 - deep}, 12], x along: forward, y along: left}}\n"
    )
    found_as_marked(tmp_path, text)


@pytest.mark.parametrize(("rail", "mark"), [(1.0, ""), (1.1, "  # expect: gap-in-stack")])
def test_a_gap_may_be_as_wide_besides(tmp_path: Path, rail: float, mark: str) -> None:
    # A strap too thick to bend lies on the rail; beside it the gap is as high as the rail is thick.
    found_as_marked(tmp_path, over_rail(2.0, rail, mark).replace("sizes:", MODEL_SAYS))


def test_model_and_parts_are_told_once(tmp_path: Path) -> None:
    text = MODEL.replace("sizes:", MODEL_SAYS.replace("1 mm", "0.5"))
    text = text.replace("  rail:\n", "  rail:\n    measured to: 3 mm\n", 1)
    note = found_as_marked(tmp_path, text + PLACED)[0]
    assert note.message == "The parts were measured to 0.5 mm, and rail loosely too."
    assert "up to 3 mm more" in note.why
    assert [place.message for place in note.related] == ["rail: to 3 mm"]


def test_more_than_10_mm_is_no_measure(tmp_path: Path) -> None:
    text = MODEL.replace("sizes:", "measured to: 11\nsizes:", 1) + PLACED
    noticed = built(tmp_path, text).noticed
    assert [(finding.kind, finding.at.line) for finding in noticed] == [("bad-value", 6)]
