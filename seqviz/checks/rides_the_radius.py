"""A flat reaches into the bend of the part on which it lies.

What it means: the edge of this sheet runs past the end of the flat beneath it and lies on the
inside of a bend. The sheet stands on the radius instead of lying flat: it rocks, the rivets beside
the bend pull it down and dent it, and its edge scratches the bend, where cracks begin.

What to do: keep the edge clear of the bend: shorten the sheet, move its row, or place a shim as
thick as the radius needs beneath it. A small overlap is filed or chamfered away. Settle it under
`known` when the drawing shows a chamfer there.

Found, because the angle's bend takes 4 mm and the strap reaches to 3 mm from its corner:

```yaml
parts:
  rail:  {shape: angle, length: 200, thickness: 1.6, legs: [25, 25], bend radius: 2.4}
  strap: {shape: plate, thickness: 1.0, outline: [[0, 3], [40, 3], [40, 25], [0, 25]]}
```

Goes through:

```yaml
parts:
  rail:  {shape: angle, length: 200, thickness: 1.6, legs: [25, 25], bend radius: 2.4}
  strap: {shape: plate, thickness: 1.0, outline: [[0, 5], [40, 5], [40, 25], [0, 25]]}
```

The rule: the edge of a flat ends before the bend of the part on which it lies (common practice, no
source). Where it meets more than the bend, the standing leg for instance, that is told as
`parts-interfere` and not here.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.interference import Riding, riding
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import entries_of, farther_first
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each pair of parts."""
    for group in grouped(build, "rides-the-radius", _sightings(build)):
        pairs = listed(
            f"the {one.flat} of {one.rider} reaches into the bend of {one.bent}" for one in group.all
        )
        words = Words(
            message=f"{pairs[:1].upper()}{pairs[1:]}, {length(build, group.figure or 0.0)} deep.",
            why="A sheet that rides on a radius does not lie flat: rivets beside it pull it crooked, "
            "and its edge marks the bend (common practice).",
            fix="End the flat before the bend, chamfer its edge, or place a shim beneath it.",
        )
        yield group.finding("rides-the-radius", "warning", words)


def _sightings(build: Build) -> Iterator[Sighting[Riding]]:
    assembly = build.assembly
    for one in riding(assembly):
        far, near = farther_first(assembly, one.rider, one.bent)
        yield Sighting(
            key=entries_of(assembly, (near,)),
            seen=one,
            at=assembly.placed[far].at,
            parts=(far, near),
            figure=one.depth,
        )


CHECK = Check("rides-the-radius", "warning", find)
