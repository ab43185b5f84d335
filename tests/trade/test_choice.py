"""Which rivet goes into a grip. Sums in inches stand beside each; 25.4 mm are 1 in."""

from __future__ import annotations

import pytest

from seqviz.trade.choice import blind_choice, solid_choice
from seqviz.trade.choose import choice_for
from seqviz.trade.fasteners import BLIND_RIVET, SOLID_RIVET, Fastener
from seqviz.trade.supply import MAKER, supply_of

INCH = 25.4


@pytest.mark.parametrize(
    ("diameter", "grip", "half_sizes", "number", "wanted"),
    [
        # A1: .032 + .064 = .096; 1.5 x .125 = .1875; .2835 -> 5/16 (answer published, secondary)
        (1 / 8, 0.096, False, "4-5", 0.2835),
        # A2: .040 + .040 = .080; 1.5 x .09375 = .140625; .220625 -> 1/4 (answer published, secondary)
        (3 / 32, 0.080, False, "3-4", 0.220625),
        # A3: .080 + .1875 = .2675 -> 5/16, in half sizes 9/32 (computed)
        (1 / 8, 0.080, False, "4-5", 0.2675),
        (1 / 8, 0.080, True, "4-4.5", 0.2675),
        # A4: .032 + .032 + .040 = .104; .2915 -> 5/16 (computed)
        (1 / 8, 0.104, False, "4-5", 0.2915),
        # .125 + .1875 = .3125 is 5/16 itself, a thousandth more is not
        (1 / 8, 0.125, False, "4-5", 0.3125),
        (1 / 8, 0.126, False, "4-6", 0.3135),
        (1 / 8, 0.126, True, "4-5.5", 0.3135),
    ],
)
def test_solid_rivets_take_grip_and_1_5_d(
    diameter: float, grip: float, half_sizes: bool, number: str, wanted: float
) -> None:
    choice = solid_choice(diameter * INCH, grip * INCH, half_sizes)
    assert (choice.verdict, choice.number) == ("fits", number)
    assert choice.wanted == pytest.approx(wanted * INCH)
    sixteenths = float(number.partition("-")[2])
    assert choice.length == pytest.approx(sixteenths / 16 * INCH)


def test_the_rule_and_the_rounding_name_their_sources() -> None:
    full, half = (solid_choice(INCH / 8, 2.0, half_sizes) for half_sizes in (False, True))
    assert full.source.startswith("FAA-H-8083-31, chapter 4, figure 4-76; rounded up by Army TM")
    assert half.source.endswith("rounded up by FAA AC 43.13-1B, paragraph 4-57a(4)")


def test_the_formed_head_to_aim_for_and_the_least() -> None:
    # A17: 1.5 x .125 = .1875 and .5 x .125 = .0625; MIL-HDBK-5H: 1.3 x .125 = .1625 and .3 x .125 = .0375
    choice = solid_choice(INCH / 8, 2.0)
    assert choice.target is not None
    assert choice.minimum is not None
    assert (choice.target.width, choice.target.height) == pytest.approx((0.1875 * INCH, 0.0625 * INCH))
    assert (choice.minimum.width, choice.minimum.height) == pytest.approx((0.1625 * INCH, 0.0375 * INCH))


def test_metric_solid_rivets_take_the_next_of_the_lengths_listed() -> None:
    # 2.4 + 1.5 x 3.2 = 7.2
    choice = solid_choice(3.2, 2.4, lengths=(10, 6, 8))
    assert (choice.verdict, choice.length, choice.number, choice.makers) == ("fits", 8, "", True)
    assert solid_choice(3.2, 3.2, lengths=(8, 10)).length == 8  # 3.2 + 4.8 = 8 just does
    beyond = solid_choice(3.2, 5.3, lengths=(8, 10))  # 10.1
    assert (beyond.verdict, beyond.length, beyond.longest) == ("out of range", None, 10)


def test_a_metric_solid_rivet_without_lengths_has_none() -> None:
    choice = solid_choice(3.2, 2.4)
    assert (choice.verdict, choice.length) == ("not known", None)
    assert choice.wanted == pytest.approx(7.2)


@pytest.mark.parametrize(
    ("diameter", "grip", "number"),
    [
        (1 / 8, 0.104, "42"),  # A12: .063 to .125
        (1 / 8, 0.062, "41"),
        (1 / 8, 0.0625, "42"),  # between .062 and .063: they are printed to .001, so the longer counts
        (1 / 8, 0.500, "48"),
        (1 / 8, 0.501, None),  # past the end
        (1 / 8, 0.019, None),
        (5 / 32, 0.187, "53"),
        (1 / 4, 0.700, "812"),
        (1 / 4, 0.600, None),  # the copy lists nothing between .500 and .626
        (3 / 32, 0.1255, "34"),
    ],
)
def test_blind_rivets_by_army_tm_10_5410_221_14_table_4_3(
    diameter: float, grip: float, number: str | None
) -> None:
    choice = choice_for(supply_of(Fastener(kind=BLIND_RIVET, diameter=diameter * INCH)), grip * INCH)
    assert (choice.number or None, choice.verdict) == (number, "fits" if number else "out of range")
    assert choice.source.startswith("Army TM 10-5410-221-14/1, table 4-3")


def test_only_what_lies_between_printed_ranges_is_said_to() -> None:
    choices = [blind_choice(INCH / 8, grip * INCH) for grip in (0.0625, 0.063)]
    assert [choice.between for choice in choices] == [True, False]


def test_a_body_that_is_not_listed_has_a_number_and_no_length() -> None:
    choice = blind_choice(INCH / 4, 0.3 * INCH)
    assert (choice.verdict, choice.number, choice.length) == ("fits", "86", None)
    # Number 42 is .232 long.
    assert blind_choice(INCH / 8, 0.1 * INCH).length == pytest.approx(0.232 * INCH)


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
    ],
)
def test_iso_15981_serves_where_the_maker_says_nothing(
    diameter: float, grip: float, length: float | None
) -> None:
    choice = blind_choice(diameter, grip)
    assert (choice.length, choice.verdict) == (length, "fits" if length else "out of range")


def test_nobody_knows_a_rivet_of_another_thickness() -> None:
    assert blind_choice(3.5, 2.4).verdict == "not known"


def test_the_maker_goes_before_the_table() -> None:
    makers = ((8.0, 4.0, 5.0), (6.0, 1.0, 3.5))
    inside, between = (blind_choice(3.2, grip, makers) for grip in (3.5, 3.7))
    assert (inside.length, inside.source, inside.makers) == (6.0, MAKER, True)
    assert (between.verdict, between.length) == ("out of range", None)
    assert between.below is not None
    assert between.above is not None
    assert (between.below.length, between.above.length) == (6.0, 8.0)
    # What the maker prints is never stretched, however little is missing.
    assert blind_choice(3.2, 3.51, makers).verdict == "out of range"


def test_of_solid_rivets_the_makers_grips_go_before_the_rule() -> None:
    fastener = Fastener(kind=SOLID_RIVET, diameter=3.2)
    supply = supply_of(fastener, ((6.0, 2.0, 3.0),))
    assert choice_for(supply, 2.5).length == 6.0
    # 3.5 + 4.8 = 8.3
    beyond = choice_for(supply, 3.5)
    assert beyond.verdict == "out of range"
    assert beyond.wanted == pytest.approx(8.3)
