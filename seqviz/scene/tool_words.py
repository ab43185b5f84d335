"""Which of the builder's tools reaches what, in words."""

from __future__ import annotations

from collections.abc import Sequence

from seqviz.assembly.structure import Assembly
from seqviz.scene.phrases import ranges
from seqviz.sequence.replay_types import StepState

__all__ = ["tool_words", "with_tools"]


def with_tools(tools: Sequence[str]) -> str:
    """Return ``with the hand puller``, ``with the gun at the head and the bar at the tail``, or nothing."""
    if not tools:
        return ""
    head, *rest = tools
    if not rest:
        return f"with the {head}"
    if rest[0] == head:
        return f"with the {head} at both ends"
    return f"with the {head} at the head and the {rest[0]} at the tail"


def tool_words(assembly: Assembly, state: StepState) -> str:
    """Say which holes of a step want which tools; nothing where the same ones serve all of them."""
    holes: dict[tuple[str, ...], list[str]] = {}
    for stack in (*state.filled, *state.tightened):
        tools = state.tools.get(stack)
        if tools:
            holes.setdefault(tools, []).append(assembly.stacks[stack].holes[0])
    if len(holes) < 2:
        return ""
    told = [f"{with_tools(tools)}: {ranges(named)}" for tools, named in holes.items()]
    return " ".join(f"{one[0].upper()}{one[1:]}." for one in told)
