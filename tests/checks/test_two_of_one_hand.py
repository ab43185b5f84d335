from pathlib import Path

import numpy as np
import pytest

from tests.checks.expect import FLOOR, built, found_as_marked

PARTS = """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      edge: {from: [20, 80], to: [180, 80], count: 5, size: small, both sides: yes}
  rail:
    shape: SHAPE
    holes:
      foot: {FLATfrom: [10, 10], to: [170, 10], count: 5, size: small}
"""
ANGLE = "angle\n    thickness: 1.0\n    length: 180\n    legs: [20, 20]"
PLATE = "plate\n    thickness: 1.0\n    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]"


def rails(shape: str, words: str, extra: str = "", mark: str = "") -> str:
    """Two rails at y = 80 and y = 20, about the mirror line y = 50, matched on foot 1 and 5."""
    text = FLOOR + PARTS.replace("SHAPE", shape).replace("FLAT", "flat: leg 1, " if shape == ANGLE else "")
    return text + (
        f"{extra}placed:\n"
        f"  rail: {{part: rail, match: {{foot.1: floor.edge.1, foot.5: floor.edge.5}}, {words}}}{mark}\n"
    )


FOUND = "  # expect: two-of-one-hand"
OFF = "  # expect: holes-off"


def test_a_leg_that_stands_on_the_same_side_twice(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, rails(ANGLE, "both sides: same part", mark=FOUND))[0]
    assert finding.message == (
        "rail left and rail right are the same part, but do not lie as mirror images: "
        "leg 1 of rail left has no counterpart on the other side."
    )
    assert (finding.severity, finding.parts) == ("warning", ("rail left", "rail right"))


def test_two_hands_are_mirror_images(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, rails(ANGLE, "both sides: other hand")) == []


def test_a_flat_strap_does_both_sides(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, rails(PLATE, "both sides: same part")) == []


EYE = "      eye: {at: [[30, 80]], size: small, both sides: yes}\n"


@pytest.mark.parametrize(("y", "mark", "off"), [(10, "", ""), (10.2, "", OFF), (10.3, FOUND, OFF)])
def test_a_hole_without_counterpart(tmp_path: Path, y: float, mark: str, off: str) -> None:
    # The rail is 20 wide: a hole at y is 2 (y - 10) from the image of the other's; 0.4 passes, 0.6 does not.
    extra = f"      eye: {{at: [[20, {y}]], size: small}}{off}\n"
    words = "both sides: same part, face: inside"
    text = rails(PLATE, words, extra, mark).replace("  rail:\n", EYE + "  rail:\n", 1)
    for finding in found_as_marked(tmp_path, text):
        assert finding.kind == "holes-off" or finding.holes == ("rail left.eye.1",)


def test_more_may_lie_under_one_of_them(tmp_path: Path) -> None:
    shim = (
        "  shim:\n    shape: plate\n    thickness: 1.0\n    outline: [[0, 0], [200, 0], [200, 30], [0, 30]]\n"
        "    holes:\n      hem: {from: [20, 15], to: [180, 15], count: 5, size: small}\n"
    )
    text = rails(PLATE, "both sides: same part, over: shim", shim).replace(
        "      eye: {at: [[30, 80]], size: small, both sides: yes}\n", ""
    )
    text += "  shim: {part: shim, match: {hem.1: floor.edge left.1, hem.5: floor.edge left.5}}\n"
    assert found_as_marked(tmp_path, text) == []


GUSSET = """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      edge: {at: [[20, 70], [60, 70], [20, 90]], size: small, both sides: yes}
  gusset:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [80, 0], [0, 50]]
    holes:
      eye: {at: [[10, 10], [50, 10], [10, 30]], size: small}
placed:
"""


@pytest.mark.parametrize("holes", [(1, 2), (1, 2, 3)])
def test_a_gusset_is_turned_over_for_the_other_side(tmp_path: Path, holes: tuple[int, ...]) -> None:
    match = ", ".join(f"eye.{k}: floor.edge.{k}" for k in holes)
    entry = f"  gusset: {{part: gusset, match: {{{match}}}, both sides: same part}}\n"
    placed = built(tmp_path, FLOOR + GUSSET + entry).assembly.placed
    assert found_as_marked(tmp_path, FLOOR + GUSSET + entry) == []
    # Each lies with another face down on the floor's 0.8; turned over, z = 0 is the upper face, 1.0 higher.
    levels = {name: placed[name].pose.points(np.zeros(3))[2] for name in ("gusset left", "gusset right")}
    assert levels == pytest.approx({"gusset left": 0.8, "gusset right": 1.8})


def test_a_plate_that_may_not_be_turned_over_is_told_so(tmp_path: Path) -> None:
    entry = "match: {eye.1: floor.edge.1, eye.2: floor.edge.2}, both sides: same part, face: inside}"
    text = FLOOR + GUSSET + f"  gusset: {{part: gusset, {entry}{FOUND}\n"
    text = text.replace(", [10, 30]]", "]").replace(", [20, 90]]", "]").replace("70]", "95]")
    assert "leave out `face`: then the second is turned over" in found_as_marked(tmp_path, text)[0].fix
