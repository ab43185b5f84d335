"""Overlapping parts whose lay-up nobody said."""

from pathlib import Path

import pytest

from seqviz.assembly.gaps import gaps
from tests.assembly.trial import FLOOR, RAIL, kinds, placed

ON_RAIL = """
  tie:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [150, 0], [150, 8], [0, 8]]
    holes:
      rim: {{at: [[10, 4], [140, 4]], diameter: 3.3}}
placed:
  rail: {{part: rail, match: {{foot.1: floor.right.1, foot.3: floor.right.3}}}}
  tie: {{part: tie, match: {{rim.1: rail.foot.1, rim.2: rail.foot.2}}{more}}}
"""


@pytest.mark.parametrize(
    ("more", "expected", "height"),
    [
        # The outside of the foot lies on the floor: there is no room for the tie between the two.
        ("", ["say-over-or-under"], None),
        (", over: rail", ["say-over-or-under"], None),
        # Inside, on top of the foot: floor 0.8 and rail 1.0.
        (", side: inside", [], 1.8),
        # Said to be beyond the floor, it goes there: down to z = -0.8, its own thickness under the floor.
        (", over: floor", [], 0.0),
    ],
)
def test_the_covered_face_of_a_rail(
    tmp_path: Path, more: str, expected: list[str], height: float | None
) -> None:
    assembly, findings = placed(tmp_path, FLOOR + RAIL + ON_RAIL.format(more=more))
    assert kinds(findings) == expected
    assert assembly.muted == (frozenset({"tie"}) if expected else frozenset())
    if height is not None:
        assert assembly.placed["tie"].pose.translation[2] == pytest.approx(height)
    else:
        assert "say `side: inside`" in findings[0].fix


CROSSED = """
  doubler:
    shape: plate
    thickness: {thickness}
    outline: [[0, 0], [20, 0], [20, 60], [0, 60]]
    holes:
      mid: {{at: [[10, 10], [10, 50]], diameter: 3.3}}
  cross:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [16, 0], [16, 190], [0, 190]]
    holes:
      row: {{at: [[8, 5], [8, 85], [8, 125], [8, 185]], diameter: 3.3}}
placed:
  rail: {{part: rail, match: {{foot.1: floor.right.1, foot.3: floor.right.3}}}}
  doubler: {{part: doubler, match: {{mid.1: floor.station.2, mid.2: floor.station.3}}{lower}}}
  cross: {{part: cross, match: {{row.1: floor.station.1, row.4: floor.station.4}}, over: {over}}}
"""

STATION = "      station: {at: [[150, 10], [150, 90], [150, 130], [150, 190]], diameter: 3.3}\n      trio:"


@pytest.mark.parametrize("thickness", [0.5, 1.0, 1.2])
@pytest.mark.parametrize(
    ("over", "lower", "expected"),
    [
        # Riveted together from one side: asked, whether the rail lifts the cross clear of the doubler or not.
        ("rail", "", ["say-over-or-under"]),
        ("[rail, doubler]", "", []),
        # On the floor's two sides there is nothing to ask.
        ("rail", ", side: lower", []),
    ],
)
def test_parts_riveted_together(
    tmp_path: Path, thickness: float, over: str, lower: str, expected: list[str]
) -> None:
    text = CROSSED.format(thickness=thickness, over=over, lower=lower)
    floor = FLOOR.replace("      trio:", STATION).replace(
        "from: [20, 10], to: [280, 10], count: 3", "at: [[20, 10], [150, 10], [280, 10]]"
    )
    _, findings = placed(tmp_path, floor + RAIL + text)
    assert kinds(findings) == expected


def test_each_hole_has_the_nearest_edge(tmp_path: Path) -> None:
    # The cross lies on the rail (1.0, edge at y = 20) and on a doubler (1.0, edges at y = 80 and 140). Floor
    # holes at y = 65 and 40: the first is 15 from the doubler (1.0 > 15/20), the second 20 from the rail.
    text = (
        CROSSED.format(thickness=1.0, over="[rail, doubler]", lower="")
        .replace("[8, 85], [8, 125]", "[8, 35], [8, 60], [8, 85], [8, 125]")
        .replace("row.4: floor.station.4", "row.6: floor.station.6")
        .replace(
            "mid.1: floor.station.2, mid.2: floor.station.3", "mid.1: floor.station.4, mid.2: floor.station.5"
        )
    )
    station = STATION.replace("[150, 90]", "[150, 40], [150, 65], [150, 90]")
    assembly, findings = placed(tmp_path, FLOOR.replace("      trio:", station) + RAIL + text)
    assert findings == []
    found = {
        assembly.stacks[g.stack].holes[0]: (g.under, round(g.run or 0, 6), g.shut) for g in gaps(assembly)
    }
    assert found == {
        "cross.row.2": ("rail", 20.0, True),
        "cross.row.3": ("doubler", 15.0, False),
        # Beyond the doubler, 50 from its edge at y = 140.
        "cross.row.6": ("doubler", 15.0, False),
    }
