from __future__ import annotations

import pytest

from seqviz.trade.bolt_choice import bolt_choice
from seqviz.trade.choice import LengthChoice, blind_choice, solid_choice
from seqviz.trade.choice_reasons import reasons, way_out
from seqviz.trade.choice_words import named_take, short_why, take_words

INCH = 25.4
TWO = ((6.0, 1.0, 3.5), (8.0, 4.0, 5.0))


@pytest.mark.parametrize(
    ("choice", "units", "take", "why"),
    [
        (blind_choice(3.2, 2.4), "mm", "length 6", "grips 1.5 to 3.5"),
        (blind_choice(INCH / 8, 0.104 * INCH), "in", "number 42", "grips 0.063 to 0.125 in"),
        (blind_choice(INCH / 8, 0.104 * INCH), "mm", "number 42", "grips 1.6 to 3.17"),
        (blind_choice(3.5, 2.4), "mm", "", ""),
        (blind_choice(3.2, 3.7, TWO), "mm", "no length fits", "length 6 ends at 3.5, length 8 begins at 4"),
        (blind_choice(3.2, 0.7, TWO), "mm", "no length fits", "the shortest, length 6, begins at 1"),
        (blind_choice(3.2, 5.1, TWO), "mm", "no length fits", "the longest, length 8, ends at 5"),
        (solid_choice(INCH / 8, 0.096 * INCH), "in", "length 5/16 in (4-5)", "grip + 1.5 D = 0.2835 in"),
        (solid_choice(INCH / 8, 0.96 * INCH), "in", "length 1 3/16 in (4-19)", "grip + 1.5 D = 1.1475 in"),
        (solid_choice(3.2, 2.4, lengths=(8,)), "mm", "length 8", "grip + 1.5 D = 7.2"),
        (solid_choice(3.2, 4.4, lengths=(8,)), "mm", "no length fits", "wants 9.2, the longest is 8"),
        (solid_choice(3.2, 2.4), "mm", "", "grip + 1.5 D = 7.2"),
        (
            bolt_choice("AN3", 0.188 * INCH),
            "in",
            "AN3-5, 1 washer",
            "its grip 0.25 in, 5.0 threads show",
        ),
        (
            bolt_choice("AN3", 0.3 * INCH),
            "in",
            "AN3-5, 1 thin washer",
            "its grip 0.25 in, 2.4 threads show",
        ),
        (bolt_choice("AN3", 2 * INCH), "in", "", "the table ends with AN3-14"),
    ],
)
def test_what_to_take_and_why_in_short(choice: LengthChoice, units: str, take: str, why: str) -> None:
    assert (take_words(choice, units), short_why(choice, units)) == (take, why)


def test_the_way_out_between_two_lengths_of_the_maker() -> None:
    # 4.0 - 3.7 = 0.3 to 5.0 - 3.7 = 1.3
    assert way_out(blind_choice(3.2, 3.7, TWO), "mm") == (
        "Put a washer or a shim of 0.3 to 1.3 under the tail and take length 8, take another rivet, "
        "or list the lengths that its maker has for it under hardware, if there are more."
    )


def test_the_way_out_past_the_last_length() -> None:
    assert way_out(blind_choice(3.2, 5.1, TWO), "mm") == (
        "Take another rivet, or list the lengths that its maker has for it under hardware, if there are more."
    )


def test_a_solid_rivet_can_be_cut() -> None:
    # 4.4 + 1.5 x 3.2 = 9.2
    assert way_out(solid_choice(3.2, 4.4, lengths=(8,)), "mm").startswith(
        "Cut a longer rivet to 9.2 (grip + 1.5 D), take another rivet, "
    )


def test_reasons_of_a_solid_rivet_name_both_rules_and_the_formed_head() -> None:
    told = reasons(solid_choice(INCH / 8, 0.096 * INCH), "in")
    assert told[0] == (
        "The grip of 0.096 in and 1.5 D of 0.125 in are 0.2835 in; 0.3125 in is the next, 4-5 "
        "(FAA-H-8083-31, chapter 4, figure 4-76; rounded up by Army TM 10-5410-229-13&P, paragraph 5-6)."
    )
    assert told[1].endswith("print 0.5 D instead: too short to form a head.")
    assert told[2].startswith("Formed head: 0.1875 in wide and 0.0625 in high (")
    assert "at least 0.1625 in wide and 0.0375 in high (MIL-HDBK-5H" in told[2]
    assert told[3] == (
        "Printed for this size: 0.188 in wide and 0.063 in high "
        "(aircraft repair manual of the Army Air Forces, 1940s)."
    )


def test_reasons_of_a_grip_between_printed_ranges_say_so() -> None:
    (told,) = reasons(blind_choice(INCH / 8, 0.0625 * INCH), "in")
    assert told.startswith("The grip of 0.0625 in lies between number 41 and number 42 (0.063 to 0.125 in):")


def test_reasons_of_a_bolt_name_both_rules_of_threads() -> None:
    told = reasons(bolt_choice("AN3", 0.3 * INCH), "in")
    assert told == (
        "AN3-5 has a grip of 0.25 in for a stack of 0.3 in, and is 0.656 in long.",
        "Put 1 thin washer (AN960-10L, together 0.032 in) under the end that is turned, usually the nut: the "
        "nut does not turn on the sheet.",
        "1.6 threads lie in the hole; at most 2 may, and only in the thicker part (NAVEDTRA 14014).",
        "With AN365-1032, 0.25 in high, 2.4 threads show: FAA AC 43.13-1B, chapter 7 asks for 1, NAVEDTRA "
        "14014 asks for 2.",
        "Sources: AN3 to AN20 standard sheets (secondary); AN960, from memory; AN365, from memory.",
    )


@pytest.mark.parametrize(
    ("name", "take", "words"),
    [
        ("bolt AN3", "AN3-5, 1 washer", "bolt AN3-5, 1 washer"),
        ("bolt an3", "AN3-5, 1 washer", "bolt AN3-5, 1 washer"),
        ("bolt 3/16", "AN3-5, 1 washer", "bolt 3/16 AN3-5, 1 washer"),
        ("pull 3.2", "length 6", "pull 3.2 length 6"),
        ("AN3", "AN3-5", "AN3-5"),
        ("pull 3.2", "", "pull 3.2"),
    ],
)
def test_a_series_is_not_said_twice(name: str, take: str, words: str) -> None:
    assert named_take(name, take) == words
