"""The window at work: what keys and mouse do, playing, and the files that are read again."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, Literal

from PIL import Image

from seqviz.build import Build
from seqviz.render.desk_draw import Painter
from seqviz.render.desk_over import Over, draw_over, marks_in_place
from seqviz.render.desk_paper import Note, draw_paper
from seqviz.render.desk_pick import Aim, picked_at
from seqviz.render.desk_show import Show, show_of
from seqviz.render.desk_state import Picked, State, at_step, pressed, ticked
from seqviz.render.desk_track import HEIGHT, draw_track, step_at
from seqviz.render.desk_window import PAPER_WIDTH, DeskWindow
from seqviz.render.sight import closer, first_sight, shifted, turned, view_of, whole_in_sight
from seqviz.render.view import View
from seqviz.scene.playing import Instant, instant, seconds_of

__all__ = ["Desk", "News"]

_STILL = 4  # pixels; a mouse that moved less between press and release has clicked
_WHEEL = 1.15
_STAYS = "What you see is as it was before."
_PAUSE, _FRAME = 0.02, 0.002  # seconds between two looks at the mouse; while playing


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class News:
    """What has become of the files: another build to show, or None; and what is wrong with them, in lines."""

    build: Build | None
    wrong: tuple[str, ...]


@dataclass(slots=True)
class _Drag:
    """A mouse button that is held: where it went down, where it was last, and what it does."""

    start: tuple[int, int]
    last: tuple[int, int]
    does: Literal["turn", "shift", "slide"]
    moved: bool = False


class Desk:
    """The open window.

    Attributes
    ----------
    state
        What is shown; whoever sets it calls `refresh`.
    """

    def __init__(self, news: News, size: tuple[int, int] = (1400, 900)) -> None:
        assert news.build is not None
        self.show: Show = show_of(news.build)
        self.wrong = news.wrong
        steps = len(self.show.film.moments)
        sight = first_sight(self.show.lies[0].after)
        self.state = State(step=0, steps=steps, sight=sight, whole=True)
        self.window = DeskWindow(size)
        self.painter = Painter(self.window, self.show)
        self._drag: _Drag | None = None
        self._size = (0, 0)
        self._drawn: State | None = None
        self._bug: Exception | None = None
        self._listen()
        self.refresh()

    def run(self, news: Callable[[], News | None], stopped: Callable[[], bool]) -> None:
        """Go on until the window is closed or ``stopped`` says so; ``news`` is asked again and again."""
        before = time.monotonic()
        while not (self.state.closed or stopped()):
            self.window.events()
            if self._bug is not None:
                raise self._bug
            now = time.monotonic()
            self.tick(now - before, news())
            before = now
            time.sleep(_FRAME if self.state.playing else _PAUSE)
        self.window.plotter.close()

    def tick(self, seconds: float, news: News | None = None) -> None:
        """Let time go by, look at the news and at the size of the window."""
        if news is not None:
            self.take(news)
        lasts = seconds_of(self.show.film, self.state.step)
        later = ticked(self.state, seconds, lasts)
        changed = replace(later, rest=0.0) != replace(self.state, rest=0.0)
        self._set(later) if changed else self._keep(later)
        if self.window.size != self._size and not self.state.closed:
            self.refresh()

    def take(self, news: News) -> None:
        """Show another build where there is one, at the same step and seen from the same place."""
        self.wrong = news.wrong
        if news.build is not None:
            try:
                self.show = show_of(news.build)
            except Exception as bug:
                self.wrong = (f"seqviz itself cannot draw this ({type(bug).__name__}). {_STAYS}", *news.wrong)
                self.refresh()
                return
            self.painter.forget(self.show)
            steps = len(self.show.film.moments)
            time_now = self.state.time
            placed = self.show.build.assembly.placed
            self.state = replace(at_step(replace(self.state, steps=steps), self.state.step), time=time_now)
            self.state = replace(self.state, picked=_still_there(self.state.picked, self.show))
            self.state = replace(
                self.state, hidden=self.state.hidden & placed.keys(), ghosts=self.state.ghosts & placed.keys()
            )
        self.refresh()

    def refresh(self) -> None:
        """Draw the state anew."""
        self._size = self.window.size
        self.window.fit()
        if self._drawn is not None and self._bench(self._drawn) != self._bench(self.state):
            self.state = replace(self.state, whole=True)
        if self.state.whole:
            self._bring_into_sight()
        self._drawn = self.state
        now, view = self.now, self.view
        self.painter.paint(self.state, now, view)
        self.window.track(self._track())
        self.window.paper(draw_paper(self._note(now), (PAPER_WIDTH, self.window.size[1])))
        self.window.over(None)
        self.window.draw()
        if self.state.time >= 1.0 and not (self._drag and self._drag.moved):
            self.window.over(draw_over(self._over(now), view, self.window.depth()))
            self.window.draw()

    @property
    def now(self) -> Instant:
        """What is there."""
        return instant(self.show.film, self.state.step, self.state.time)

    @property
    def view(self) -> View:
        """How the work is seen."""
        lie = self.show.lies[self.state.step].at(self.now.turned)
        return view_of(self.state.sight, lie, self.window.room)

    def click(self, at: tuple[float, float]) -> None:
        """Pick what is at a place of the work's room, pixels from the left and from the top."""
        now, state = self.now, self.state
        aim = Aim(
            film=self.show.film,
            stock=self.show.stock,
            stacks=self.show.build.assembly.stacks,
            instant=now,
            hidden=state.hidden | state.ghosts,
        )
        found = picked_at(aim, self.view, at)
        if found is None and state.ghosts:
            found = picked_at(replace(aim, hidden=state.hidden), self.view, at)
        self._set(replace(state, picked=found))

    def _bench(self, state: State) -> int:
        return self.show.benches[min(state.step, len(self.show.benches) - 1)]

    def _set(self, state: State) -> None:
        self.state = state
        if not state.closed:
            self.refresh()

    def _keep(self, state: State) -> None:
        self.state = state

    def _bring_into_sight(self) -> None:
        lie = self.show.lies[self.state.step].after
        corners = self.show.corners(self.state.step)
        sight = whole_in_sight(self.state.sight, lie, corners, self.window.room)
        self.state = replace(self.state, sight=sight, whole=False)

    def _note(self, now: Instant) -> Note:
        state = self.state
        scene = self.show.film.moments[state.step].scene
        rest = state.time >= 1.0
        playing = f", playing at {state.speed:g} times the speed" if state.playing else ""
        speed = f", speed {state.speed:g}" if not state.playing and state.speed != 1.0 else ""
        hidden = len((state.hidden | state.ghosts) & now.offsets.keys())
        away = f", {hidden} hidden or ghosted" if hidden else ""
        return Note(
            words=scene.words,
            progress=f"{state.step + 1} of {state.steps}, {scene.up_name} up{playing}{speed}{away}",
            picked=self.show.teller.lines(state.picked) if state.picked else (),
            wrong=self.wrong,
            marks=Counter(mark.kind for mark in scene.marks) if rest else {},
            shades=self.show.shades.key(now.offsets, state.shading),
        )

    def _over(self, now: Instant) -> Over:
        state = self.state
        drawn = now.offsets.keys() - state.hidden - state.ghosts
        numbers = self.show.shades.numbers(state.shading)
        stack = state.picked.stack if state.picked else None
        return Over(
            scene=marks_in_place(self.show.film.moments[state.step].scene, now.offsets),
            stock=self.show.stock,
            numbers={name: numbers[name] for name in sorted(drawn) if name in numbers},
            picked=None if stack is None else self.show.build.assembly.stacks[stack],
        )

    def _track(self) -> Image.Image:
        turns = [k for k, moment in enumerate(self.show.film.moments) if moment.scene.turn is not None]
        return draw_track(
            self.state.step + self.state.time - 1.0, self.state.steps, turns, self.window.room[0]
        )

    def slide(self, x: float) -> None:
        """Go to the step whose tick on the slider is nearest to ``x`` pixels from the room's left edge."""
        step = step_at(x, self.window.room[0], self.state.steps)
        if step != self.state.step or self.state.time < 1.0:
            self._set(replace(at_step(self.state, step), playing=False))

    def _listen(self) -> None:
        told: dict[str, Callable[[Any], None]] = {
            "KeyPressEvent": lambda it: self._set(pressed(self.state, it.GetKeySym() or "")),
            "LeftButtonPressEvent": lambda it: self._press(it, shifts=bool(it.GetShiftKey())),
            "RightButtonPressEvent": lambda it: self._press(it, shifts=True),
            "MiddleButtonPressEvent": lambda it: self._press(it, shifts=True),
            "MouseMoveEvent": self._move,
            "LeftButtonReleaseEvent": self._release,
            "RightButtonReleaseEvent": self._release,
            "MiddleButtonReleaseEvent": self._release,
            "MouseWheelForwardEvent": lambda _it: self._zoom(_WHEEL),
            "MouseWheelBackwardEvent": lambda _it: self._zoom(1 / _WHEEL),
            "ExitEvent": lambda _it: self._keep(replace(self.state, closed=True)),
        }
        for event in ("KeyPressEvent", "ExitEvent"):
            self.window.interactor.RemoveObservers(event)
        for event, does in told.items():
            self.window.interactor.AddObserver(event, self._calling(does))

    def _calling(self, does: Callable[[Any], None]) -> Callable[[Any, str], None]:
        """Return what the graphics library calls; what fails in it is kept, or it would print a traceback."""

        def called(interactor: Any, _event: str) -> None:
            try:
                does(interactor)
            except Exception as bug:
                self._bug = bug

        return called

    def _zoom(self, factor: float) -> None:
        self._set(replace(self.state, sight=closer(self.state.sight, factor)))

    def _press(self, interactor: Any, *, shifts: bool) -> None:
        at = interactor.GetEventPosition()
        if at[0] >= PAPER_WIDTH:
            slides = at[1] < HEIGHT and self.state.steps > 1
            self._drag = _Drag(start=at, last=at, does="slide" if slides else "shift" if shifts else "turn")
            if slides:
                self.slide(float(at[0] - PAPER_WIDTH))

    def _move(self, interactor: Any) -> None:
        drag = self._drag
        if drag is None:
            return
        at = interactor.GetEventPosition()
        moved = (float(at[0] - drag.last[0]), float(at[1] - drag.last[1]))
        drag.moved = drag.moved or max(abs(at[0] - drag.start[0]), abs(at[1] - drag.start[1])) >= _STILL
        if not drag.moved:
            return
        drag.last = at
        sight = self.state.sight
        if drag.does == "slide":
            self.slide(float(at[0] - PAPER_WIDTH))
            return
        turns = drag.does == "turn"
        after = turned(sight, moved, self.window.room[1]) if turns else shifted(sight, self.view, moved)
        self._set(replace(self.state, sight=after))

    def _release(self, interactor: Any) -> None:
        drag, self._drag = self._drag, None
        if drag is None:
            return
        if drag.moved:
            self.refresh()
        elif drag.does == "turn":
            x, y = interactor.GetEventPosition()
            self.click((float(x - PAPER_WIDTH), float(self.window.size[1] - 1 - y)))


def _still_there(picked: Picked | None, show: Show) -> Picked | None:
    """Return what was picked where it is still there; holes are counted anew, so only its part is kept."""
    if picked is None or picked.part not in show.build.assembly.placed:
        return None
    return Picked(part=picked.part)
