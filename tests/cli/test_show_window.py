"""The tests of show_window_cases.py run in a process of their own: see `passed_alone`."""

from __future__ import annotations

from pathlib import Path

from tests.render.screen import passed_alone


def test_the_command_opens_and_closes_windows() -> None:
    passed_alone(Path(__file__).with_name("show_window_cases.py"))
