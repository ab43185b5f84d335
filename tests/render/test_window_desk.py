"""The tests of window_desk_cases.py run in a process of their own: see `passed_alone`."""

from __future__ import annotations

from pathlib import Path

from tests.render.screen import NEEDS_SCREEN, passed_alone


@NEEDS_SCREEN
def test_the_window_does_what_keys_and_mouse_ask() -> None:
    passed_alone(Path(__file__).with_name("window_desk_cases.py"))
