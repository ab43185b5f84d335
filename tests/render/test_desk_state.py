"""What keys and time do to the state of the window; nothing is drawn."""

from dataclasses import replace

import numpy as np
import pytest

from seqviz.render.desk_state import KEYS, Picked, State, at_step, pressed, ticked
from seqviz.render.sight import Sight

SIGHT = Sight(turn=0.0, tilt=40.0, centre=np.zeros(3), half=100.0)
START = State(step=0, steps=3, sight=SIGHT)


def after(state: State, *keys: str) -> State:
    for key in keys:
        state = pressed(state, key)
    return state


def test_steps_end_at_both_ends() -> None:
    assert after(START, "Left").step == 0
    assert after(START, "Right", "Right", "Right", "Right").step == 2
    assert at_step(START, -4).step == 0
    assert at_step(START, 99).step == 2


def test_right_finishes_a_step_that_is_half_done() -> None:
    half = replace(START, step=1, time=0.4, playing=True)
    assert after(half, "Right") == replace(START, step=1)
    assert after(half, "Left") == START


def test_space_plays_the_next_step_and_begins_again_at_the_end() -> None:
    playing = after(START, "space")
    assert (playing.step, playing.time, playing.playing) == (1, 0.0, True)
    assert after(playing, "space") == replace(playing, playing=False)
    assert after(replace(playing, playing=False, time=0.3), "space").time == 0.3
    again = after(at_step(START, 2), "space")
    assert (again.step, again.time) == (0, 0.0)


def test_time_goes_by_at_the_speed() -> None:
    state = replace(START, step=1, time=0.0, playing=True, speed=2.0)
    assert ticked(state, 0.5, 4.0).time == pytest.approx(0.25)
    over = ticked(state, 60.0, 4.0)
    assert (over.step, over.time, over.playing) == (1, 1.0, True)
    # A short rest between steps: 0.8 s at speed 1, 0.4 s at speed 2.
    rested = ticked(over, 0.3, 4.0)
    assert rested.step == 1
    assert rested.rest == pytest.approx(0.6)
    assert (ticked(rested, 0.1, 4.0).step, ticked(rested, 0.1, 4.0).time) == (2, 0.0)
    assert not ticked(replace(over, step=2), 0.1, 4.0).playing
    assert ticked(replace(state, playing=False), 9.0, 4.0).time == 0.0


def test_speed_is_doubled_and_halved_within_bounds() -> None:
    assert [after(START, key).speed for key in ("plus", "KP_Add", "equal")] == [2.0] * 3
    assert [after(START, key).speed for key in ("minus", "KP_Subtract")] == [0.5] * 2
    assert after(START, *["plus"] * 9).speed == 8.0
    assert after(START, *["minus"] * 9).speed == 0.25


def test_hide_and_ghost_the_picked_part_only() -> None:
    assert after(START, "h", "g") == START
    picked = replace(START, picked=Picked(part="rail", stack=4))
    hidden = after(picked, "h")
    assert (hidden.hidden, hidden.ghosts) == (frozenset({"rail"}), frozenset())
    assert after(hidden, "h").hidden == frozenset()
    ghost = after(hidden, "g")
    assert (ghost.hidden, ghost.ghosts) == (frozenset(), frozenset({"rail"}))
    assert after(ghost, "g").ghosts == frozenset()
    assert after(ghost, "a").ghosts == frozenset()
    assert after(ghost, "a").picked == picked.picked


def test_colours_view_and_closing() -> None:
    assert [after(START, key).shading for key in "123"] == ["plain", "by layer", "by step"]
    assert after(START, "u").sight.tilt == -40.0
    assert after(START, "U", "U").sight.tilt == 40.0
    assert after(START, "w").whole
    assert after(START, "Escape").closed
    assert after(START, "x", "F1", "") == START


def test_every_key_that_is_told_does_something() -> None:
    called = {"left,": "Left", "right": "Right", "+": "plus", "-": "minus", "esc": "Escape"}
    state = replace(START, step=1, shading="by step", picked=Picked(part="rail"), hidden=frozenset(["skin"]))
    for keys, _ in KEYS:
        for key in keys.split():
            told = replace(state, shading="plain") if key == "3" else state
            assert pressed(told, called.get(key, key)) != told, key
