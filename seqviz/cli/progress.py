"""How far long work has come, on a terminal only."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

__all__ = ["progress"]


@contextmanager
def progress(doing: str) -> Iterator[Callable[[int, int], None]]:
    """Yield what is called with (done, in all); ``doing``: the word in front of the bar."""
    if not sys.stderr.isatty():
        yield lambda _done, _of: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(doing, total=None)
        yield lambda done, of: bar.update(task, completed=done, total=of)
