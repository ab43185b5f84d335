"""``seqviz show --window``: the window, and a thread beside it that checks and reads the files again."""

from __future__ import annotations

import queue
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING

from seqviz.cli.opening import opened
from seqviz.cli.output import MISTAKES, NO_MISTAKE, Stop, complain
from seqviz.cli.rereading import Reread, errors_text, reread, reread_of
from seqviz.cli.watching import EVERY, Watch

if TYPE_CHECKING:
    from seqviz.build import Build
    from seqviz.render.desk import Desk, News

__all__ = ["Reader", "show_window"]

_TRIES = (0.0, 0.5, 1.0)  # seconds to wait before each
_KEPT = "The files do not read any more. What you see is as it was before."
_PARTLY = "Not all of the files can be read. What is shown does without."


def show_window(file: str, *, watch: bool) -> int:
    """Open the window and stay until it is closed; return the exit code.

    Raises
    ------
    Stop
        There is no screen, or the file cannot be read at all.
    KeyboardInterrupt
        Somebody pressed Ctrl-C.
    """
    from seqviz.render.probe import SCREEN_HINT, screen_hint

    hint = screen_hint()
    if hint is not None:
        raise Stop(hint)
    made = opened(file)
    reader = Reader(file, made, watch=watch)
    with _interrupted() as stop:
        desk = _opened_desk(reader.first)
        if desk is None:
            raise Stop(SCREEN_HINT)
        reader.start()
        desk.run(reader.news, stop.is_set)
    reader.stop()
    if stop.is_set():
        raise KeyboardInterrupt
    told = reader.errors()
    if told:
        complain(told)
    return MISTAKES if told else NO_MISTAKE


def _opened_desk(first: News) -> Desk | None:
    """Open the window; a screen whose last window closed just now is away for a moment: ask again."""
    from seqviz.render.desk import Desk
    from seqviz.render.desk_window import NoScreen

    for wait in _TRIES:
        time.sleep(wait)
        with suppress(NoScreen):
            return Desk(first)
    return None


class Reader:
    """Reads and checks in a thread of its own, so that the window answers meanwhile.

    Attributes
    ----------
    first
        What the window begins with.
    """

    def __init__(self, file: str, made: Build, *, watch: bool) -> None:
        self._file = file
        self._made = made
        found = reread_of(made)
        self._good = not found.slips
        self._watch = Watch(found.files) if watch else None
        self._told: queue.Queue[News] = queue.Queue()
        self._errors: str | None = None
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._work, daemon=True)
        self.first = self._news(made, found.slips, _PARTLY)

    def start(self) -> None:
        """Begin to check, and to watch."""
        self._thread.start()

    def stop(self) -> None:
        """Wait until the thread has ended; Python must not end under it."""
        self._over.set()
        self._thread.join()

    def news(self) -> News | None:
        """Return what is new since it was asked last."""
        found = None
        try:
            while True:
                later = self._told.get_nowait()
                # Of two in a row the build of the first may be the one to show.
                found = later if later.build is not None or found is None else self._later(found, later)
        except queue.Empty:
            return found

    def errors(self) -> str:
        """Return in words how many errors are in what was shown last; nothing: none."""
        if self._errors is None:
            self._errors = self._checked()
        return self._errors

    def look(self) -> None:
        """Read the files again where they were saved."""
        if self._watch is None or not self._watch.saved():
            return
        self._watch.begin()
        found = reread(self._file)
        self._watch.done(found.files)
        if found.build is None or (found.slips and self._good):
            self._told.put(self._news(None, found.slips, _KEPT))
            return
        self._made, self._good, self._errors = found.build, not found.slips, None
        self._told.put(self._news(found.build, found.slips, _PARTLY))
        self._check(found)

    def _work(self) -> None:
        self._check(reread_of(self._made))
        while self._watch is not None and not self._over.wait(EVERY):
            self.look()

    def _check(self, found: Reread) -> None:
        """Tell of errors in the order of work; where the files have slips those come first."""
        self._errors = self._checked()
        if self._errors and not found.slips:
            self._told.put(self._news(None, (), self._errors))

    def _checked(self) -> str:
        from seqviz.checks.run import run

        try:
            return errors_text(run(self._made), self._file)
        except Exception as bug:
            failed = f"seqviz itself has failed while checking ({type(bug).__name__})."
            return f"{failed} Look: seqviz check {self._file}"

    def _news(self, build: Build | None, slips: tuple[str, ...], head: str) -> News:
        from seqviz.render.desk import News

        told = bool(slips) or head not in {_KEPT, _PARTLY}
        return News(build=build, wrong=(head, *slips) if told else ())

    def _later(self, found: News, later: News) -> News:
        from seqviz.render.desk import News

        return News(build=found.build, wrong=later.wrong)


@contextmanager
def _interrupted() -> Iterator[threading.Event]:
    """Yield what is set when somebody presses Ctrl-C; the graphics library would not let it through."""
    stop = threading.Event()
    before = signal.signal(signal.SIGINT, lambda *_told: stop.set())
    try:
        yield stop
    finally:
        signal.signal(signal.SIGINT, before)
