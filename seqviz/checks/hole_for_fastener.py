"""The hole does not suit the fastener that goes in.

What it means: the hole is narrower than the fastener wants, so that it does not go in or is forced; or it
is so wide that the shank does not fill it, and the joint works loose. Often the wrong drill was written,
or `with` names another fastener than the one that the hole is for.

What to do: correct the size's `diameter`, or the fastener that it names by `with`. Where the maker of the
fastener asks for another hole than the tables do, write it: `hole` under `hardware` goes before them.

Found, because a rivet of 4.0 mm wants a hole from 4.1 to 4.2:

```yaml
sizes:
  small: {diameter: 3.3, with: blind rivet 4.0}
```

Goes through:

```yaml
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
```

The rule: the maker's `hole`, 0.1 mm either way (project choice). Else the published holes: for solid
rivets of FAA-H-8083-31, chapter 4 (from memory), of a 1940s repair manual for 3/32 and 5/32 in; for blind
rivets of Army TM 10-5410-221-14/1, table 4-3, and of ISO 15977 (shank plus 0.1 to 0.2 mm, secondary); for
bolts AN3 to AN6 of Army TM 1-1520-240-BD, section 2-6, no wider than it says. Where sources disagree, a
hole that suits one of them suits, and a drill may wander by 0.05 mm (project choice). No fastener goes into
a hole narrower than itself; of sizes for which nothing is published only that is asked.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.assembly.fastening import fastener_named
from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.fastened import used_at
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.hole_size_differs import odd_hole
from seqviz.checks.places import hole_named, row_of, sound_stacks
from seqviz.checks.two_fasteners_named import told_there
from seqviz.checks.wording import length
from seqviz.findings import At, Finding
from seqviz.records.named import Name
from seqviz.trade.fasteners import BOLT, Fastener
from seqviz.trade.hole_limits import HoleLimits, hole_limits

__all__ = ["CHECK"]

_SLACK = 1e-6
"""mm: exactly on the limit passes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Misfit:
    """A hole that does not suit, ``wide`` mm; ``size``: the one that names what goes in."""

    name: str
    fastener: Fastener
    limits: HoleLimits
    wide: float
    size: str | None

    @property
    def narrow(self) -> bool:
        return self.wide < self.limits.least


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each size, or for each step that names what goes in."""
    for group in grouped(build, "hole-for-fastener", _sightings(build)):
        yield group.finding("hole-for-fastener", "error", _words(build, group))


def _words(build: Build, group: Group[_Misfit]) -> Words:
    seen = group.first
    wide, limits = length(build, seen.wide), seen.limits
    holes = f"Holes of size {seen.size} are" if seen.size else f"{group.named}: the hole is"
    if seen.size is None and not group.one:
        holes = f"{group.named}: the holes are"
    enters = seen.wide >= seen.fastener.diameter - _SLACK
    if not seen.narrow:
        wrong = f"too wide for {seen.name}"
        why = "The shank does not fill it, and the joint works loose."
    elif enters:
        wrong = f"too narrow for {seen.name}"
        why = "The fastener has to be forced in."
    else:
        wrong = f"and {seen.name} is {length(build, seen.fastener.diameter)} thick"
        why = "It does not go in."
    upto = "" if limits.most is None else f" to {length(build, limits.most)}"
    return Words(
        message=f"{holes} {wide} wide, {wrong}.",
        why=f"{why} {length(build, limits.least)}{upto} passes, with the spread of a drill. "
        f"{limits.citation}.",
        fix=f"Correct the diameter, or the fastener: {_other(seen)}. Where its maker asks for such a hole, "
        "write that as `hole` in `hardware`.",
    )


def _other(seen: _Misfit) -> str:
    thing = "bolt" if seen.fastener.kind == BOLT else "rivet"
    return f"a {'thinner' if seen.narrow else 'thicker'} {thing}"


def _sightings(build: Build) -> Iterator[Sighting[_Misfit]]:
    used, told = used_at(build), told_there(build)
    for stack in sound_stacks(build.assembly):
        if not stack.joins or stack.index in told or odd_hole(build.assembly, stack):
            continue
        named = used.get(stack.index)
        misfit = _misfit(build, stack, named)
        if misfit is not None:
            at = _place(build, stack, misfit, named)
            yield Sighting(
                key=(misfit.name, misfit.narrow, round(misfit.wide, 3)),
                seen=misfit,
                at=at,
                parts=tuple(dict.fromkeys(stack.parts)),
                stack=stack.index,
                figure=_beyond(misfit),
            )


def _misfit(build: Build, stack: Stack, used: Name | None) -> _Misfit | None:
    name = used.text if used else stack.fastener
    fastener = fastener_named(build.model, name) if name else None
    if name is None or fastener is None:
        return None
    own = build.model.hardware.get(name)
    limits = hole_limits(fastener, own.hole if own else None)
    holes = [hole_named(build.assembly, layer.hole) for layer in stack.layers if layer.hole]
    size = None if used else _naming(build, [hole.size for hole in holes], name)
    for wide in (min(hole.diameter for hole in holes), max(hole.diameter for hole in holes)):
        if wide < limits.least - _SLACK or (limits.most is not None and wide > limits.most + _SLACK):
            return _Misfit(name=name, fastener=fastener, limits=limits, wide=wide, size=size)
    return None


def _naming(build: Build, sizes: list[str | None], fastener: str) -> str | None:
    """Return the size among ``sizes`` that names the fastener."""
    for size in sizes:
        entry = build.model.sizes.get(size) if size else None
        if entry and entry.fastener and entry.fastener.text == fastener:
            return entry.name
    return None


def _place(build: Build, stack: Stack, misfit: _Misfit, used: Name | None) -> At:
    """Return the word to change: ``use`` of a step, else the size, else the row."""
    if used is not None:
        return used.at
    return build.model.sizes[misfit.size].at if misfit.size else row_of(build.assembly, stack)


def _beyond(misfit: _Misfit) -> float:
    if misfit.narrow or misfit.limits.most is None:
        return misfit.limits.least - misfit.wide
    return misfit.wide - misfit.limits.most


CHECK = Check("hole-for-fastener", "error", find)
