"""A pin stands where a tool or a part has to pass.

What it means: there would be room, but for temporary pins that are still in. Nothing is lost: pins
come out.

What to do: pull these pins before the step with `pull pins`, or turn them over with `move pins`, or
choose other holes for them with `pins`. Put them back afterwards where the parts still need
holding.

Found, because pins in the strap's own holes hold nothing yet and stop it from going down:

```yaml
steps:
  - place: rail left
    pins: all
  - place: strap
```

Passes:

```yaml
steps:
  - place: rail left
    pins: all
  - pull pins: rail left.foot.4-8
  - place: strap
```

The rule: a pin closes every way of a part that shares its hole or that would strike it. The next
hole's pin never stops a tool: it is shifted by a hole (project choice).
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import stopped_tools, stopped_ways, stopped_ways_out
from seqviz.checks.check import Check
from seqviz.checks.fastened import fastener_word
from seqviz.checks.grouping import Words, grouped
from seqviz.checks.wording import listed, spans
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step and row, or step and part, that pins stop."""
    for tools in grouped(build, "pin-in-the-way", stopped_tools(build, "pins")):
        pins = _pins(name for stopped in tools.all for name in stopped.blockers)
        word = fastener_word(build, (stopped.stack for stopped in tools.all))
        message = f"{tools.named}: a tool cannot reach {tools.these(word)} for the pins in {pins}."
        words = _words(message, tools.first.step)
        yield tools.finding("pin-in-the-way", "warning", words, steps=(tools.first.step,))
    for ways in grouped(build, "pin-in-the-way", stopped_ways(build, "pins")):
        pins = _pins(name for way in ways.all for name in way.blockers)
        names = listed(way.part for way in ways.all)
        words = _words(f"{names} cannot go in for the pins in {pins}.", ways.first.step)
        yield ways.finding("pin-in-the-way", "warning", words, steps=(ways.first.step,))
    for out in grouped(build, "pin-in-the-way", stopped_ways_out(build, "pins")):
        pins = _pins(name for way in out.all for name in way.blockers)
        names = listed(way.part for way in out.all)
        words = _words(f"{names} cannot come off for the pins in {pins}.", out.first.step)
        yield out.finding("pin-in-the-way", "warning", words, steps=(out.first.step,))


def _pins(blockers: Iterator[str]) -> str:
    return spans(name for name in blockers if "." in name)


def _words(message: str, step: int) -> Words:
    return Words(
        message=message,
        why="But for these pins there is room; they come out again.",
        fix=f"Pull these pins before step {step}, or choose other holes for them.",
    )


CHECK = Check("pin-in-the-way", "warning", find)
