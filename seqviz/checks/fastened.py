"""What is set in a hole, in words: rivet or bolt; and what a step does to holes."""

from __future__ import annotations

from collections.abc import Iterable

from seqviz.build import Build
from seqviz.checks.places import step_numbered
from seqviz.records.named import Name
from seqviz.records.steps import Bolt, Rivet
from seqviz.scene.fasteners import fastener_of
from seqviz.trade.fasteners import BOLT

__all__ = ["deed", "fastener_word", "fills", "used_at", "used_fasteners"]


def fastener_word(build: Build, stacks: Iterable[int]) -> str:
    """Return ``rivet`` or ``bolt``, whichever all of ``stacks`` take, else ``fastener``."""
    used = used_fasteners(build)
    kinds = {fastener_of(build.model, build.assembly.stacks[k], used.get(k)).kind == BOLT for k in stacks}
    if len(kinds) > 1:
        return "fastener"
    return "bolt" if kinds == {True} else "rivet"


def deed(build: Build, number: int | None) -> str:
    """Return the word of what the step does to holes: ``rivet`` or ``bolt``."""
    step = step_numbered(build, number) if number is not None else None
    return "bolt" if step and isinstance(step.action, Bolt) else "rivet"


def fills(build: Build, number: int) -> str:
    """Return ``rivets`` or ``bolts``: what the step does."""
    return f"{deed(build, number)}s"


def used_fasteners(build: Build) -> dict[int, str]:
    """Return stack -> the fastener that the last step which filled it named by ``use``."""
    return {stack: name.text for stack, name in used_at(build).items()}


def used_at(build: Build) -> dict[int, Name]:
    """Return the same, each with the place where it is named."""
    used: dict[int, Name] = {}
    for state in build.replay.states if build.replay else ():
        action = state.step.action
        if isinstance(action, (Rivet, Bolt)) and action.use:
            used |= dict.fromkeys(state.filled, action.use)
    return used
