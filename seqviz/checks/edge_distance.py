"""A hole is too near to an edge, an opening or a bend of one of its layers.

What it means: between this hole and the edge there is less metal than the handbooks ask for. Under load
the sheet tears out there before the rivet fails; beside an opening it cracks; beside a bend the head
stands on the radius. Every layer of a stack is asked about by itself, because the hole may lie well in
the skin and too near to the edge of the strap beneath. An oversize hole that is drilled later makes it worse.

What to do: move the row in, make the part wider there, or take a thinner fastener. The finding stands at
the row of the layer that is too short. Settle it under `known` where the drawing shows it so; `figure` is
what is lacking, so that it opens again when more is.

Found, because 2 x 3.2 is 6.4 mm, and the row lies 5 mm from the strap's edge:

```yaml
made by: me
parts:
  strap:
    shape: plate
    thickness: 1
    outline: [[0, 0], [120, 0], [120, 20], [0, 20]]
    holes:
      eye: {from: [10, 5], to: [110, 5], pitch: 20, size: small}
```

Goes through, with the row in the middle:

```yaml
made by: me
parts:
  strap:
    shape: plate
    thickness: 1
    outline: [[0, 0], [120, 0], [120, 20], [0, 20]]
    holes:
      eye: {from: [10, 10], to: [110, 10], pitch: 20, size: small}
```

The rule: from the middle of the hole at least 2 D (FAA AC 43.13-1B, paragraph 4-57c(1), secondary; Army TM
10-5410-229-13&P; FAA-H-8083-31, chapter 4, from memory), with a countersunk head 2.5 D (FAA-H-8083-31,
chapter 4, from memory). D is the diameter of the fastener, of the hole where none is named. The edges are
those of the flat of that layer: its outline, its openings, and the lines at which its bends begin. A rolled
skin is measured on its flat pattern, where a roll is no edge; a part with kinks and joggles while it is
still straight, where they are none; a tube to its ends only. Asked at holes in which a fastener holds
layers together. On parts `made by: kit` all such findings are told in one note: the maker's drawing
governs. `seqviz check --rules` shows each.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
import shapely

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.cited import Asked, asked, sources
from seqviz.checks.flat_holes import GUARD, FlatHoles, fillings, flat_holes
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.sheets import Edge, edges_of, ends_at_bend
from seqviz.checks.wording import length
from seqviz.findings import Finding

__all__ = ["CHECK"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Near:
    """A hole ``away`` mm from ``what`` of ``layer``, for a fastener of ``shank`` mm."""

    layer: str
    what: str
    away: float
    shank: float
    flush: bool
    rule: Asked

    @property
    def lacks(self) -> float:
        return self.rule.mm(self.shank) - self.away


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and kind of edge that it is too near to."""
    for group in grouped(build, "edge-distance", _sightings(build)):
        yield group.finding("edge-distance", "warning", _words(build, group))


def _words(build: Build, group: Group[_Near]) -> Words:
    worst = max(group.all, key=lambda one: one.lacks)
    wants = worst.rule.mm(worst.shank)
    head = " under a countersunk head" if worst.flush else ""
    return Words(
        message=f"{group.named}: {'' if group.one else 'down to '}{length(build, worst.away)} from the "
        f"middle of {group.these('hole')} to {worst.what}, in the layer {worst.layer}; "
        f"{length(build, wants)} is asked{head}, {worst.rule.times:g} times {length(build, worst.shank)}. "
        f"{length(build, worst.lacks)} is lacking.",
        why="Nearer to an edge, an opening or a bend the sheet tears or cracks. "
        f"At least {sources(worst.rule)}",
        fix="Move the holes away from it, make the part wider there, or take a thinner fastener.",
    )


def _sightings(build: Build) -> Iterator[Sighting[_Near]]:
    rules = {flush: asked("edge", "least", flush=flush) for flush in (False, True)}
    for held in flat_holes(build):
        yield from _too_near(build, held, rules)


def _too_near(build: Build, held: FlatHoles, rules: Mapping[bool, Asked]) -> Iterator[Sighting[_Near]]:
    """Yield the holes of one flat that are too near to the nearest of its edges."""
    edges = _without_holes(edges_of(held.sheet), held)
    lines = np.array([edge.line for edge in edges], dtype=object)
    away = shapely.distance(shapely.points(held.spots)[:, None], lines[None, :])
    nearest = away.argmin(axis=1)
    least = away[np.arange(len(nearest)), nearest]
    filled = fillings(build)
    made = [filled[k] for k in held.stacks.tolist()]
    wants = np.array([rules[one.flush].mm(one.shank) for one in made])
    for k in np.flatnonzero(least < wants - GUARD).tolist():
        edge = edges[int(nearest[k])]
        what = _named(build, held, edge, at_bend=ends_at_bend(held.sheet, held.spots[k], edge))
        near = _Near(
            layer=held.placed,
            what=what,
            away=float(least[k]),
            shank=made[k].shank,
            flush=made[k].flush,
            rule=rules[made[k].flush],
        )
        yield Sighting(
            key=(what,),
            seen=near,
            at=held.at[k],
            parts=(held.placed,),
            stack=int(held.stacks[k]),
            hole=held.names[k],
            figure=near.lacks,
        )


def _without_holes(edges: list[Edge], held: FlatHoles) -> list[Edge]:
    """Leave out openings in which a hole of a row lies: in a mesh they are that hole itself."""
    spots = shapely.multipoints(held.spots)
    return [edge for edge in edges if edge.opening < 0 or not shapely.Polygon(edge.line).intersects(spots)]


def _named(build: Build, held: FlatHoles, edge: Edge, *, at_bend: bool) -> str:
    """Return ``the edge of leg 1``, ``the bend of leg 1``, ``the opening cable hole``."""
    flat = held.sheet.flat.name
    if edge.opening < 0:
        return f"the {'bend' if at_bend else 'edge'} of {flat}"
    record = build.model.parts.get(held.sheet.part.name)
    openings = getattr(record.shape, "openings", ()) if record else ()
    fits = len(openings) == len(held.sheet.flat.openings)
    name = f"the opening {openings[edge.opening].name}" if fits else f"an opening of {flat}"
    return f"the bend round {name}" if at_bend else name


CHECK = Check("edge-distance", "warning", find)
