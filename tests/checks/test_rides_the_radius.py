from pathlib import Path

import pytest

from tests.checks.expect import FLOOR, found_as_marked

TEXT = """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      mid: {from: [20, 50], to: [180, 50], count: 5, size: small}
  rail:
    shape: angle
    thickness: 1.0
    length: 180
    legs: [20, 25]
    bend radius: 2
    holes:
      foot: {flat: leg 1, from: [10, 10], to: [170, 10], count: 5, size: small}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, EDGE], [100, EDGE], [100, 20], [0, 20]]
    holes:
      eye: {from: [10, 10], to: [90, 10], count: 3, size: small}
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
  strap: {part: strap, match: {eye.1: rail.foot.2, eye.3: rail.foot.4}, face: FACE}MARK
"""


def strapped(edge: float, mark: str = "", face: str = "inside") -> str:
    """A strap inside the rail; hole and hole lie at y = 10 from the corner, so its edge is at ``edge``."""
    text = FLOOR + TEXT.replace("EDGE", str(edge)).replace("FACE", face).replace("MARK", mark)
    # The holes are written from the floor's side up; the strap lies on the leg's inside.
    return text.replace("face: inside", "side: inside")


def test_an_edge_that_ends_at_the_tangent_is_clear(tmp_path: Path) -> None:
    # The bend takes 2 + 1 = 3 mm from the corner.
    assert found_as_marked(tmp_path, strapped(3.0)) == []


def test_an_edge_in_the_bend_stands_at_the_part_farther_out(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, strapped(1.5, "  # expect: rides-the-radius"))[0]
    assert finding.parts == ("strap", "rail")
    # The bend's middle is at (3, 3), 2 from the inside. The lower corner of the edge at (1.5, 1) is
    # sqrt(1.5^2 + 2^2) = 2.5 from it: 0.5 past the inside, and the facets stand at most 0.01 before it.
    assert finding.figure == pytest.approx(0.5, abs=0.15)
    assert finding.message.startswith("The face of strap reaches into the bend of rail, ")
    assert (finding.severity, finding.holes) == ("warning", ())


def test_a_hairbreadth_is_touching(tmp_path: Path) -> None:
    # 2 - sqrt(4 - 0.3^2) = 0.023 is less than 0.05; 2 - sqrt(4 - 0.6^2) = 0.092 is more.
    assert found_as_marked(tmp_path, strapped(2.7)) == []
    assert len(found_as_marked(tmp_path, strapped(2.4, "  # expect: rides-the-radius"))) == 1


def test_an_edge_in_the_standing_leg_interferes(tmp_path: Path) -> None:
    assert len(found_as_marked(tmp_path, strapped(0.5, "  # expect: parts-interfere"))) == 1
