import pytest

from seqviz.trade.spacing import Bound, Distance, HeadStyle, spacing, strictest


@pytest.mark.parametrize(
    ("distance", "bound", "head", "row_count", "values"),
    [
        ("edge", "least", "protruding", 1, [2, 2, 2]),
        ("edge", "least", "countersunk", 1, [2, 2, 2.5]),
        ("edge", "most", "protruding", 1, [4]),
        ("pitch", "least", "protruding", 1, [3, 3, 3]),
        ("pitch", "least", "protruding", 2, [3, 4]),
        ("pitch", "least", "countersunk", 1, [3, 3, 3.5]),
        ("pitch", "least", "countersunk", 2, [3, 4.5]),
        ("pitch", "least", "protruding", 5, [3, 3]),
        ("pitch", "usual least", "protruding", 1, [4, 4]),
        ("pitch", "most", "protruding", 1, [8, 10, 10]),
        ("row", "least", "protruding", 2, [2.5]),
        ("transverse", "usual", "protruding", 2, [0.75, 0.75]),
        ("row", "most", "protruding", 2, []),
    ],
)
def test_every_source_has_its_say(
    distance: Distance, bound: Bound, head: HeadStyle, row_count: int, values: list[float]
) -> None:
    assert [rule.value for rule in spacing(distance, bound, head=head, row_count=row_count)] == values


def test_the_sources_stand_beside_the_values() -> None:
    assert [rule.citation for rule in spacing("edge", "least")] == [
        "FAA AC 43.13-1B, paragraph 4-57c(1) (secondary)",
        "Army TM 10-5410-229-13&P",
        "FAA-H-8083-31, chapter 4, from memory",
    ]


def test_the_strictest_rule() -> None:
    edge = strictest(spacing("edge", "least", head="countersunk"), "least")
    pitch = strictest(spacing("pitch", "most"), "most")
    assert edge is not None
    assert pitch is not None
    assert (edge.value, pitch.value) == (2.5, 8)
    assert "NAVEDTRA 14018" in pitch.citation
    assert strictest((), "least") is None


def test_a_rule_in_diameters_or_inches_is_a_length() -> None:
    assert spacing("edge", "least")[0].mm(3.2) == pytest.approx(6.4)
    assert spacing("pitch", "preferred extra")[0].mm(3.2) == pytest.approx(25.4 / 16)
    with pytest.raises(ValueError, match="pitch"):
        spacing("transverse", "usual")[0].mm(3.2)
