"""Worked examples of handbooks and manuals, through the lookups; their sources stand beside them.

Those of whole stacks (lengths of rivets and bolts) and of holes and bends in a model go through the program,
in ``test_worked_examples_program.py`` and in the tests of the choice. Inches, as the sources print them.
"""

import math

import pytest

from seqviz.trade.bends import bend_allowance, bend_radius_advice, developed_width, setback
from seqviz.trade.pin_colours import colour_of, sizes_of_colour
from seqviz.trade.rivets_per_inch import factor_for, rivets_in, rivets_per_inch
from seqviz.trade.solid_rivets import shear_by_formula, shear_values
from seqviz.trade.spacing import spacing
from seqviz.trade.tables import INCH, rows
from seqviz.trade.wrenches import opening_by_formula, wrench_opening

CLOSE = 0.0005  # in


@pytest.mark.parametrize(
    ("alloy", "least", "most"),
    # 2 t to 4 t and 0.5 t to 1.5 t of .032
    [("2024-T3", 0.064, 0.128), ("6061-T6", 0.016, 0.048)],
)
def test_a5_radii_of_two_alloys(alloy: str, least: float, most: float) -> None:
    """FAA AC 43.13-1B, table 4-6, page 4-14: read, the products computed."""
    advice = bend_radius_advice(alloy, 0.032)
    assert advice is not None
    assert (advice.least, advice.most) == pytest.approx((least, most), abs=CLOSE)
    assert advice.source.startswith("FAA AC 43.13-1B, table 4-6")


@pytest.mark.parametrize(
    ("degrees", "expected"),
    # .41421 x (.25 + .064) = .1301 and 2.4142 x .314 = .7581
    [(45.0, 0.130), (135.0, 0.758)],
    ids=["a6 an open angle", "a7 a closed angle"],
)
def test_a6_a7_setback(degrees: float, expected: float) -> None:
    """FAA AC 43.13-1B, page 4-14: radius 1/4, thickness .064; read."""
    assert setback(0.064, 0.25, degrees) == pytest.approx(expected, abs=CLOSE)


def test_a8_the_channel_of_one_two_and_one() -> None:
    """FAA-H-8083-31, figures 4-124 to 4-126: the flats are read, the width of 3.74 is from memory."""
    back = setback(0.040, 0.16, 90.0)
    assert back == pytest.approx(0.200, abs=CLOSE)
    assert (1 - back, 2 - 2 * back, 1 - back) == pytest.approx((0.8, 1.6, 0.8), abs=CLOSE)
    # The handbook rounds each allowance up to .27: .8 + .27 + 1.6 + .27 + .8 = 3.74.
    neutral = developed_width((1, 2, 1), (90, 90), 0.040, 0.16)
    handbook = developed_width((1, 2, 1), (90, 90), 0.040, 0.16, "handbook")
    assert (neutral, handbook) == pytest.approx((3.74, 3.74), abs=0.03)
    assert (neutral, handbook) == pytest.approx((3.765, 3.758), abs=CLOSE)


def test_a9_one_bend_by_each_formula() -> None:
    """FAA-H-8083-31, chapter 4, from memory: .433 for a radius of 1/4, .051 thick, 90 degrees."""
    assert bend_allowance(0.051, 0.25, 90.0) == pytest.approx(0.4328, abs=0.00005)
    assert bend_allowance(0.051, 0.25, 90.0) == pytest.approx(0.433, abs=CLOSE)
    # (.01743 x .25 + .0078 x .051) x 90 = .4280: the formula has to be named with the figure.
    assert bend_allowance(0.051, 0.25, 90.0, "handbook") == pytest.approx(0.4280, abs=0.00005)


