"""A part lies in the way of a hole and has none of its own there.

What it means: the axis of these holes runs into solid metal of another part. The rivet would stop
at it. Either a row is missing in that part, or it reaches farther than it should, or it lies in the
wrong place.

What to do: give the part a row of holes there, or correct its outline, length or `match`. Where a
kit leaves the part blank on purpose and you drill it through the others, give it the row all the
same: it will have those holes.

Found, because the doubler covers rail holes 1 to 3 and has no holes:

```yaml
parts:
  strap doubler: {shape: plate, thickness: 1.0, outline: [[0, 0], [60, 0], [60, 20], [0, 20]]}
```

Goes through:

```yaml
parts:
  strap doubler:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [60, 0], [60, 20], [0, 20]]
    holes:
      rim: {from: [10, 10], to: [50, 10], count: 3, size: small}
```

The rule: a part that is solid on the axis of a hole, without a hole of its own within one diameter,
is an undrilled layer (project choice), unless a `drill` step makes the hole while the part is there.
Where it has the hole, only in a wrong place of its row, that is told as `holes-off`.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import row_of, sound_stacks, strayed_stacks
from seqviz.checks.wording import listed
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each undrilled part and row."""
    for group in grouped(build, "layer-undrilled", _sightings(build)):
        blank = listed(dict.fromkeys(group.all))
        words = Words(
            message=f"{group.named}: {blank} is solid there and has no hole for the fastener.",
            why=f"{blank} closes the axis of {group.these('hole')}. A fastener wants a hole in every layer.",
            fix=f"Give {blank} a row of holes there, or correct its size or place.",
        )
        yield group.finding("layer-undrilled", "error", words)


def _sightings(build: Build) -> Iterator[Sighting[str]]:
    assembly = build.assembly
    strayed = strayed_stacks(build)
    made = build.replay.drilled if build.replay else {}
    for stack in sound_stacks(assembly):
        drilled = [layer.part for layer in stack.layers if layer.hole]
        for blank in dict.fromkeys(layer.part for layer in stack.layers if layer.hole is None):
            if (
                blank in drilled
                or stack.index in strayed.get(blank, ())
                or blank in made.get(stack.index, ())
            ):
                continue
            yield Sighting(
                key=(row_of(assembly, stack),),
                seen=blank,
                at=assembly.placed[blank].at,
                parts=(blank, *dict.fromkeys(drilled)),
                stack=stack.index,
            )


CHECK = Check("layer-undrilled", "error", find)
