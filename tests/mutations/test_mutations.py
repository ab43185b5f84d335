"""Slips in the clean sequences: what cannot be done is found and named, what can be done raises nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.mutations.report import COUNTS, HANDS, hand_trials, table, trials, unlike
from tests.mutations.trial import with_structure

ON_IT = ("bracket doubler: match", "bracket packing: match")
"""Turned end for end they lie as well as before; the strap bracket on them does not, and is what is named."""


@pytest.mark.parametrize("name", COUNTS)
def test_slips_in_the_steps(tmp_path: Path, name: str) -> None:
    demo = with_structure(name)
    assert (demo.clean.wrong, demo.clean.doubts) == ([], [])
    assert [f for f in demo.findings if f.severity != "note"] == []
    tried = list(trials(demo, COUNTS[name], tmp_path))
    print(table(tried))
    assert len(tried) == COUNTS[name]
    assert [str(one) for one in tried if unlike(one)] == []
    # Neither verdict is rare: a simulation that calls everything good, or wrong, proves nothing.
    verdicts = [one.verdict for one in tried]
    assert all(verdicts.count(word) >= len(tried) // 10 for word in ("wrong", "doubtful", "good"))


@pytest.mark.parametrize("name", HANDS)
def test_the_other_hand(tmp_path: Path, name: str) -> None:
    tried = list(hand_trials(with_structure(name), tmp_path))
    print(table(tried))
    assert len(tried) >= 9
    left = [one for one in tried if unlike(one)]
    assert [str(one) for one in left if not one.mutation.what.startswith(ON_IT)] == []
    assert all(one.error for one in left)
    assert {one.verdict for one in tried} >= {"wrong", "good"}
