from __future__ import annotations

import pytest

from seqviz.report.totals import totals
from tests.report.findings_by_hand import SUMMARY


@pytest.mark.parametrize(
    ("changes", "lines"),
    [
        ({}, ["4 parts, 30 fasteners, 3 steps: 1 error, 1 note. 1 known."]),
        (
            {"errors": 2, "warnings": 1, "known": 0},
            ["4 parts, 30 fasteners, 3 steps: 2 errors, 1 warning, 1 note."],
        ),
        (
            {"placed": 1, "fasteners": 1, "steps": 1, "errors": 0, "notes": 0, "known": 0},
            ["1 part, 1 fastener, 1 step: nothing found."],
        ),
        ({"steps": 0, "fasteners": 0}, ["4 parts, 60 holes: 1 error, 1 note. 1 known."]),
        (
            {"open": {"parts": 3, "holes": 40}},
            [
                "4 parts, 30 fasteners, 3 steps: 1 error, 1 note. 1 known.",
                "Not there yet: 3 parts, 40 holes.",
            ],
        ),
        (
            {"open": {"parts": 0, "holes": 1}, "known": 0},
            ["4 parts, 30 fasteners, 3 steps: 1 error, 1 note.", "Not there yet: 1 hole."],
        ),
        (
            {"not_checked": {"why": "no dimensions", "parts": ["skin", "rail"]}, "known": 0},
            [
                "4 parts, 30 fasteners, 3 steps: 1 error, 1 note.",
                "Not checked: no dimensions of skin and rail. "
                "Fits, gaps, room for tools and ways in are open.",
            ],
        ),
        ({"open": {"parts": 0, "holes": 0}}, ["4 parts, 30 fasteners, 3 steps: 1 error, 1 note. 1 known."]),
    ],
)
def test_the_closing_lines(changes: dict[str, object], lines: list[str]) -> None:
    assert totals({**SUMMARY, **changes}) == lines
