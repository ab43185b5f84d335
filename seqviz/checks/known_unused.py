"""An entry under `known` settles nothing.

What it means: you once looked at a finding and wrote down why it is all right. Now there is no such
finding at that place: it was put right, or the part or hole has another name, or the kind is spelt
differently. An entry that lies around could one day hide a new mistake, so seqviz asks about it.

What to do: delete the entry when the matter is put right. Otherwise look up the kind and the place
in the output of `seqviz check`, and write them as they stand there. `at` is a hole, a range of
holes, a row or a placed part, never a step. An entry for a row settles a finding only when all the
holes of the finding are in that row.

Found, because no gap is reported at this part:

```yaml
known:
  - {kind: gap-in-stack, at: cross 9, why: the drawing shows no joggle}
```

Settled:

```yaml
known:
  - {kind: gap-in-stack, at: cross 1, why: the drawing shows no joggle}
```

The rule: every entry must settle at least one finding, or have settled it until its figure grew
(project choice).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.findings import Finding
from seqviz.records.model import Known

__all__ = ["CHECK", "unused"]


def find(build: Build) -> Iterator[Finding]:
    """Yield what the reading noticed; the rest is seen when all other checks are done (`unused`)."""
    return (finding for finding in build.noticed if finding.kind == "known-unused")


def unused(entry: Known) -> Finding:
    """Return the finding for an entry that settles nothing."""
    return Finding(
        kind="known-unused",
        severity="warning",
        at=entry.at,
        message=f"There is no {entry.kind} at {entry.target} to settle.",
        why="An entry under known that settles nothing could hide a new mistake some day.",
        fix="Delete it if the matter is put right, else correct its kind or its place.",
    )


CHECK = Check("known-unused", "warning", find)
