from __future__ import annotations

from seqviz.findings import At
from seqviz.parts.sizes import hole_sizes
from seqviz.records.model import Points, Row, Size
from tests.parts.samples import at, other, row

SIZES = {
    "small": Size(name="small", diameter=3.3, fastener=None, at=at()),
    "big": Size(name="big", diameter=4.1, fastener=None, at=at()),
}
LAYOUT = Points(points=())


def read(record: Row, count: int = 6) -> dict[int, tuple[float, str | None]]:
    found = hole_sizes(record, count, SIZES, frozenset())
    assert found.findings == ()
    return {number: (size.diameter, size.name) for number, size in found.holes.items()}


def mistakes(record: Row, broken: frozenset[str] = frozenset()) -> list[tuple[str, At, str]]:
    found = hole_sizes(record, 6, SIZES, broken)
    assert found.muted == bool(broken)
    return [(f.kind, f.at, f.message) for f in found.findings]


def test_exceptions_and_skips_leave_the_numbers() -> None:
    record = row(LAYOUT, exceptions=(other(1, 2, "big"), other(4, 4, None)), skip=(6,))
    small, big = (3.3, "small"), (4.1, "big")
    assert read(record) == {1: big, 2: big, 3: small, 5: small}


def test_a_diameter_has_no_name() -> None:
    assert read(row(LAYOUT, size=None, diameter=4.8), 2) == {1: (4.8, None), 2: (4.8, None)}


def test_unknown_sizes() -> None:
    record = row(LAYOUT, size="smal", exceptions=(other(1, 2, "bigg"),))
    assert mistakes(record) == [
        ("unknown-name", at(10), "There is no size smal."),
        ("unknown-name", at(77), "There is no size bigg."),
    ]


def test_a_size_that_could_not_be_read_is_not_reported_again() -> None:
    assert mistakes(row(LAYOUT, size="odd"), frozenset({"odd"})) == []


def test_numbers_beyond_the_row() -> None:
    record = row(LAYOUT, exceptions=(other(5, 7, "big"),))
    assert mistakes(record) == [("bad-value", at(77), "Row r has 6 holes; 5-7 is not among them.")]
    assert mistakes(row(LAYOUT, skip=(2, 9)))[0][2] == "Row r has 6 holes; 9 is not among them."
    assert mistakes(row(LAYOUT, exceptions=(other(0, 2, None),)))[0][0] == "bad-value"
    assert mistakes(row(LAYOUT, exceptions=(other(3, 2, None),)))[0][2].endswith("3-2 is not among them.")


def test_no_size_at_all() -> None:
    assert mistakes(row(LAYOUT, size=None)) == [("missing-word", at(10), "Row r has no size.")]
    assert mistakes(row(LAYOUT, size=None, diameter=0.0))[0][0] == "bad-value"
