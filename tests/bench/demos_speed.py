"""Processor time of `check` of the demos as commands. Run: ``python -m tests.bench.demos_speed [TIMES]``.

The ratio is to a start of Python that only loads the libraries that a check needs: it says the same on a slow
or busy machine. Of some runs, three by default, the least counts.
"""

from __future__ import annotations

import resource
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
LIBRARIES = ["-c", "import numpy, shapely, yaml, typer"]
DEMOS = ["practice_tray", "battery_shelf", "float_bay"]


def cost(arguments: list[str], times: int) -> float:
    """Return the least processor time, s, of running Python with ``arguments``."""
    costs = []
    for _ in range(times):
        begin = _spent()
        subprocess.run([sys.executable, *arguments], cwd=ROOT, capture_output=True, check=True)
        costs.append(_spent() - begin)
    return min(costs)


def _spent() -> float:
    """Return the processor time, s, of all programs that ended so far."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def main() -> None:
    """Print the table."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    libraries = cost(LIBRARIES, times)
    print(f"{'libraries':<14} {libraries:5.2f} s   1.0")
    for name in DEMOS:
        spent = cost(["-m", "seqviz", "check", f"sequences/{name}.yaml"], times)
        print(f"{name:<14} {spent:5.2f} s {spent / libraries:5.1f}")


if __name__ == "__main__":
    main()
