"""How the cost of reading grows with a file, as a ratio. Run: ``python -m tests.bench.reading_speed``."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from tests.records.written import MODEL, loaded


def text_of(rows: int) -> str:
    """Return a model with that many rows of 30 holes."""
    lines = [
        f"      r {k}: {{from: [10, {k % 300}], to: [600, {k % 300}], count: 30, size: small}}"
        for k in range(rows)
    ]
    return MODEL.replace("    holes:\n      rail:", "\n".join(["    holes:", *lines, "      rail:"]))


def cost(rows: int) -> float:
    """Return the least processor time of three runs, s."""
    with tempfile.TemporaryDirectory() as folder:
        costs = []
        for _ in range(3):
            begin = time.process_time()
            loaded(Path(folder), text_of(rows))
            costs.append(time.process_time() - begin)
    return min(costs)


def main() -> None:
    """Print what ten times the rows cost."""
    few, many = cost(400), cost(4000)
    print(f"400 rows {few:.3f} s, 4,000 rows {many:.3f} s: ten times the rows cost {many / few:.1f} times")


if __name__ == "__main__":
    main()
