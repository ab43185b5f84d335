from __future__ import annotations

import numpy as np
import pytest

from seqviz.findings import Finding
from seqviz.geometry.pose import Array
from seqviz.parts.body import Body
from seqviz.parts.part import Flat
from seqviz.parts.sheet import sheet_body
from seqviz.parts.solid import solid_body
from seqviz.parts.twins import twin_places
from seqviz.records.model import BlockShape, MirrorLine, Points
from tests.parts.samples import at, row, skin

LOW = np.array([[20.0, 10.0], [45.0, 30.0]])
RECORD = row(Points(points=()), "rail", both_sides=True)
LINE = MirrorLine(axis="y", value=180.0)


def face() -> Flat:
    body = sheet_body("p", skin(), at())
    assert isinstance(body, Body)
    return body.flats["face"]


def twins(places: Array, forward: str, line: MirrorLine | None) -> dict[str, list[list[float]]]:
    found = twin_places(RECORD, face(), places, forward, line)
    assert not isinstance(found, Finding)
    return {name: at_.tolist() for name, at_ in found.items()}


@pytest.mark.parametrize(
    ("forward", "line", "own", "mirrored"),
    [
        ("+x", LINE, "rail right", "rail left"),  # left is +y, the row lies at low y
        ("-x", LINE, "rail left", "rail right"),
        ("+y", MirrorLine(axis="x", value=300.0), "rail left", "rail right"),
        ("-y", MirrorLine(axis="x", value=300.0), "rail right", "rail left"),
        ("+x", MirrorLine(axis="x", value=300.0), "rail aft", "rail forward"),
        ("-y", LINE, "rail forward", "rail aft"),
    ],
)
def test_names_and_places(forward: str, line: MirrorLine, own: str, mirrored: str) -> None:
    found = twins(LOW, forward, line)
    assert list(found) == sorted(found, key=("rail left", "rail forward", "rail right", "rail aft").index)
    assert found[own] == LOW.tolist()
    if line.axis == "y":
        assert found[mirrored] == [[20, 350], [45, 330]]  # 2 x 180 - y
    else:
        assert found[mirrored] == [[580, 10], [555, 30]]  # 2 x 300 - x


def test_a_row_across_the_line_or_on_it() -> None:
    for places in (np.array([[20.0, 170.0], [20.0, 190.0]]), np.array([[20.0, 180.0]])):
        finding = twin_places(RECORD, face(), places, "+x", LINE)
        assert isinstance(finding, Finding)
        assert (finding.kind, finding.at) == ("bad-value", at(10))
        assert finding.message == "Row rail crosses the mirror line y=180 or lies on it."


def test_no_mirror_line() -> None:
    finding = twin_places(RECORD, face(), LOW, "+x", None)
    assert isinstance(finding, Finding)
    assert (finding.kind, finding.at) == ("missing-word", at(10))


def test_the_side_of_a_block_has_other_coordinates() -> None:
    body = solid_body("b", BlockShape(length=50.0, width=20.0, height=15.0), at())
    assert isinstance(body, Body)
    finding = twin_places(RECORD, body.flats["front"], LOW, "+x", LINE)
    assert isinstance(finding, Finding)
    assert finding.message == "Row rail: both sides does not work on front."
