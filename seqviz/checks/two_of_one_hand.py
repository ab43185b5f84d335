"""The same part is on both sides, but it does not do both sides.

What it means: the entry says `both sides: same part`, and the two pieces do not lie as mirror images of
each other: a leg stands elsewhere, or a hole has no counterpart. Either the kit has a left and a right
one, and two of one hand would be riveted in; or the second piece is to be turned, and nobody said how.

A plate or a flat skin of which `face` is not said is turned over for the second side where that makes
it the mirror image of the first; nothing is said then.

What to do: hold both pieces side by side. If they are mirror twins, write `other hand`. If they are
the same, say how the part lies: `standing leg: outboard`, `face`, or the holes matched the other way
round.

Found, because the hole for the cable is at one end of the rail only:

```yaml
placed:
  rail: {part: rail, match: {foot.1: shelf skin.rail.1, foot.30: shelf skin.rail.30}, both sides: same part}
```

Goes through:

```yaml
placed:
  rail: {part: rail, match: {foot.1: shelf skin.rail.1, foot.30: shelf skin.rail.30}, both sides: other hand}
```

The rule: of two pieces of one part for both sides, each corner and each hole lies within 0.5 mm of the
mirror image of one of the other's; heights are not compared (project choice). A part whose other hand
is the same again may be entered either way, and nothing is said.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.hands import UnlikeTwins, is_flat_blank, unlike_twins
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each entry whose two pieces are no mirror images."""
    for twins in unlike_twins(build.assembly, build.model):
        yield Finding(
            kind="two-of-one-hand",
            severity="warning",
            at=build.assembly.placed[twins.left].at,
            message=f"{twins.left} and {twins.right} are the same part, but do not lie as mirror images: "
            f"{_what(twins)}.",
            why="Where the two sides differ by a mirror, a kit has a left and a right part. "
            "Two of one hand do not fit.",
            fix=f"Write `both sides: other hand` if there are two hands. {_how_it_lies(build, twins)}",
            parts=(twins.left, twins.right),
            holes=(f"{twins.left}.{twins.hole}",) if twins.hole else (),
        )


def _how_it_lies(build: Build, twins: UnlikeTwins) -> str:
    """Say what could make the same part do both sides."""
    if is_flat_blank(build.assembly.placed[twins.left].part):
        return "If the same part does both sides, leave out `face`: then the second is turned over."
    return "If the same part does both sides, say how it lies, for instance `standing leg: outboard`."


def _what(twins: UnlikeTwins) -> str:
    what = f"{twins.flat} of {twins.left}" if twins.flat else f"hole {twins.left}.{twins.hole}"
    return f"{what} has no counterpart on the other side"


CHECK = Check("two-of-one-hand", "warning", find)
