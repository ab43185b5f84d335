"""Files that are read again when they are saved: which of them changed, and whether the saving is over."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["EVERY", "Watch", "files_of"]

EVERY = 0.25
"""Seconds between two looks."""

_GONE = 3.0
"""Seconds for which a file may be away: some editors take it away before they write it anew."""

Stamp = tuple[int, int, int] | None


class Watch:
    """Knows how files looked when they were read.

    Parameters
    ----------
    clock
        Seconds that go by; for tests.
    """

    def __init__(self, files: Iterable[str], clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._read: dict[str, Stamp] = {file: _stamp(file) for file in files}
        self._seen = self._read
        self._gone_since: float | None = None
        self._began = time.time_ns()

    def begin(self) -> None:
        """Take note that the files are read from now on."""
        self._read = {file: _stamp(file) for file in self._read}
        self._seen = self._read
        self._gone_since = None
        self._began = time.time_ns()

    def done(self, files: Iterable[str]) -> None:
        """Watch these from now on: they were read since `begin`. None at all: go on with the same."""
        listed = list(dict.fromkeys(files))
        if listed:
            self._read = {
                file: self._read[file] if file in self._read else self._new(file) for file in listed
            }
            self._seen = self._read

    def saved(self) -> bool:
        """Look at the files; say whether any is other than it was read, and none is just being written."""
        now = {file: _stamp(file) for file in self._read}
        before, self._seen = self._seen, now
        if now == self._read:
            self._gone_since = None
            return False
        if any(now[file] is None and self._read[file] is not None for file in now):
            self._gone_since = self._clock() if self._gone_since is None else self._gone_since
            return self._clock() - self._gone_since >= _GONE and now == before
        self._gone_since = None
        return now == before

    def _new(self, file: str) -> Stamp:
        """Return how a file looks that is new here; one saved while it was read counts as changed."""
        stamp = _stamp(file)
        return stamp if stamp is None or stamp[0] < self._began else (-1, -1, -1)


def files_of(build: Build) -> list[str]:
    """Return all files that a build was made from: YAML, tables of rows, meshes."""
    from seqviz.records.shape_types import MeshShape

    files = list(build.sources)
    for one in (build, *build.used):
        files += one.sources
        for part in one.model.parts.values():
            if isinstance(part.shape, MeshShape):
                folder = os.path.dirname(one.model.path or "")
                files.append(os.path.normpath(os.path.join(folder, part.shape.file.text.strip())))
    return list(dict.fromkeys(files))


def _stamp(file: str) -> Stamp:
    """Return when a file was written, its size and which file it is; None: it is not there."""
    try:
        found = os.stat(file)
    except (OSError, ValueError):
        return None
    return (found.st_mtime_ns, found.st_size, found.st_ino)
