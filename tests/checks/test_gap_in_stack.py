from pathlib import Path

import pytest

from tests.checks.expect import MODEL, found_as_marked

STRAP = """\
  strap:
    shape: plate
    thickness: THICK
    outline: [[0, 0], [20, 0], [20, 50], [0, 50]]
    holes:
      eye: {at: [[10, 10], [10, 40]], size: small}
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
  strap: {part: strap, match: {eye.1: rail.foot.3, eye.2: floor.far.1}, over: rail}MARK
"""


def over_rail(thick: float, rail: float, mark: str = "") -> str:
    """A strap on the rail at y = 50 and on the floor at y = 80; the rail's edge is at y = 60, 20 away."""
    model = MODEL.replace("  rail:\n", "      far: {at: [[100, 80]], size: small}\n  rail:\n")
    model = model.replace("thickness: 1.6", f"thickness: {rail}")
    return model + STRAP.replace("THICK", str(thick)).replace("MARK", mark)


def test_a_thick_strap_over_a_step_needs_a_shim(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, over_rail(2.0, 1.6, "  # expect: gap-in-stack"))[0]
    assert finding.figure == pytest.approx(1.6)
    assert (finding.severity, finding.parts, finding.holes) == (
        "warning",
        ("strap", "floor"),
        ("strap.eye.2",),
    )
    assert (
        finding.message
        == "strap.eye 2: strap stands 1.6 mm off floor; it needs a joggle or a shim of 1.6 mm."
    )
    # From the rail's edge at y = 60 to the hole at y = 80.
    assert finding.why.startswith("strap lies on rail, whose edge is 20 mm from the nearest of these holes.")


def test_a_thin_strap_bends_by_a_twentieth_of_the_way(tmp_path: Path) -> None:
    # 20 / 20 = 1.0 mm: a step of 1.0 is drawn shut, one of 1.1 is not.
    told = found_as_marked(tmp_path, over_rail(1.0, 1.0, "  # expect: gap-drawn-shut"))
    assert told[0].severity == "note"
    assert found_as_marked(tmp_path, over_rail(1.0, 1.1, "  # expect: gap-in-stack"))[
        0
    ].figure == pytest.approx(1.1)
