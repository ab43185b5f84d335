"""The side that is needed lies on the bench.

What it means: there is room for the tool, or a way in for the part, but from below only, and there
is the bench. The work must be turned over first.

What to do: put a `turn over` step before this one. Where the work stands high on trestles, say so
with `bench: trestles`: then nothing is closed from below. A rivet can also be set from the other
side with `head`.

Found, because the rail's free side lies on the bench:

```yaml
up: upper
bench: flat
steps:
  - place: rail left
  - rivet: rail left.foot
    head: lower
```

In order:

```yaml
up: upper
bench: flat
steps:
  - place: rail left
  - turn over: sideways
  - rivet: rail left.foot
    head: lower
```

The rule: on a flat bench no tool and no part comes from more than 15 degrees below level (project
choice).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.fastening import fastener_named
from seqviz.build import Build
from seqviz.checks.blocked import stopped_tools, stopped_ways, stopped_ways_out
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import ToolStopped
from seqviz.trade.fasteners import BOLT, SOLID_RIVET

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row, or step and part, that the bench stops."""
    for tools in grouped(build, "wrong-side-up", stopped_tools(build, "bench")):
        step = tools.first.step
        word = fastener_word(build, (stopped.stack for stopped in tools.all))
        rivets = f"{tools.these(word)} {'is' if tools.one else 'are'}"
        message = f"{tools.named}: the side from which {rivets} set lies on the bench in step {step}."
        above = tuple(dict.fromkeys(part for stopped in tools.all for part in stopped.above))
        fix = _both_ends(build, tools.first) or _turn(step)
        yield tools.finding("wrong-side-up", "error", _words(message, above, fix), steps=(step,))
    for ways in grouped(build, "wrong-side-up", stopped_ways(build, "bench")):
        step, names = ways.first.step, listed(way.part for way in ways.all)
        message = f"{names}: the only way in is from below, and the work lies on the bench in step {step}."
        yield ways.finding("wrong-side-up", "error", _words(message, (), _turn(step)), steps=(step,))
    for out in grouped(build, "wrong-side-up", stopped_ways_out(build, "bench")):
        step, names = out.first.step, listed(way.part for way in out.all)
        message = f"{names}: the only way out is downwards, and the work lies on the bench in step {step}."
        yield out.finding("wrong-side-up", "error", _words(message, (), _turn(step)), steps=(step,))


def _words(message: str, above: tuple[str, ...], fix: str) -> Words:
    why = "On a flat bench nothing comes from more than 15 degrees below level (project choice)."
    if above:
        verb = "is" if len(above) == 1 else "are"
        why = f"From the side that is up, {listed(above)} {verb} in the way of every tool. {why}"
    return Words(message=message, why=why, fix=fix)


def _turn(step: int) -> str:
    return f"Turn the work over before step {step}, or say bench: trestles if it stands free."


def _both_ends(build: Build, stopped: ToolStopped) -> str | None:
    """Return the way out for a solid rivet or a bolt, which needs both ends free; None for others."""
    name = build.assembly.stacks[stopped.stack].fastener
    fastener = fastener_named(build.model, name) if name else None
    if fastener is None or fastener.kind not in (SOLID_RIVET, BOLT):
        return None
    return (
        f"A {fastener.kind} needs both ends free: say bench: trestles if the work stands free, "
        "or turn another side up so that it stands on edge."
    )


CHECK = Check("wrong-side-up", "error", find)
