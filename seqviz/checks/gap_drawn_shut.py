"""A small gap between two layers is drawn shut by the rivet.

What it means: the upper sheet lies on something a little higher beside these holes, and bends down
to the lower one when the rivet is pulled. The gap adds nothing to the grip. Nothing is wrong; it is
said so that you do not wonder about the air before you pull, and pin the layers tight first.

What to do: put pins in the neighbouring holes so that the sheet lies down before the rivet is set.

Told, because the strap lies on a doubler of 0.4 beside the skin:

```yaml
parts:
  doubler: {shape: plate, thickness: 0.4, outline: [[0, 0], [60, 0], [60, 20], [0, 20]]}
```

Nothing to tell, because the strap lies on the skin alone:

```yaml
placed:
  strap: {part: strap, match: {rim.1: shelf skin.cross 1.1, rim.5: shelf skin.cross 1.5}}
```

Equal gaps between parts of the same kinds are one note.

The rule: a gap is drawn shut when it is at most 0.5 mm; or when the sheet that must bend is at most
1.6 mm thick and the gap is at most 1/20 of the way from the edge of the higher part to the nearest
hole where the sheet lies down (project choice, no source).
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import replace

from seqviz.assembly.entries import Entry, entries
from seqviz.assembly.gaps import Gap
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.gap_in_stack import gap_sightings, why_open
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.wording import length, listed
from seqviz.findings import At, Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one note for each pair of kinds of parts with a gap that is drawn shut."""
    for group in grouped(build, "gap-drawn-shut", _by_kind(build, gap_sightings(build, shut=True))):
        pairs = dict.fromkeys(f"between {gap.upper} and {gap.lower}" for gap in group.all)
        gap, are = ("a gap", "is") if len(pairs) == 1 else ("gaps", "are")
        words = Words(
            message=f"{group.named}: {gap} of {length(build, group.figure or 0.0)} {listed(pairs)} "
            f"{are} drawn shut.",
            why=f"{why_open(build, group.first)} "
            "The gap is small enough to close; it adds nothing to the grip.",
            fix="Pin the neighbouring holes first, so that the sheet lies down before the rivet is set.",
        )
        yield group.finding("gap-drawn-shut", "note", words)


def _by_kind(build: Build, sightings: Iterable[Sighting[Gap]]) -> Iterator[Sighting[Gap]]:
    """Let gaps that are equally wide between parts of the same kinds stand where the first of them stands."""
    known = entries(build.model)
    first: dict[tuple[Hashable, ...], At] = {}
    for sighting in sightings:
        kinds = sorted(_kind(build, known, part) for part in sighting.parts)
        key = (*kinds, round(sighting.seen.gap, 2))
        yield replace(sighting, key=key, at=first.setdefault(key, sighting.at))


def _kind(build: Build, known: dict[str, Entry], placed: str) -> str:
    """Return the part, or the stock, that the placed part is one of."""
    record = known[placed].record if placed in known else None
    return record.stock.text if record and record.stock else build.assembly.placed[placed].part.name


CHECK = Check("gap-drawn-shut", "note", find)
