"""There is air between two layers, and the rivet cannot close it.

What it means: where these layers are riveted the upper one does not touch the lower one, because it
lies on something higher beside them. A rivet pulled over air dents the sheet or comes loose. The
maker's part has a joggle there, or a shim belongs in between, or something under the part is too
thick.

What to do: look at the drawing for a joggle or a shim. Place the shim as a part of its own. Where
the drawing shows neither and the sheet really lies down, settle it under `known` with the reason.

Found, because the strap lies on the rail, 1.6 higher than the skin, and is matched on the skin 12
mm beyond it:

```yaml
placed:
  strap: {part: strap, match: {rim.1: rail left.foot.4, rim.5: shelf skin.cross 1.2}, over: rail left}
```

With a shim:

```yaml
placed:
  shim:  {part: shim, match: {eye.1: shelf skin.cross 1.2, eye.2: shelf skin.cross 1.3}}
  strap: {part: strap, match: {rim.1: rail left.foot.4, rim.5: shelf skin.cross 1.2}, over: [rail left, shim]}
```

The rule: a gap is drawn shut when it is at most 0.5 mm; or when the sheet that must bend is at most
1.6 mm thick and the gap is at most 1/20 of the way from the edge of the higher part to the nearest
hole where the sheet lies down. Any other gap needs a joggle or a shim. (Project choice, no source.)
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.gaps import Gap, gaps
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import entries_of, farther_first, sound_stacks
from seqviz.checks.wording import length
from seqviz.findings import Finding

__all__ = ["CHECK", "gap_sightings", "why_open"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each pair of parts with a gap that stays open."""
    for group in grouped(build, "gap-in-stack", gap_sightings(build, shut=False)):
        gap, wide = group.first, length(build, group.figure or 0.0)
        words = Words(
            message=f"{group.named}: {gap.upper} stands {wide} off {gap.lower}; "
            f"it needs a joggle or a shim of {wide}.",
            why=f"{why_open(build, gap)} A rivet does not close such a gap.",
            fix="Look in the drawing for a joggle, or place a shim between them.",
        )
        yield group.finding("gap-in-stack", "warning", words)


def gap_sightings(build: Build, *, shut: bool) -> Iterator[Sighting[Gap]]:
    """Yield the gaps that are drawn shut, or those that are not."""
    assembly = build.assembly
    sound = {stack.index for stack in sound_stacks(assembly)}
    for gap in gaps(assembly):
        if gap.shut is not shut or gap.stack not in sound:
            continue
        far, near = farther_first(assembly, gap.upper, gap.lower)
        yield Sighting(
            key=entries_of(assembly, (near,)),
            seen=gap,
            at=assembly.placed[far].at,
            parts=(gap.upper, gap.lower),
            stack=gap.stack,
            hole=next(layer.hole for layer in assembly.stacks[gap.stack].layers if layer.part == far),
            figure=gap.gap,
        )


def why_open(build: Build, gap: Gap) -> str:
    """Say what holds the sheet up, and how far it has to lie down."""
    if gap.under is None or gap.run is None:
        return f"Nothing lies between {gap.upper} and {gap.lower} there{_off_the_roll(build, gap)}."
    run = length(build, gap.run)
    return f"{gap.bends} lies on {gap.under}, whose edge is {run} from the nearest of these holes."


def _off_the_roll(build: Build, gap: Gap) -> str:
    """Say that a flat part cannot follow a rolled one."""
    pair = (gap.upper, gap.lower)
    rolled = [name for name in pair if build.assembly.placed[name].part.roll is not None]
    if len(rolled) != 1:
        return ""
    (other,) = set(pair) - set(rolled)
    return f": {rolled[0]} is rolled, and {other} touches it beside the holes"


CHECK = Check("gap-in-stack", "warning", find)
