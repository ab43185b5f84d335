from __future__ import annotations

import numpy as np
import pytest

from seqviz.parts.drilling import Drilled, drill_row
from seqviz.parts.make import make_parts
from seqviz.records.model import (
    AngleShape,
    BarShape,
    BlockShape,
    MirrorLine,
    Opening,
    PlateShape,
    Points,
    Row,
)
from tests.parts.samples import SQUARE, angle, at, model, other, part, row, skin

LINE = MirrorLine(axis="y", value=180.0)


def drilled(
    shape: AngleShape | BarShape | BlockShape | PlateShape, record: Row, *, on_base: bool = False
) -> Drilled:
    made = model(part(skin(), name="p"), part(shape, name="q"), mirror_line=LINE)
    parts, findings = make_parts(made)
    assert findings == []
    which = parts["p" if on_base else "q"]
    return drill_row(record, which.name, which.shape, which.flats, made)


def points(*spots: tuple[float, float]) -> Points:
    return Points(points=spots)


PLATE = PlateShape(
    thickness=1.0,
    outline=SQUARE,
    openings=(Opening(name="o", center=(100, 100), diameter=40.0, outline=(), at=at()),),
)


def test_holes_of_both_legs() -> None:
    lying = drilled(angle(), row(points((20, 10)), flat="leg 1")).holes[0]
    assert lying.name == "r.1"
    assert np.allclose(lying.centre, [20, 10, 0.5])
    assert np.allclose(lying.axis, [0, 0, -1])
    standing = drilled(angle(), row(points((20, 10)), flat="leg 2")).holes[0]
    assert np.allclose(standing.centre, [20, 0.5, 10])
    assert np.allclose(standing.axis, [0, -1, 0])
    assert (standing.flat, standing.diameter, standing.size, standing.at) == ("leg 2", 3.3, "small", at(10))
    assert not standing.centre.flags.writeable


def test_numbers_stay_where_holes_are_left_out() -> None:
    record = row(points((20, 20), (40, 20), (60, 20)), exceptions=(other(1, 1, "big"),), skip=(2,))
    holes = drilled(PLATE, record).holes
    assert [(h.name, h.diameter) for h in holes] == [("r.1", 4.1), ("r.3", 3.3)]
    assert np.allclose(holes[1].centre, [60, 20, 0.5])


def test_the_default_flat_of_a_bar_is_its_top() -> None:
    bar = BarShape(length=100.0, width=20.0, thickness=3.0)
    assert drilled(bar, row(points((20, 10)))).holes[0].flat == "top"


@pytest.mark.parametrize(
    ("shape", "name"), [(angle(), "angle"), (BlockShape(length=50, width=20, height=15), "block")]
)
def test_angles_and_blocks_need_a_flat(shape: AngleShape | BlockShape, name: str) -> None:
    (finding,) = drilled(shape, row(points((20, 10)))).findings
    assert (finding.kind, finding.at) == ("missing-word", at(10))
    assert finding.why.startswith(f"This {name} has the flats ")


def test_an_unknown_flat() -> None:
    (finding,) = drilled(angle(), row(points((20, 10)), flat="leg 3")).findings
    assert (finding.kind, finding.message) == ("unknown-name", "There is no flat leg 3.")


def test_a_hole_beside_the_outline() -> None:
    (finding,) = drilled(PLATE, row(points((20, 20), (20, 400), (20, 30))), on_base=True).findings
    assert (finding.kind, finding.at) == ("bad-value", at(10))
    assert finding.message == (
        "Hole 2 of row r lies off the flat: [20, 400], while face reaches from [0, 0] to [620, 360]."
    )


def test_holes_in_an_opening() -> None:
    (finding,) = drilled(PLATE, row(points((20, 20), (95, 100), (105, 100)))).findings
    assert finding.message.startswith(
        "Holes 2-3 of row r lie off the flat: hole 2 is at [95, 100], while face"
    )
    assert finding.message.endswith("openings taken out.")


def test_a_hole_in_the_bend() -> None:
    # the tangent lies 3.4 mm from the outer corner
    assert drilled(angle(), row(points((20, 3.3)), flat="leg 1")).findings[0].kind == "bad-value"
    assert drilled(angle(), row(points((20, 3.5)), flat="leg 1")).findings == ()


def test_a_skipped_place_may_lie_anywhere() -> None:
    assert drilled(PLATE, row(points((20, 20), (20, 400)), skip=(2,))).findings == ()


def test_one_place_twice() -> None:
    (finding,) = drilled(PLATE, row(points((20, 20), (40, 20), (20, 20.005)))).findings
    assert (finding.kind, finding.at) == ("bad-value", at(10))
    assert finding.message == "Row r: holes 1 and 3 lie at one place."


def test_both_sides_is_for_the_base() -> None:
    (finding,) = drilled(PLATE, row(points((20, 20)), both_sides=True)).findings
    assert (finding.kind, finding.message) == ("bad-value", "Row r: both sides is for rows of the base only.")


def test_both_sides_of_the_base() -> None:
    done = drilled(PLATE, row(points((20, 20), (40, 30)), both_sides=True), on_base=True)
    assert done.twins == ("r left", "r right")
    assert [(h.name, h.centre.tolist()[:2]) for h in done.holes] == [
        ("r left.1", [20, 340]),
        ("r left.2", [40, 330]),
        ("r right.1", [20, 20]),
        ("r right.2", [40, 30]),
    ]


def test_all_mistakes_of_a_row_are_told_at_once() -> None:
    record = row(points((20, 20)), size="huge", skip=(4,), both_sides=True)
    kinds = [finding.kind for finding in drilled(PLATE, record).findings]
    assert sorted(kinds) == ["bad-value", "bad-value", "unknown-name"]
