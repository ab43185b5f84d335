"""Which bolt goes into a stack, in inches; AN grips are secondary, nuts and washers from memory."""

from __future__ import annotations

import pytest

from seqviz.trade.bolt_choice import bolt_choice
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choose import choice_for
from seqviz.trade.fasteners import BOLT, Fastener
from seqviz.trade.supply import supply_of

INCH = 25.4


def chosen(series: str, grip: float) -> LengthChoice:
    return bolt_choice(series, grip * INCH)


def test_a13_three_sixteenths_in_a_stack_of_188() -> None:
    choice = chosen("AN3", 0.188)
    # -5: grip .250, .062 of shank stand out, one washer of .063 takes them up.
    # .656 - .188 - .063 - .250 = .155, at 32 threads to the inch 4.96.
    assert (choice.number, [washer.name for washer in choice.washers]) == ("AN3-5", ["AN960-10"])
    assert choice.bolt_grip == pytest.approx(0.250 * INCH)
    assert choice.length == pytest.approx(0.656 * INCH)
    assert choice.threads_showing == pytest.approx(4.96, abs=0.001)
    assert choice.threads_in_hole == 0.0


@pytest.mark.parametrize(
    ("series", "grip", "number", "washers", "in_hole", "showing"),
    [
        # -4 would have .063 x 32 = 2.016 threads in the hole; at .187 it has 1.984, but .531 - .187 - .032
        # - .250 = .062 shows 1.98 at most.
        ("AN3", 0.187, "AN3-5", ["AN960-10"], 0.0, 4.992),
        # the stack is the grip: .656 - .250 - .063 - .250 = .093
        ("AN3", 0.250, "AN3-5", ["AN960-10"], 0.0, 2.976),
        # -5 is nearer than -6; (.300 - .250) x 32 = 1.6; a thick washer would show 1.376
        ("AN3", 0.300, "AN3-5", ["AN960-10L"], 1.6, 2.368),
        # -5 has 1.74 threads in the hole and shows .015 x 28 = .42; -6: .313 - .250 = .063
        ("AN4", 0.250, "AN4-6", ["AN960-416"], 0.0, 3.92),
        # -3 and -4 have one grip: -3 shows .469 - .063 - .063 - .328 = .015 x 28 = .42, -4 .077 x 28
        ("AN4", 0.063, "AN4-4", ["AN960-416"], 0.0, 2.156),
        # thinner than the shortest grip: .063 - .020 = .043
        ("AN3", 0.020, "AN3-3", ["AN960-10"], 0.0, 4.352),
        ("AN5", 0.563, "AN5-10", ["AN960-516"], 0.0, 2.616),
        ("AN6", 0.188, "AN6-6", ["AN960-616"], 0.0, 2.976),
    ],
)
def test_grip_washers_and_threads(
    series: str, grip: float, number: str, washers: list[str], in_hole: float, showing: float
) -> None:
    choice = chosen(series, grip)
    assert (choice.number, [washer.name for washer in choice.washers]) == (number, washers)
    assert choice.threads_in_hole == pytest.approx(in_hole, abs=0.001)
    assert choice.threads_showing == pytest.approx(showing, abs=0.001)


@pytest.mark.parametrize("series", ["AN3", "AN4", "AN5", "AN6"])
def test_whatever_is_chosen_keeps_both_rules(series: str) -> None:
    last = {"AN3": 1125, "AN4": 813, "AN5": 688, "AN6": 563}[series]
    for thousandths in range(10, last + 1):
        choice = chosen(series, thousandths / 1000)
        assert choice.verdict == "fits"
        assert choice.bolt_grip is not None
        under = sum(washer.thickness for washer in choice.washers)
        assert choice.bolt_grip <= choice.grip + under + 1e-6  # the nut does not stop at the shank
        assert 1 <= len(choice.washers) <= 3
        assert choice.threads_in_hole <= 2 + 1e-6
        assert (choice.threads_showing or 0) >= 2 - 1e-6


def test_the_table_is_not_stretched_past_its_end() -> None:
    # AN3-14: grip 1.125, two threads of 1/32 are .0625 more.
    assert chosen("AN3", 1.187).number == "AN3-14"
    beyond = chosen("AN3", 1.19)
    assert (beyond.verdict, beyond.length, beyond.number) == ("not listed", None, "AN3-14")
    with pytest.raises(KeyError):
        bolt_choice("AN7", 5.0)


def test_the_maker_of_a_bolt_goes_before_the_table() -> None:
    supply = supply_of(Fastener(kind=BOLT, diameter=3 / 16 * INCH), ((16.0, 5.0, 10.0),))
    choice = choice_for(supply, 6.0)
    assert (choice.length, choice.number, choice.makers) == (16.0, "", True)
    assert [washer.name for washer in choice.washers] == ["AN960-10"]


def test_a_bolt_of_no_series_is_not_known_and_wants_a_washer() -> None:
    choice = choice_for(supply_of(Fastener(kind=BOLT, diameter=5.0)), 6.0)
    assert (choice.verdict, choice.length, choice.nut) == ("not known", None, None)
    # Common practice, no source: 0.3 x 5.
    assert [washer.thickness for washer in choice.washers] == [pytest.approx(1.5)]
