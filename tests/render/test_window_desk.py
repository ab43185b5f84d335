"""The window's tests run in a process of their own: after drawing in memory the library opens no window."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.render.screen import NEEDS_SCREEN

CASES = Path(__file__).with_name("window_desk_cases.py")


@NEEDS_SCREEN
def test_the_window_does_what_keys_and_mouse_ask() -> None:
    asked = [sys.executable, "-m", "pytest", "-n", "0", "-p", "no:cacheprovider", str(CASES)]
    done = subprocess.run(asked, capture_output=True, text=True, check=False, cwd=CASES.parents[2])
    assert done.returncode == 0, done.stdout
    assert "[100%]" in done.stdout
