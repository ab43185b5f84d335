from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked

STRAP = """\
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [100, 0], [100, 20], [0, 20]]
    holes:
      eye: {at: [[10, 10], [90, 10]], size: small}
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
  strap: {part: strap, match: {eye.1: rail.foot.2, eye.2: rail.foot.4}}  # expect: layer-undrilled
"""


def test_a_part_without_a_hole_over_holes_stands_at_its_entry(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, MODEL + STRAP)[0]
    assert finding.holes == ("rail.foot.3",)
    assert finding.parts == ("strap", "rail", "floor")
    assert finding.message == "rail.foot 3: strap is solid there and has no hole for the fastener."


def test_one_finding_for_the_holes_of_a_row(tmp_path: Path) -> None:
    # A strap of 180 over all five holes, with holes over the first and the last only.
    text = STRAP.replace("100", "180").replace("90, 10", "170, 10")
    text = text.replace("rail.foot.2", "rail.foot.1").replace("rail.foot.4", "rail.foot.5")
    finding = found_as_marked(tmp_path, MODEL + text)[0]
    assert finding.holes == ("rail.foot.2", "rail.foot.3", "rail.foot.4")


def test_with_the_hole_there_is_nothing(tmp_path: Path) -> None:
    text = STRAP.replace("[90, 10]]", "[90, 10], [50, 10]]").replace("  # expect: layer-undrilled", "")
    assert found_as_marked(tmp_path, MODEL + text) == []
