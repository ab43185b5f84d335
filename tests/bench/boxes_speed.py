"""Time and memory of `check`, part by part, and of the film: ``python -m tests.bench.boxes_speed [BOXES]``.

20 boxes, the default, are 521 parts and 7,440 fasteners. ``--profile PART`` shows where a part of the work
spends its time.
"""

from __future__ import annotations

import argparse
import cProfile
import pstats
import resource
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from seqviz.assembly.assemble import assemble
from seqviz.build import Build
from seqviz.checks.run import run
from seqviz.parts.make import make_parts
from seqviz.records.load import load
from seqviz.scene.film import film_of
from seqviz.sequence.replay import replay
from tests.bench.boxes import write

T = TypeVar("T")


class Clock:
    """Runs parts of the work, and prints the processor time of each and the greatest memory so far."""

    def __init__(self, profiled: str | None) -> None:
        self._profiled = profiled
        self.total = 0.0

    def part(self, name: str, work: Callable[[], T]) -> T:
        """Do ``work`` and print its line."""
        begin = time.process_time()
        if name == self._profiled:
            with cProfile.Profile() as profile:
                result = work()
            pstats.Stats(profile).sort_stats("tottime").print_stats(25)
        else:
            result = work()
        spent = time.process_time() - begin
        self.total += spent
        print(f"{name:<10} {spent:6.2f} s {_megabytes():6.0f} MB")
        return result


def _megabytes() -> float:
    """Return the greatest memory that the program has held so far; Linux counts it in KB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def check(path: str, clock: Clock) -> None:
    """Do what ``seqviz check`` does, part by part."""
    loaded = clock.part("reading", lambda: load(path))
    parts, part_findings = clock.part("parts", lambda: make_parts(loaded.model))
    assembly, placing_findings = clock.part("assembly", lambda: assemble(loaded.model, parts))
    played, step_findings = clock.part("replay", lambda: replay(loaded.model, assembly, loaded.sequence))
    built = Build(
        sources=loaded.sources,
        model=loaded.model,
        sequence=loaded.sequence,
        assembly=assembly,
        replay=played,
        noticed=(*loaded.findings, *part_findings, *placing_findings, *step_findings),
    )
    findings = clock.part("checks", lambda: run(built))
    checked = clock.total
    fasteners = len(played.filled_at) if played else 0
    print(f"{'all':<10} {checked:6.2f} s {_megabytes():6.0f} MB")
    print(f"{len(assembly.placed)} parts, {fasteners} fasteners, {len(findings)} findings")
    clock.part("film", lambda: film_of(built))


def main() -> None:
    """Write the files, check them and print the table."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("boxes", nargs="?", type=int, default=20)
    asked.add_argument("--profile", choices=["reading", "parts", "assembly", "replay", "checks", "film"])
    words = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        check(str(write(Path(folder), words.boxes)), Clock(words.profile))


if __name__ == "__main__":
    main()
