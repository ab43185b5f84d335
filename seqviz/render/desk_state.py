"""What the window shows, as data, and what its keys do to it; nothing here draws."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from seqviz.render.sight import Sight, from_other_side

__all__ = ["KEYS", "Picked", "Shading", "State", "at_step", "pressed", "ticked"]

Shading = Literal["plain", "by layer", "by step"]

KEYS: tuple[tuple[str, str], ...] = (
    ("left, right", "step back, step on"),
    ("space", "play, or stop playing"),
    ("+  -", "play faster, slower"),
    ("u", "look from under, from above"),
    ("w", "the whole work in sight"),
    ("h  g", "hide, ghost the picked part"),
    ("a", "all parts again"),
    ("1 2 3", "plain, by layer, by step"),
    ("esc", "close"),
)
"""What to press, and what it does; told in the window and in ``--help``."""

_SLOWEST, _FASTEST = 0.25, 8.0
_REST = 0.8  # seconds between two steps, so that one sees what was done
_SHADINGS: dict[str, Shading] = {"1": "plain", "2": "by layer", "3": "by step"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked:
    """What was clicked: a placed part, or a hole stack and the part on whose face it was clicked."""

    part: str
    stack: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """What the window shows.

    Attributes
    ----------
    step, steps
        The step's place, from 0, and how many there are.
    time
        0 before the step, 1 after it.
    rest
        Seconds for which the step has been over while playing.
    hidden, ghosts
        Placed parts that are not drawn, and those drawn as if of glass.
    whole
        True: the whole work is to be brought into sight.
    closed
        True: the window is to be closed.
    """

    step: int
    steps: int
    sight: Sight
    time: float = 1.0
    rest: float = 0.0
    playing: bool = False
    speed: float = 1.0
    shading: Shading = "plain"
    hidden: frozenset[str] = frozenset()
    ghosts: frozenset[str] = frozenset()
    picked: Picked | None = None
    whole: bool = False
    closed: bool = False


def at_step(state: State, step: int) -> State:
    """Return the state after the nearest step there is, at rest."""
    return replace(state, step=min(max(step, 0), state.steps - 1), time=1.0, rest=0.0)


def pressed(state: State, key: str) -> State:
    """Return the state after a key; other keys do nothing.

    Parameters
    ----------
    key
        As the window system calls it: ``Right``, ``space``, ``plus``, ``u``.
    """
    if key in _SHADINGS:
        return replace(state, shading=_SHADINGS[key])
    does = _DOES.get(key) or _DOES.get(key.lower())
    return does(state) if does else state


def ticked(state: State, seconds: float, lasts: float) -> State:
    """Return the state when ``seconds`` have gone by; the step ``lasts`` so long at speed 1."""
    if not state.playing:
        return state
    gone = seconds * state.speed
    if state.time < 1.0:
        return replace(state, time=min(state.time + gone / lasts, 1.0))
    if state.step == state.steps - 1:
        return replace(state, playing=False, rest=0.0)
    if state.rest + gone < _REST:
        return replace(state, rest=state.rest + gone)
    return replace(state, step=state.step + 1, time=0.0, rest=0.0)


def _back(state: State) -> State:
    return at_step(replace(state, playing=False), state.step - 1)


def _on(state: State) -> State:
    """A step that is half done is finished first."""
    return at_step(replace(state, playing=False), state.step + (state.time >= 1.0))


def _play(state: State) -> State:
    if state.playing:
        return replace(state, playing=False)
    if state.time < 1.0:
        return replace(state, playing=True)
    step = 0 if state.step == state.steps - 1 else state.step + 1
    return replace(state, playing=True, step=step, time=0.0, rest=0.0)


def _faster(state: State) -> State:
    return replace(state, speed=min(state.speed * 2, _FASTEST))


def _slower(state: State) -> State:
    return replace(state, speed=max(state.speed / 2, _SLOWEST))


def _hide(state: State) -> State:
    if state.picked is None:
        return state
    part = state.picked.part
    return replace(state, hidden=state.hidden ^ {part}, ghosts=state.ghosts - {part})


def _ghost(state: State) -> State:
    if state.picked is None:
        return state
    part = state.picked.part
    return replace(state, ghosts=state.ghosts ^ {part}, hidden=state.hidden - {part})


def _all(state: State) -> State:
    return replace(state, hidden=frozenset(), ghosts=frozenset())


def _under(state: State) -> State:
    return replace(state, sight=from_other_side(state.sight))


def _whole(state: State) -> State:
    return replace(state, whole=True)


def _close(state: State) -> State:
    return replace(state, closed=True)


_DOES: dict[str, Callable[[State], State]] = {
    "Left": _back,
    "Right": _on,
    "space": _play,
    "plus": _faster,
    "equal": _faster,
    "KP_Add": _faster,
    "minus": _slower,
    "KP_Subtract": _slower,
    "u": _under,
    "w": _whole,
    "h": _hide,
    "g": _ghost,
    "a": _all,
    "Escape": _close,
}
