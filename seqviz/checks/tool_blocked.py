"""No tool reaches a rivet any more, because a part is in the way.

What it means: in this step every tool of your list meets a part that is already there, from either
side and at every turn. You would stand at the bench with the puller in your hand and a flange under
its nose.

What to do: rivet these holes before the part in the way comes; the finding names that part, the
step that placed it, and the last step in which the holes could still be reached. Or place the part
later. Or add a slimmer tool to `tools` if you have one; give its true shape.

Found, because the strap covers the rail's holes 4 to 8 when they are to be pulled:

```yaml
steps:
  - place: [rail left, strap]
  - rivet: rail left.foot.4-8
```

In order:

```yaml
steps:
  - place: rail left
  - rivet: rail left.foot.4-8
  - place: strap
```

The rule: a tool is a body along the axis of the rivet and a straight corridor behind it for hand
and arm. It reaches when body and corridor, at one of its turns and tilts and from one of the sides,
meet nothing that is there by more than 0.05 mm. A solid rivet takes a tool at both ends, and room
for its tail before it is driven. A bolt takes a straight way in at its head, as long as the bolt,
room for its nut, a tool with room for its swing at one end and one that holds at the other. Only
parts count: neighbouring heads never do, and pins are shifted by a hole. Where your list has no
tool for such a fastener, or none for one of its ends, nothing is asked there. (Project choice; the
shapes of the tools are yours.)
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.build import Build
from seqviz.checks.blocked import culprits, stopped_tools
from seqviz.checks.check import Check
from seqviz.checks.fastened import deed, fastener_word
from seqviz.checks.grouping import Group, Words, grouped
from seqviz.checks.places import where_placed
from seqviz.checks.wording import listed
from seqviz.findings import Finding
from seqviz.sequence.replay_types import ToolStopped

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each step, row and part in the way."""
    for group in grouped(build, "tool-blocked", stopped_tools(build, "parts")):
        newest = tuple(dict.fromkeys(part for stopped in group.all for part in culprits(build, stopped)))
        step = group.first.step
        placed = {build.replay.came_at(part, step) for part in newest} if build.replay else set()
        steps = sorted(number for number in {*placed, step} if number)
        yield group.finding(
            "tool-blocked",
            "error",
            _words(build, group, newest),
            steps=steps,
            related=where_placed(build, newest, step),
        )


def _words(build: Build, group: Group[ToolStopped], newest: tuple[str, ...]) -> Words:
    step, last = group.first.step, group.first.last
    rivets, them = group.these(fastener_word(build, (stopped.stack for stopped in group.all))), group.them
    names, are = listed(newest), "is" if len(newest) == 1 else "are"
    since = listed(_with_step(build, part, step) for part in newest)
    verb = "stands" if len(newest) == 1 else "stand"
    why = f"{since} {verb} in the way of every tool that could set {them}."
    if group.first.by_hand:
        return _by_hand(build, group, newest, f"{since} {verb}")
    if last is None:
        return Words(
            message=f"{group.named}: no tool reaches {rivets} beside {names}.",
            why=f"{why} There was no earlier step with all layers there and room for a tool.",
            fix=_way_out(build, group, newest),
        )
    return Words(
        message=f"{group.named}: no tool reaches {rivets} once {names} {are} there.",
        why=why,
        fix=f"{deed(build, step).capitalize()} {them} in step {last} "
        f"{'at the latest' if last < step else 'instead'}, or place {names} after step {step}.",
    )


def _by_hand(build: Build, group: Group[ToolStopped], newest: tuple[str, ...], stand: str) -> Words:
    """Return the words where a bolt does not come in, or its nut does not come on."""
    step, last = group.first.step, group.first.last
    bolts, them = group.these(fastener_word(build, (stopped.stack for stopped in group.all))), group.them
    fix = f"Put {them} in from the other side, or place {listed(newest)} after step {step}."
    if last is not None:
        before = f"in step {last} {'at the latest' if last < step else 'instead'}"
        fix = f"Bolt {them} {before}, finger tight if need be, or place {listed(newest)} after step {step}."
    return Words(
        message=f"{group.named}: {bolts} cannot be put in beside {listed(newest)}.",
        why=f"{stand} in the straight way that {them} must come in, or where the nut must be.",
        fix=fix,
    )


def _with_step(build: Build, part: str, by: int) -> str:
    came = build.replay.came_at(part, by) if build.replay and part in build.replay.where else 0
    return f"{part} (placed in step {came})" if came else part


def _way_out(build: Build, group: Group[ToolStopped], newest: tuple[str, ...]) -> str:
    """Return what helps where holes could never be reached: parts of their own stack cannot come later."""
    own = {part for stopped in group.all for part in build.assembly.stacks[stopped.stack].parts}
    others = [part for part in newest if part not in own and part != build.assembly.base]
    if len(others) < len(newest):
        return "Add a slimmer tool to tools if you have one, or set them from the other side."
    step = group.first.step
    return f"Add a slimmer tool to tools if you have one, or place {listed(others)} after step {step}."


CHECK = Check("tool-blocked", "error", find)
