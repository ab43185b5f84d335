from __future__ import annotations

from dataclasses import replace

from seqviz.findings import At
from seqviz.report.style import Style
from seqviz.report.text import as_lines, as_text
from tests.report.findings_by_hand import DRAWN, GAP, LATE, LINES, SUMMARY

WHOLE = """\
note: gap-drawn-shut at models/tray.yaml:2:1
    | placed:
    | ^
  0.4 mm under strap is drawn shut.

error: layer-missing at sequences/tray.yaml:3:5
    |   - rivet: rail.foot
    |     ^
  rail.foot 1-3 are riveted before strap is there.
  Why: A rivet clamps every layer of its stack.
  Fix: Place strap first.
  See: sequences/tray.yaml:4:12: strap comes here

Known, and settled with a reason:
  models/tray.yaml:3:3: gap-in-stack: the drawing shows no joggle

4 parts, 30 fasteners, 3 steps: 1 error, 1 note. 1 known.
"""


def test_the_whole_text_of_a_small_report() -> None:
    assert as_text([LATE, GAP, DRAWN], LINES, SUMMARY) == WHOLE


def test_the_order_of_the_findings_given_does_not_matter() -> None:
    assert as_text([DRAWN, LATE, GAP], LINES, SUMMARY) == WHOLE


def test_on_one_line_errors_stand_before_notes() -> None:
    note = replace(DRAWN, at=LATE.at)
    assert [line.split(" ")[1] for line in as_lines([note, LATE]).splitlines()] == ["error", "note"]


def test_colour_is_added_to_the_word_and_takes_nothing_away() -> None:
    coloured = as_text([LATE, GAP, DRAWN], LINES, SUMMARY, Style(colour=True))
    assert "\x1b[1;31merror\x1b[0m: layer-missing at" in coloured
    assert coloured.replace("\x1b[1;31m", "").replace("\x1b[1;36m", "").replace("\x1b[0m", "") == WHOLE


def test_long_sentences_are_wrapped_under_their_beginning() -> None:
    long = replace(DRAWN, why="one two three four five six seven eight")
    text = as_text([long], {}, SUMMARY, Style(width=30))
    assert "  Why: one two three four five\n       six seven eight\n" in text


def test_words_out_of_a_file_cannot_steer_the_terminal() -> None:
    nasty = replace(GAP, known="a\x1b[31mb")
    assert "gap-in-stack: a [31mb" in as_text([nasty], LINES, SUMMARY)
    assert "\x1b" not in as_lines([replace(LATE, message="a\x1b]0;b")])


def test_one_line_a_finding_without_the_settled_ones() -> None:
    assert as_lines([LATE, GAP, DRAWN]) == (
        "models/tray.yaml:2:1: note gap-drawn-shut: 0.4 mm under strap is drawn shut.\n"
        "sequences/tray.yaml:3:5: error layer-missing: rail.foot 1-3 are riveted before strap is there.\n"
    )


def test_a_finding_in_a_file_that_is_not_at_hand_has_no_excerpt() -> None:
    elsewhere = replace(DRAWN, at=At(file="other.yaml", line=1, column=1))
    assert as_text([elsewhere], LINES, SUMMARY).startswith(
        "note: gap-drawn-shut at other.yaml:1:1\n  0.4 mm under strap is drawn shut.\n"
    )