def test_a10_a_sheet_splice() -> None:
    """FAA AC 43.13-1B, paragraph 4-58g and table 4-10: read."""
    found = rivets_per_inch("4-10", 0.032 * INCH, 1 / 8 * INCH)
    assert found is not None
    assert found.value == 4.9
    factor = factor_for("single lap sheet").value
    assert round(found.value * factor, 1) == 3.7
    # 10 in wide: 4.9 x .75 x 10 = 36.75, so 37, so two rows of 19
    many = rivets_in(10, found.value, factor)
    assert (many, math.ceil(many / 2)) == (37, 19)
    # The same paragraph: the rivet is about three times the sheet; .096 asks for 1/8, the next thicker.
    (splice,) = (row for row in rows("rivet_for_sheet") if row.text("where") == "splice")
    assert splice.number("least") * 0.032 == pytest.approx(0.096, abs=CLOSE)


def test_a11_a_flange_splice_is_rounded_before_and_after_its_factor() -> None:
    """FAA AC 43.13-1B, figure 4-20: sheet .040, flange .6 wide, rivets 1/8; read."""
    found = rivets_per_inch("4-10", 0.040 * INCH, 1 / 8 * INCH)
    assert found is not None
    assert found.value == 6.2
    # .6 x 6.2 = 3.72, so 4; 60 percent of 4 are 2.4, so 3 on each side.
    full = rivets_in(0.6, found.value)
    assert full == 4
    assert rivets_in(full, 1.0, factor_for("intermediate frames").value) == 3


def test_a11_the_order_of_rounding_matters() -> None:
    """The same steps on a flange .5 wide: 3.1 are 4, 60 percent are 3; rounded only once, 1.86 are 2."""
    assert rivets_in(rivets_in(0.5, 6.2), 1.0, 0.60) == 3
    assert rivets_in(0.5, 6.2, 0.60) == 2


def test_a14_the_opening_for_seven_sixteenths() -> None:
    """ASME B18.2.2-2015, appendix: 1.005 W + .001, and .005 W + .004 more; the table cuts the digits off."""
    made, listed = opening_by_formula(7 / 16 * INCH), wrench_opening(7 / 16 * INCH)
    assert listed is not None
    assert (made.least / INCH, made.most / INCH) == pytest.approx((0.4407, 0.4469), abs=0.00005)
    assert (listed.least / INCH, listed.most / INCH) == pytest.approx((0.440, 0.446))
    assert all(0 <= a - b < 0.001 * INCH for a, b in ((made.least, listed.least), (made.most, listed.most)))


def test_a15_copper_is_one_size_and_black_is_two() -> None:
    """NAVEDTRA 14315, a custom and no standard: read."""
    assert [one.diameter / INCH for one in sizes_of_colour("copper")] == pytest.approx([1 / 8])
    assert [one.diameter / INCH for one in sizes_of_colour("black")] == pytest.approx([1 / 16, 5 / 32])
    colours = [found.colour for size in (1 / 8, 1 / 16, 5 / 32) if (found := colour_of(size * INCH))]
    assert colours == ["copper", "black", "black"]


def test_a16_seven_rivets_are_the_only_row() -> None:
    """An exercise on rivet layout, computed: 4 in wide, rivets 1/8, 3 D to the edge, a pitch of 4 to 5 D."""
    rivet, wide = 1 / 8, 4.0
    span = wide - 2 * 3 * rivet
    assert span == pytest.approx(3.25)
    pitches = {count: span / (count - 1) / rivet for count in range(2, 30)}
    # 3.25 / 6 = .5417, 4.33 D; six rivets are 5.2 D apart, eight 3.71 D
    assert [count for count, pitch in pitches.items() if 4 <= pitch <= 5] == [7]
    assert pitches[7] * rivet == pytest.approx(0.5417, abs=CLOSE)
    # It keeps every published least, and stays under every published most.
    least = [rule.value for rule in spacing("pitch", "least")]
    most = [rule.value for rule in spacing("pitch", "most")]
    assert max(least) <= pitches[7] <= min(most)


def test_a18_shear_of_one_rivet_by_formula_and_by_table() -> None:
    """MIL-HDBK-5H, section 8.1.2; the table's 388 pounds from memory, hence half a percent."""
    (listed,) = shear_values(1 / 8 * INCH)
    assert listed.load == 388
    made = shear_by_formula(listed.hole / INCH, 30_000)
    assert made == pytest.approx(389.1, abs=0.05)
    assert made == pytest.approx(listed.load, rel=0.005)
