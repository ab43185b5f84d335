"""``known``: in either file."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.remarks import KINDS
from tests.records.written import MODEL, Place, loaded, places, said

GOOD = "{kind: gap-in-stack, at: rail.foot.3, why: drawing shows no joggle, by: JK, figure: 1.2 mm}"


def test_an_entry_is_read(tmp_path: Path) -> None:
    (entry,) = loaded(tmp_path, MODEL + f"known:\n  - {GOOD}\n").model.known
    assert (entry.kind, entry.target, entry.by, entry.figure, entry.sure) == (
        "gap-in-stack",
        "rail.foot.3",
        "JK",
        1.2,
        False,
    )
    assert (entry.at.line, entry.at.column, entry.target_at.column) == (31, 5, 30)


@pytest.mark.parametrize(
    ("entry", "found"),
    [
        ("{kind: gap-in-stack, at: skin, why: x}", []),
        ("{kind: gap_in_stack, at: rail left, why: x}", []),
        ("{kind: gap-in-stack, at: rail left.foot.3, why: x}", []),
        ("{kind: gap-in-stack, at: skin.rail, why: x}", []),
        ("{kind: no-way-in, at: rail left, why: x, sure: yes}", []),
        ("{kind: gap-in-stak, at: skin, why: x}", [("unknown-name", 5, 12)]),
        ("{kind: bad-value, at: skin, why: x}", [("bad-value", 5, 12)]),
        ("{kind: say-over-or-under, at: skin, why: x}", [("bad-value", 5, 12)]),
        ("{kind: parts-interfere, at: skin, why: x}", [("bad-value", 5, 12)]),
        ("{kind: layer-missing, at: skin, why: x, sure: no}", [("bad-value", 5, 12)]),
        ("{kind: gap-in-stack, at: 3, why: x}", [("bad-value", 5, 30)]),
        ("{kind: gap-in-stack, at: rial, why: x}", [("unknown-name", 5, 30)]),
        ("{kind: gap-in-stack, at: rail.fot, why: x}", [("unknown-name", 5, 30)]),
        ("{kind: gap-in-stack, at: rail.foot.31, why: x}", [("unknown-name", 5, 30)]),
        ("{kind: gap-in-stack, at: skin}", [("missing-word", 5, 5)]),
        ("{kind: gap-in-stack, at: skin, why: x, figure: much}", [("bad-value", 5, 52)]),
    ],
)
def test_entries_of_a_sequence(tmp_path: Path, entry: str, found: list[Place]) -> None:
    text = f"format: 1\nmodel: model.yaml\nsteps: []\nknown:\n  - {entry}\n"
    read = loaded(tmp_path, MODEL, text)
    assert places(read) == found
    assert read.sequence is not None
    assert len(read.sequence.known) == (0 if found else 1)


def test_a_grave_one_wants_to_be_sure(tmp_path: Path) -> None:
    text = MODEL + "known:\n  - {kind: no-way-in, at: skin, why: x}\n"
    assert said(loaded(tmp_path, text)).message == "`no-way-in` wants `sure: yes`."


def test_every_kind_is_written_once() -> None:
    assert len(KINDS) == len(set(KINDS))
    assert {"holes-off", "gap-drawn-shut", "last-chance", "woven-overlap", "bare-joint"} < set(KINDS)
