"""Printing: to a person or a program, quietly ended when nobody listens any more."""

from __future__ import annotations

import os
import shutil
import sys
from typing import IO

from seqviz.report.style import Style

__all__ = ["MISTAKES", "NOTHING_CHECKED", "NO_MISTAKE", "Stop", "complain", "prepare", "say", "style"]

NO_MISTAKE, MISTAKES, NOTHING_CHECKED = 0, 1, 2
"""The exit codes: no error; errors were found; nothing could be checked."""

_WIDEST = 100


class Stop(Exception):  # noqa: N818 - no mistake of ours: the command ends here, with words
    """Nothing can be checked or drawn; the words say why and what to do."""


def say(text: str) -> None:
    """Print ``text`` as it is. Where the reader has gone (``| head``) the rest is dropped without a word."""
    _write(sys.stdout, text)


def complain(text: str) -> None:
    """Print ``text`` and an end of line where it does not mix with the result."""
    _write(sys.stderr, text + "\n")


def prepare() -> None:
    """Make printing safe: what a terminal cannot show becomes a question mark, never an exception."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def style() -> Style:
    """Return how to lay text out: as wide as the terminal, coloured only on one that wants it."""
    if not sys.stdout.isatty():
        return Style()
    width = min(shutil.get_terminal_size().columns, _WIDEST)
    dull = bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"
    return Style(width=max(width, 40), colour=not dull)


def _write(stream: IO[str], text: str) -> None:
    try:
        stream.write(text)
        stream.flush()
    except BrokenPipeError:
        # Python flushes again at exit; into the void, or it would complain there.
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
