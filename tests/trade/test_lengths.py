import pytest

from seqviz.trade.fasteners import BLIND_RIVET, SOLID_RIVET, Fastener, length_for
from seqviz.trade.lengths import known_lengths


@pytest.mark.parametrize(
    ("diameter", "grip", "length"),
    [
        (3.2, 0.4, None),  # below the first row, 0.5 to 1.5
        (3.2, 1.5, 5),  # an end that two rows share: the shorter
        (3.2, 2.4, 6),
        (3.0, 3.6, 8),
        (3.2, 17.1, None),
        (4.0, 5.0, 8),
        (4.8, 4.1, 10),
        (3.5, 2.4, None),  # no such column
    ],
)
def test_iso_15981_serves_where_the_maker_says_nothing(
    diameter: float, grip: float, length: float | None
) -> None:
    assert length_for(known_lengths(Fastener(kind=BLIND_RIVET, diameter=diameter), ()), grip) == length


def test_the_maker_goes_before_the_table() -> None:
    own = ((7.0, 2.0, 3.0),)
    assert known_lengths(Fastener(kind=BLIND_RIVET, diameter=3.2), own) == own


def test_of_solid_rivets_no_range_is_known() -> None:
    assert known_lengths(Fastener(kind=SOLID_RIVET, diameter=3.2), ()) == ()
