"""A screen in memory for tests of the window; they are passed over where there is no Xvfb."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from unittest import mock

import numpy as np
import pytest
from numpy.typing import NDArray

from seqviz.build import Build
from seqviz.render.desk import Desk, News
from seqviz.render.desk_window import PAPER_WIDTH

__all__ = ["NEEDS_SCREEN", "clicked", "dragged", "key", "open_desk", "passed_alone", "room", "screen"]

NEEDS_SCREEN = pytest.mark.skipif(shutil.which("Xvfb") is None, reason="there is no Xvfb here")
SIZE = (1200, 760)


# The graphics library keeps its connection until the process ends, and dies when the screen goes before it.
_OUTLIVES = '(Xvfb "$@" & server=$!; while kill -0 "$0" 2>/dev/null; do sleep 1; done; kill $server) &'


@contextmanager
def screen() -> Iterator[None]:
    """Have a screen while in the block."""
    with mock.patch.dict(os.environ, {"DISPLAY": _display()}):
        yield


@cache
def _display() -> str:
    """Start a screen that goes away after this process, and return its name."""
    reads, writes = os.pipe()
    asked = ["-displayfd", str(writes), "-screen", "0", "1400x900x24", "-nolisten", "tcp", "-noreset"]
    subprocess.run(
        ["sh", "-c", _OUTLIVES, str(os.getpid()), *asked],
        pass_fds=(writes,),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
        check=True,
    )
    os.close(writes)
    with os.fdopen(reads) as told:
        return f":{told.readline().strip()}"


def passed_alone(cases: Path) -> None:
    """Insist that the tests of a file pass in a process that has drawn nothing in memory before.

    After that the graphics library opens no window any more.
    """
    asked = [sys.executable, "-m", "pytest", "-n", "0", "-p", "no:cacheprovider", str(cases)]
    done = subprocess.run(asked, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2])
    assert done.returncode == 0, done.stdout
    assert "[100%]" in done.stdout


@contextmanager
def open_desk(build: Build) -> Iterator[Desk]:
    """Have a window open on a build while in the block."""
    with screen():
        desk = Desk(News(build=build, wrong=()), SIZE)
        try:
            yield desk
        finally:
            desk.window.plotter.close()


def key(desk: Desk, name: str) -> None:
    """Press a key as the window system would tell it."""
    desk.window.interactor.SetKeySym(name)
    desk.window.interactor.KeyPressEvent()


def clicked(desk: Desk, at: tuple[float, float]) -> None:
    """Click at a place of the work's room, pixels from its left and its top."""
    dragged(desk, at, at)


def dragged(desk: Desk, start: tuple[float, float], end: tuple[float, float], button: str = "Left") -> None:
    """Press a mouse button at a place of the work's room, move, and let it go."""
    interactor = desk.window.interactor
    _point(desk, start)
    getattr(interactor, f"{button}ButtonPressEvent")()
    if end != start:
        _point(desk, end)
        interactor.MouseMoveEvent()
    getattr(interactor, f"{button}ButtonReleaseEvent")()


def room(desk: Desk) -> NDArray[np.uint8]:
    """Return ``(height, width, 3)``: what is seen of the work, without the paper."""
    return desk.window.pixels()[:, PAPER_WIDTH:]


def _point(desk: Desk, at: tuple[float, float]) -> None:
    x, y = round(at[0] + PAPER_WIDTH), round(desk.window.size[1] - 1 - at[1])
    desk.window.interactor.SetEventInformation(x, y, 0, 0, chr(0), 0, None)
