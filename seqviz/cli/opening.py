"""Opening the file that a command was given."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seqviz.cli.output import Stop

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["opened"]


def opened(path: str) -> Build:
    """Read the file at ``path`` and compute everything.

    Raises
    ------
    Stop
        It cannot be read at all.
    """
    from seqviz.build import build
    from seqviz.records.source import Unreadable

    try:
        return build(path)
    except Unreadable as reason:
        raise Stop(str(reason)) from reason
