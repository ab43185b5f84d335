"""The sheet under a flush head is thinner than the head is high.

What it means: the countersink cuts through the sheet. Its lower edge is a knife edge, the hole there is
wider than the rivet, and the head bears on the layer below instead of on this one: the joint is weak, and
the edge cracks.

What to do: dimple this sheet and what lies under it instead of cutting it, put a layer that is thick
enough under the head, or take a rivet whose head stands out. Where the sheets are dimpled, settle the
finding under `known`, for a dimple cuts nothing.

Found, because the head of a 1/8 in rivet is 1.07 mm high:

```yaml
sizes:
  flush: {diameter: No. 30, with: solid rivet 1/8, countersunk: yes}
parts:
  skin: {shape: skin, thickness: 0.8, outline: [[0, 0], [200, 0], [200, 100], [0, 100]]}
```

Goes through:

```yaml
parts:
  skin: {shape: skin, thickness: 1.2, outline: [[0, 0], [200, 0], [200, 100], [0, 100]]}
```

The rule: the layer under a flush head is at least as thick as the head is high (FAA-H-8083-31, chapter 4,
from memory); exactly as thick passes. The height is the maker's, else that of MS20426 (from memory), else
computed from head diameter and `head angle`; where neither is told the head is taken as 1.8 D wide with
100 degrees, the proportions of MS20426. It is asked of the layer that the head lies in: layer 1, unless a
step sets it from the other side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.assembly.fastening import fastener_named, sunk_in
from seqviz.assembly.structure import Layer, Stack
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import used_fasteners
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import hole_named, row_of, sound_stacks
from seqviz.checks.wording import length
from seqviz.findings import Finding
from seqviz.trade.heads import Head

__all__ = ["CHECK"]

_SLACK = 1e-6
"""mm: exactly as thick passes."""

_RULE = "FAA-H-8083-31, chapter 4, from memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Deep:
    """A flush head, the layer that it lies in, and how thick the shank is, mm."""

    name: str
    head: Head
    layer: Layer
    shank: float

    @property
    def opened(self) -> float:
        """How wide the hole comes out on the far side of the layer, mm."""
        share = self.layer.thickness / self.head.height
        return self.head.diameter - (self.head.diameter - self.shank) * share


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and layer under flush heads."""
    for group in grouped(build, "countersink-too-deep", _sightings(build)):
        yield group.finding("countersink-too-deep", "warning", _words(build, group))


def _words(build: Build, group: Group[_Deep]) -> Words:
    seen = group.first
    high, part = length(build, seen.head.height), seen.layer.part
    return Words(
        message=f"{group.named}: the flush head of {seen.name} is {high} high, and {part} under it is "
        f"{length(build, seen.layer.thickness)} thick.",
        why=f"The countersink cuts through: it leaves a knife edge, and the hole is "
        f"{length(build, seen.opened)} wide on the far side. A countersunk layer is at least as thick as the "
        f"head is high ({_RULE}). Height of the head: {seen.head.source}.",
        fix=f"Dimple {part} and what lies under it instead, lay something at least as thick as the head is "
        "high under it, or take a head that stands out. Where it is dimpled, settle this under `known`.",
    )


def _sightings(build: Build) -> Iterator[Sighting[_Deep]]:
    used, sides = used_fasteners(build), _head_sides(build)
    for stack in sound_stacks(build.assembly):
        seen = _deep(build, stack, used.get(stack.index), sides.get(stack.index, stack.head_end or 1))
        if seen is None or seen.layer.thickness >= seen.head.height - _SLACK:
            continue
        own = seen.layer.hole
        row = hole_named(build.assembly, own).at if own else row_of(build.assembly, stack)
        yield Sighting(
            key=(seen.name, round(seen.head.height, 3), round(seen.layer.thickness, 3)),
            seen=seen,
            at=row,
            parts=(seen.layer.part,),
            stack=stack.index,
            hole=own,
            figure=seen.head.height - seen.layer.thickness,
        )


def _deep(build: Build, stack: Stack, use: str | None, side: int) -> _Deep | None:
    """Return the flush head in ``stack`` with its layer; None where no head lies flush or nobody can tell."""
    name = use or stack.fastener
    head = sunk_in(build.model, name, stack.diameter, countersunk=stack.countersunk)
    layer = stack.layers[0 if side > 0 else -1]
    if head is None or head.height <= 0.0 or not stack.joins or layer.column is not None:
        return None
    fastener = fastener_named(build.model, name) if name else None
    shank = fastener.diameter if fastener else stack.diameter
    return _Deep(name=name or "the fastener", head=head, layer=layer, shank=shank)


def _head_sides(build: Build) -> dict[int, int]:
    """Return stack -> the side of the head that is in it last, +1: layer 1's."""
    sides: dict[int, int] = {}
    for state in build.replay.states if build.replay else ():
        sides |= state.head_sides
    return sides


CHECK = Check("countersink-too-deep", "warning", find)
