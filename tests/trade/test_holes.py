import pytest

from seqviz.trade.drills import drill
from seqviz.trade.holes import clearance_holes, holes_for, least_and_most


@pytest.mark.parametrize(
    ("kind", "inches", "expected"),
    [
        ("solid rivet", 3 / 32, [("No. 40", 0.098, 0.098), ("No. 41", 0.096, 0.096)]),
        ("solid rivet", 1 / 8, [("No. 30", 0.1285, 0.1285)]),
        ("solid rivet", 5 / 32, [("No. 21", 0.159, 0.159), ("No. 22", 0.157, 0.157)]),
        ("solid rivet", 3 / 16, [("No. 11", 0.191, 0.191)]),
        ("blind rivet", 3 / 32, [(None, 0.096, 0.100)]),
        ("blind rivet", 1 / 8, [("No. 30", 0.128, 0.132)]),
        ("blind rivet", 5 / 32, [("No. 20", 0.160, 0.164)]),
        ("bolt", 3 / 16, [(None, 0.191, 0.197)]),
        ("bolt", 1 / 4, [(None, 0.250, 0.257)]),
        ("bolt", 5 / 16, [(None, 0.3125, 0.3195)]),
        ("bolt", 3 / 8, [(None, 0.375, 0.382)]),
    ],
)
def test_published_holes(kind: str, inches: float, expected: list[tuple[str | None, float, float]]) -> None:
    found = holes_for(kind, inches * 25.4)
    assert [one.drill for one in found] == [name for name, _, _ in expected]
    for one, (_, least, most) in zip(found, expected, strict=True):
        assert (one.least / 25.4, one.most / 25.4) == pytest.approx((least, most))


def test_a_named_drill_is_as_wide_as_the_hole() -> None:
    for kind in ("solid rivet", "blind rivet"):
        for inches in (1 / 16, 3 / 32, 1 / 8, 5 / 32, 3 / 16, 1 / 4):
            for one in holes_for(kind, inches * 25.4):
                named = drill(one.drill) if one.drill else None
                assert named is None or one.least - 1e-9 <= named.diameter <= one.most + 1e-9


def test_sizes_without_a_row_have_the_rule_of_their_kind() -> None:
    (metric,) = holes_for("blind rivet", 3.2)  # ISO 15977: 0.1 to 0.2 mm over
    assert (metric.least, metric.most) == pytest.approx((3.3, 3.4))
    assert metric.citation == "ISO 15977 (secondary)"
    (thin,) = holes_for("blind rivet", 2.4)  # not the hole of 3/32 in
    assert (thin.least, thin.most) == pytest.approx((2.5, 2.6))
    (solid,) = holes_for("solid rivet", 3.0)  # .002 to .004 in over
    assert (solid.least, solid.most) == pytest.approx((3.0508, 3.1016))
    assert solid.citation.endswith("from memory")
    assert holes_for("bolt", 5.0) == ()


def test_the_widest_range_of_all_sources() -> None:
    found = least_and_most(holes_for("solid rivet", 3 / 32 * 25.4))
    assert found == pytest.approx((0.096 * 25.4, 0.098 * 25.4))
    assert least_and_most(()) is None


@pytest.mark.parametrize(
    ("screw", "holes"),
    # ISO 273: fine, medium, coarse; inch: close, normal, loose
    [
        ("M3", [3.2, 3.4, 3.6]),
        ("M5", [5.3, 5.5, 5.8]),
        ("m6", [6.4, 6.6, 7.0]),
        ("1/4", [6.746875, 7.14375, 7.540625]),
        ("M99", []),
    ],
)
def test_clearance_holes(screw: str, holes: list[float]) -> None:
    assert [one.diameter for one in clearance_holes(screw)] == pytest.approx(holes)
