"""Two parts lie on each other, and what the maker asks for between them is not done yet.

What it means: `preparation` asks for primer, sealant or deburring between two parts. They lie together
at the end of what is written so far, no step did it while they were apart, and nothing fastens them
yet. It is not too late: one of them comes off again.

What to do: put the `prime`, `seal` or `deburr` step before the one that lays them together. Or let a
`take off` come next, where they only were fitted or drilled.

Told, because the rail lies on the floor and no step primed either:

```yaml
preparation:
  - {between: [rail, floor], what: prime}
finished: no
steps:
  - place: rail
```

Nothing to tell:

```yaml
steps:
  - prime: rail
  - place: rail
```

The rule: what is asked for between two parts that touch is done while they are apart (project choice). Once a
fastener that stays goes through both, or the sequence says that it is finished, it is `prep-missed`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.prep_missed import pairs_named, reason, sightings_of
from seqviz.checks.preparations import DONE, bare_joints
from seqviz.checks.wording import steps_named
from seqviz.findings import Finding, Related

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one note for each entry of `preparation` and step that lays parts together."""
    if build.sequence is None or build.sequence.finished:
        return
    bare = (joint for joint in bare_joints(build) if not joint.fastened)
    for group in grouped(build, "bare-joint", sightings_of(bare)):
        joint = group.first
        asked, done = joint.asked, DONE[joint.asked.what]
        late = sorted({number for each in group.all for number in each.late})
        tail = f" {steps_named(late).capitalize()} came when they lay together." if late else ""
        words = Words(
            message=f"Step {joint.step} lays {pairs_named(group, 'on')}, and nothing was {done} "
            f"between them.{tail}",
            why=f"{reason(joint)} The faces are out of reach while they lie on each other.",
            fix=f"Add a {asked.what} step before step {joint.step}, or take one of them off before it is "
            f"fastened, {asked.what} it, and place it again.",
        )
        related = [Related(at=asked.at, message=f"Asked for here: {asked.what} between them.")]
        yield group.finding("bare-joint", "note", words, steps=(joint.step, *late), related=related)


CHECK = Check("bare-joint", "note", find)
