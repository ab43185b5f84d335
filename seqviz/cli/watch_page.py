"""``seqviz show --watch`` without a window: the page is written again whenever the files are saved."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

from seqviz.cli.output import Stop, complain
from seqviz.cli.rereading import reread, reread_of
from seqviz.cli.watching import EVERY, Watch

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["PageWatch", "watch_page"]


class PageWatch:
    """Writes the page again where the files were saved; while they have slips the last good page stays.

    Parameters
    ----------
    write
        Writes the page of a build.
    """

    def __init__(self, file: str, made: Build, write: Callable[[Build], None]) -> None:
        found = reread_of(made)
        self._file = file
        self._write = write
        self._good = not found.slips
        self._watch = Watch(found.files)

    def look(self) -> None:
        """Look at the files once."""
        if not self._watch.saved():
            return
        self._watch.begin()
        found = reread(self._file)
        self._watch.done(found.files)
        for line in found.slips:
            complain(line)
        if found.build is None or (found.slips and self._good):
            complain("The page stays as it was before.")
            return
        self._good = not found.slips
        try:
            self._write(found.build)
        except (Stop, OSError) as trouble:
            complain(f"{trouble} The page stays as it was before.")


def watch_page(file: str, made: Build, write: Callable[[Build], None]) -> None:
    """Write the page again at every save, until Ctrl-C."""
    watch = PageWatch(file, made, write)
    complain("Watching the files. Reload the page after saving them; Ctrl-C ends it.")
    while True:
        time.sleep(EVERY)
        watch.look()
