"""When each hole is set and with which tools."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from seqviz.scene.tool_words import with_tools
from seqviz.sequence.replay_types import Replay

__all__ = ["Setting", "settings", "settings_text"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What is in a hole at the end.

    Attributes
    ----------
    step
        Of it as it was set; of a bolt that was run on by hand as it was put in.
    tightened
        The step that tightened such a bolt.
    by_hand
        A nut is run on by hand, and nothing has tightened it yet.
    tools
        The builder's tools that reach it, the one at the head first; none where nobody asked.
    """

    step: int
    tightened: int | None = None
    by_hand: bool = False
    tools: tuple[str, ...] = ()


def settings(replay: Replay | None) -> dict[int, Setting]:
    """Return, by its stack, every fastener that is in at the end."""
    found: dict[int, Setting] = {}
    for state in replay.states if replay else ():
        number, loose = state.step.number, set(state.finger_tight)
        for stack in state.filled:
            found[stack] = Setting(step=number, by_hand=stack in loose, tools=state.tools.get(stack, ()))
        for stack in state.tightened:
            if stack in found:
                tools = state.tools.get(stack, ())
                found[stack] = Setting(step=found[stack].step, tightened=number, tools=tools)
    return {k: one for k, one in found.items() if replay and k in replay.filled_at}


def settings_text(settings: Mapping[int, Setting], stack: int) -> str:
    """Return ``set in step 7 with the hand puller``, or nothing."""
    one = settings.get(stack)
    if one is None:
        return ""
    tools = f" {with_tools(one.tools)}" if one.tools else ""
    if one.tightened is not None:
        return f"put in in step {one.step}, tightened in step {one.tightened}{tools}"
    return f"put in finger tight in step {one.step}" if one.by_hand else f"set in step {one.step}{tools}"
