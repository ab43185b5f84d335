"""Parts are joined before what the maker asks for between them was done.

What it means: `preparation` asks for primer, sealant or deburring between two parts. A step has fastened
one to the other, or the work is finished, and no step did it while the faces could be reached. Bare metal
lies on bare metal, or burrs hold the sheets apart; to mend it the rivets have to come out.

What to do: put the `prime`, `seal` or `deburr` step before the parts are laid together. Where they are
fitted and drilled first, `take off` one of them, prepare it, and `place` it again before it is riveted.

Found, because the primer comes when the rail is on already:

```yaml
preparation:
  - {between: [rail, floor], what: prime}
steps:
  - place: rail
  - prime: rail
  - rivet: rail.foot
```

In time:

```yaml
steps:
  - prime: rail
  - place: rail
  - rivet: rail.foot
```

The rule: what is asked for between two parts that touch is done while they are apart, on either of them
whole or at the holes of both, before a fastener that stays goes through them (project choice). It is told
at the step that sets the first one; of parts in a finished sequence that no fastener joins, at the step that
lays them together. Before that it is only `bare-joint`. A bolt that is finger tight holds nothing yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import said_at
from seqviz.checks.preparations import DONE, BareJoint, bare_joints
from seqviz.checks.wording import listed, steps_named
from seqviz.findings import Finding, Related

__all__ = ["CHECK", "pairs_named", "reason", "sightings_of"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each entry of `preparation` and step that closes joints."""
    finished = build.sequence is not None and build.sequence.finished
    missed = (joint for joint in bare_joints(build) if joint.fastened or finished)
    for group in grouped(build, "prep-missed", sightings_of(missed)):
        late = sorted({number for joint in group.all for number in joint.late})
        step, asked = group.first.step, group.first.asked
        related = [Related(at=asked.at, message=f"Asked for here: {asked.what} between them.")]
        related += [place for k in late for place in said_at(build, k, f"Step {k} does it: too late.")]
        yield group.finding(
            "prep-missed", "warning", _words(group, late), steps=(step, *late), related=related
        )


def _words(group: Group[BareJoint], late: list[int]) -> Words:
    joint = group.first
    done, laid = DONE[joint.asked.what], min(each.laid for each in group.all)
    joins = f"fastens {pairs_named(group, 'to')}" if joint.fastened else f"lays {pairs_named(group, 'on')}"
    tail, fix = "", f"Add a {joint.asked.what} step before step {laid}, which lays them together."
    if late:
        tail = f" {steps_named(late).capitalize()} {'does' if len(late) == 1 else 'do'} it too late."
        fix = f"Move {steps_named(late)} before step {laid}, which lays them together."
    return Words(
        message=f"Step {joint.step} {joins}, and nothing was {done} between them.{tail}",
        why=f"{reason(joint)} The faces are out of reach once they lie on each other.",
        fix=f"{fix} Or take one of them off, {joint.asked.what} it, and place it again first.",
    )


def reason(joint: BareJoint) -> str:
    """Return who asks, and why where that is said."""
    return f"The model asks for it: {joint.asked.why}." if joint.asked.why else "The model asks for it."


def pairs_named(group: Group[BareJoint], word: str) -> str:
    """Return the pairs of parts with a word between the two: ``rail on floor and strap on rail``."""
    pairs = (joint.parts for joint in group.all)
    return listed(dict.fromkeys(f"{one} {word} {other}" for one, other in pairs))


def sightings_of(joints: Iterable[BareJoint]) -> Iterator[Sighting[BareJoint]]:
    """Yield each joint; those of one entry and step are one mistake."""
    for joint in joints:
        yield Sighting(
            key=(joint.asked.at, joint.step, joint.fastened), seen=joint, at=joint.at, parts=joint.parts
        )


CHECK = Check("prep-missed", "warning", find)
