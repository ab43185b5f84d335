from pathlib import Path

import pytest

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import with_parts

BOX = with_parts(
    """\
  slug: {shape: block, length: 10, width: 10, height: 10}
  long wall: {shape: block, length: 40, width: 5, height: 20}
  short wall: {shape: block, length: 5, width: 30, height: 20}
  lid: {shape: plate, thickness: THICK, outline: [[0, 0], [40, 0], [40, 40], [0, 40]]}
""",
    # Four walls stand on the floor round x = 5 to 35, y = 0 to 30; the slug stands in the middle.
    """\
  wall a: {part: long wall, at: [0, -5, 0.8], x along: forward, y along: left}
  wall b: {part: long wall, at: [0, 30, 0.8], x along: forward, y along: left}
  wall c: {part: short wall, at: [0, 0, 0.8], x along: forward, y along: left}
  wall d: {part: short wall, at: [35, 0, 0.8], x along: forward, y along: left}
  lid: {part: lid, at: [0, -5, 20.8], x along: forward, y along: left}
  slug: {part: slug, at: [15, 10, 0.8], x along: forward, y along: left}
""",
)
SHUT = """\
  - place: [floor, wall a, wall b, wall c, wall d]
  - place: lid
  - place: slug  # expect: no-way-in
"""


@pytest.mark.parametrize(("thick", "severity"), [("1.0", "warning"), ("1.1", "error")])
def test_a_thin_lid_could_be_sprung_a_thicker_one_not(tmp_path: Path, thick: str, severity: str) -> None:
    finding = found_as_marked(tmp_path, BOX.replace("THICK", thick), STEPS + SHUT)[0]
    assert finding.severity == severity
    assert ("sprung apart" in finding.why) == (severity == "warning")
    assert finding.message == "slug cannot be brought in at step 3: lid stands in the way."
    assert finding.parts == ("slug", "lid")
    assert [place.message for place in finding.related] == ["Step 2 places lid."]


def test_before_the_lid_there_is_a_way(tmp_path: Path) -> None:
    steps = "  - place: [floor, wall a, wall b, wall c, wall d]\n  - place: slug\n  - place: lid\n"
    assert found_as_marked(tmp_path, BOX.replace("THICK", "1.2"), STEPS + steps) == []


def test_a_thin_part_could_be_sprung_in(tmp_path: Path) -> None:
    thin = BOX.replace("THICK", "1.2").replace(
        "slug: {shape: block, length: 10, width: 10, height: 10}",
        "slug: {shape: plate, thickness: 0.8, outline: [[0, 0], [10, 0], [10, 10], [0, 10]]}",
    )
    assert found_as_marked(tmp_path, thin, STEPS + SHUT)[0].severity == "warning"


def test_a_sub_assembly_is_one_piece(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, wall a, wall b, wall c, wall d]
  - place: lid
  - apart: core
    steps:
      - place: slug
  - place: core  # expect: no-way-in
"""
    finding = found_as_marked(tmp_path, BOX.replace("THICK", "1.2"), STEPS + steps)[0]
    assert finding.message == "core cannot be brought in at step 4: lid stands in the way."
    assert finding.fix == "Place core before lid."
    assert finding.parts == ("slug", "lid")


def test_what_a_sub_assembly_brought_is_named_with_it(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, wall a, wall b, wall c, wall d]
  - apart: cover
    steps:
      - place: lid
  - place: cover
  - place: slug  # expect: no-way-in
"""
    finding = found_as_marked(tmp_path, BOX.replace("THICK", "1.2"), STEPS + steps)[0]
    assert [(r.at.line, r.message) for r in finding.related] == [(13, "Step 3 places cover, with lid in it.")]


def test_the_way_that_was_closed_last_is_told_though_more_close_it(tmp_path: Path) -> None:
    # Upwards lie two lids, downwards the floor alone: but the slug could never have come through the floor.
    model = BOX.replace("THICK", "1.2") + (
        "  second lid: {part: lid, at: [0, -5, 22], x along: forward, y along: left}\n"
    )
    steps = SHUT.replace("place: lid\n", "place: [lid, second lid]\n")
    finding = found_as_marked(tmp_path, model, STEPS + steps)[0]
    assert finding.message == "slug cannot be brought in at step 3: lid and second lid stand in the way."
    assert finding.fix == "Place slug before lid and second lid."
    assert finding.severity == "error"
