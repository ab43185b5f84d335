"""Recall and false alarms by kind of mutation, as text.

Run: ``python -m tests.mutations.report [SEED] [TIMES]``; with TIMES 3 three times as many as the tests try.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from tests.mutations.changes import mutations
from tests.mutations.hands import hands
from tests.mutations.read import read
from tests.mutations.trial import ROOT, Demo, Trial, hand_trial, trial, with_structure

__all__ = ["COUNTS", "HANDS", "SEED", "hand_trials", "table", "trials", "unlike"]

SEED = 4
COUNTS = {"practice_tray": 130, "battery_shelf": 100, "float_bay": 50}
HANDS = ("practice_tray", "battery_shelf")


def trials(demo: Demo, count: int, folder: Path, seed: int = SEED) -> Iterator[Trial]:
    for mutation in mutations(demo.file, count, seed):
        yield trial(demo, mutation, folder)


def hand_trials(demo: Demo, folder: Path) -> Iterator[Trial]:
    for hand in hands(read(ROOT / "models" / f"{demo.name}.yaml")):
        yield hand_trial(demo, hand, folder)


def unlike(one: Trial) -> bool:
    """Say whether the simulation and ``check`` do not agree, or nothing names what was changed."""
    if one.verdict == "wrong":
        return not (one.findings and one.names_it)
    return one.error or bool(one.findings) != (one.verdict == "doubtful")


def table(tried: Iterable[Trial]) -> str:
    """Return lines of Markdown: what is found of what cannot be done, and what is said of what can."""
    rows: dict[str, list[Trial]] = {}
    for one in tried:
        rows.setdefault(one.mutation.kind, []).append(one)
    rows["all"] = [one for some in rows.values() for one in some]
    head = "| mutation | tried | cannot be done | found | named | doubtful | warned | good | alarms |"
    return "\n".join([head, "|---|---|---|---|---|---|---|---|---|", *(_row(k, v) for k, v in rows.items())])


def _row(kind: str, tried: list[Trial]) -> str:
    by = {word: [one for one in tried if one.verdict == word] for word in ("wrong", "doubtful", "good")}
    cells = (
        len(tried),
        len(by["wrong"]),
        sum(bool(one.findings) for one in by["wrong"]),
        sum(one.names_it for one in by["wrong"]),
        len(by["doubtful"]),
        sum(bool(one.findings) and not one.error for one in by["doubtful"]),
        len(by["good"]),
        sum(bool(one.findings) for one in by["good"]),
    )
    return f"| {kind} | {' | '.join(str(cell) for cell in cells)} |"


def main() -> None:
    seed, times = (*(int(word) for word in sys.argv[1:3]), *(SEED, 1)[len(sys.argv) - 1 :])
    tried: list[Trial] = []
    with tempfile.TemporaryDirectory() as folder:
        for name, count in COUNTS.items():
            demo = with_structure(name)
            tried += trials(demo, count * times, Path(folder), seed)
            tried += hand_trials(demo, Path(folder)) if name in HANDS else ()
    print(table(tried))
    print("\n".join(f"- {one}" for one in tried if unlike(one)))


if __name__ == "__main__":
    main()
