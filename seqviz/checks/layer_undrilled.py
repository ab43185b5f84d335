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

from seqviz.assembly.interference import only_with_heads
from seqviz.assembly.one_piece import set_there
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
        names = list(dict.fromkeys(name for name, _ in group.all))
        files = listed(dict.fromkeys(file for _, file in group.all if file))
        blank, one = listed(names), len(names) == 1
        its = "its" if one else "their"
        words = Words(
            message=f"{group.named}: {blank} {'is' if one else 'are'} solid there and "
            f"{'has' if one else 'have'} no hole for the fastener.",
            why=f"{blank} {'closes' if one else 'close'} the axis of {group.these('hole')}. "
            "A fastener wants a hole in every layer.",
            fix=f"Give {blank} a row of holes there, or correct {its} size or place.",
        )
        yield group.finding(
            "layer-undrilled", "error", _of_set(group.named, blank, files) if files else words
        )


def _of_set(named: str, blank: str, files: str) -> Words:
    """Return the words for holes on fasteners that came set in another model."""
    return Words(
        message=f"{named}: {blank} has a fastener there already, which {files} sets.",
        why="Another model as one piece comes as its sequence leaves it: what is set there stays.",
        fix="Leave these holes open in that sequence and set them here, or leave them out of the row.",
    )


def _sightings(build: Build) -> Iterator[Sighting[tuple[str, str | None]]]:
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
            file = set_there(assembly.placed[blank], stack)
            if file and (
                stack.fastener is None or any(only_with_heads(assembly, blank, part) for part in drilled)
            ):
                # It is a hole for the head, or that its heads stand in the other part is told already.
                continue
            yield Sighting(
                key=(row_of(assembly, stack), file),
                seen=(blank, file),
                at=assembly.placed[blank].at,
                parts=(blank, *dict.fromkeys(drilled)),
                stack=stack.index,
            )


CHECK = Check("layer-undrilled", "error", find)
