"""Recall and false alarms by kind of mutation, as text. Run: ``python -m tests.mutations.report [DEMO ..]``."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from tests.mutations.changes import mutations
from tests.mutations.trial import Trial, demo, trial

__all__ = ["COUNTS", "SEED", "table", "trials"]

SEED = 4
COUNTS = {"practice_tray": 90, "battery_shelf": 110, "float_bay": 100}


def trials(name: str, count: int, folder: Path, seed: int = SEED) -> Iterator[Trial]:
    here = demo(name)
    for mutation in mutations(here.file, count, seed):
        yield trial(here, mutation, folder)


def table(tried: Iterable[Trial]) -> str:
    """Return lines of Markdown: what is found of what cannot be done, and what is said of what can."""
    rows: dict[str, list[Trial]] = {}
    for one in tried:
        rows.setdefault(one.mutation.kind, []).append(one)
    rows["all"] = [one for some in rows.values() for one in some]
    head = (
        "| mutation | tried | cannot be done | found | names the step | doubtful | warned | good | alarms |"
    )
    return "\n".join([head, "|---|---|---|---|---|---|---|---|---|", *(_row(k, v) for k, v in rows.items())])


def _row(kind: str, tried: list[Trial]) -> str:
    by = {word: [one for one in tried if one.verdict == word] for word in ("wrong", "doubtful", "good")}
    cells = (
        len(tried),
        len(by["wrong"]),
        sum(bool(one.findings) for one in by["wrong"]),
        sum(one.names_it for one in by["wrong"]),
        len(by["doubtful"]),
        sum(bool(one.findings) for one in by["doubtful"]),
        len(by["good"]),
        sum(bool(one.findings) for one in by["good"]),
    )
    return f"| {kind} | {' | '.join(str(cell) for cell in cells)} |"


def main() -> None:
    names = [name for name in sys.argv[1:] if name in COUNTS] or list(COUNTS)
    seed = next((int(word) for word in sys.argv[1:] if word.isdigit()), SEED)
    with tempfile.TemporaryDirectory() as folder:
        tried = [one for name in names for one in trials(name, COUNTS[name], Path(folder), seed)]
    print(table(tried))
    for one in tried:
        missed = one.verdict == "wrong" and not (one.findings and one.names_it)
        if missed or (one.verdict == "doubtful") != bool(
            one.findings and not one.error and one.verdict != "wrong"
        ):
            if one.verdict != "wrong" or missed:
                print(f"- {one}")


if __name__ == "__main__":
    main()
