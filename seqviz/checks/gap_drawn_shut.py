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

The rule: a gap is drawn shut when it is at most 0.5 mm; or when the sheet that must bend is at most
1.6 mm thick and the gap is at most 1/20 of the way from the edge of the higher part to the nearest
hole where the sheet lies down (project choice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.gap_in_stack import gap_sightings, why_open
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.wording import length
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one note for each pair of parts with a gap that is drawn shut."""
    for group in grouped(build, "gap-drawn-shut", gap_sightings(build, shut=True)):
        gap = group.first
        words = Words(
            message=f"{group.named}: a gap of {length(build, group.figure or 0.0)} between {gap.upper} and "
            f"{gap.lower} is drawn shut.",
            why=f"{why_open(build, gap)} The gap is small enough to close; it adds nothing to the grip.",
            fix="Pin the neighbouring holes first, so that the sheet lies down before the rivet is set.",
        )
        yield group.finding("gap-drawn-shut", "note", words)


CHECK = Check("gap-drawn-shut", "note", find)
