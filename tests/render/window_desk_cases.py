"""The window on a screen in memory, driven by keys and mouse, checked by its state and by its pixels."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from seqviz.render.desk import Desk, News
from seqviz.render.desk_state import Picked
from seqviz.render.desk_track import place_of
from seqviz.render.desk_window import PAPER_WIDTH
from tests.render.screen import NEEDS_SCREEN, clicked, dragged, key, open_desk, room
from tests.scene.tray import tray

pytestmark = NEEDS_SCREEN


@pytest.fixture(scope="module")
def opened() -> Iterator[Desk]:
    with open_desk(tray()) as desk:
        yield desk


@pytest.fixture
def desk(opened: Desk) -> Desk:
    """Return the window as it was when it opened."""
    opened.take(News(build=None, wrong=()))
    opened.state = replace(
        opened.state,
        step=0,
        time=1.0,
        playing=False,
        speed=1.0,
        shading="plain",
        hidden=frozenset(),
        ghosts=frozenset(),
        picked=None,
        sight=opened.state.sight if opened.state.sight.tilt > 0 else replace(opened.state.sight, tilt=40.0),
        whole=True,
    )
    opened.refresh()
    return opened


def blue(picture: NDArray[np.uint8]) -> int:
    """Return how many pixels above the slider are clearly blue: new parts."""
    red, green, azure = picture[:-60].astype(int).transpose(2, 0, 1)
    return int(((azure - red > 40) & (azure - green > 15)).sum())


def orange(picture: NDArray[np.uint8]) -> int:
    """Return how many pixels are vermillion: holes to be set, or what was picked."""
    red, green, azure = picture.astype(int).transpose(2, 0, 1)
    return int(((red - azure > 120) & (red - green > 70)).sum())


def middle(desk: Desk, part: str) -> tuple[float, float]:
    """Return the pixels of the middle of a part's box."""
    stock = desk.show.stock
    number = stock.number[part]
    x, y, _ = desk.view.project((stock.parts.low[number] + stock.parts.high[number]) / 2)
    return float(x), float(y)


def test_keys_go_from_step_to_step(desk: Desk) -> None:
    key(desk, "Right")
    assert (desk.state.step, desk.state.time) == (1, 1.0)
    assert blue(room(desk)) > 1000
    key(desk, "Right")
    # Step 3 places nothing: nothing is blue.
    assert desk.state.step == 2
    assert blue(room(desk)) == 0
    key(desk, "Left")
    assert desk.state.step == 1
    assert blue(room(desk)) > 1000


def test_the_slider_goes_to_the_step_under_the_mouse(desk: Desk) -> None:
    width, height = desk.window.room
    first, fifth, last = (place_of(step, width, 13) for step in (0, 4, 12))
    clicked(desk, (fifth, height - 18))
    assert desk.state.step == 4
    dragged(desk, (first, height - 18), (last + 30, height - 18))
    assert desk.state.step == 12


def test_playing_moves_parts_along_their_ways(desk: Desk) -> None:
    key(desk, "space")
    assert desk.state.playing
    assert (desk.state.step, desk.state.time) == (1, 0.0)
    seen = [room(desk)]
    for _ in range(4):
        desk.tick(0.6)
        seen.append(room(desk))
    assert blue(seen[0]) <= 300
    assert all(blue(picture) > 300 for picture in seen[1:])
    assert not np.array_equal(seen[1], seen[2])
    key(desk, "space")
    time = desk.state.time
    desk.tick(5.0)
    assert (desk.state.playing, desk.state.time) == (False, time)


def test_playing_ends_with_the_last_step(desk: Desk) -> None:
    for _ in range(12):
        key(desk, "Right")
    key(desk, "Left")
    key(desk, "space")
    key(desk, "plus")
    for _ in range(4):
        desk.tick(2.0)
    assert (desk.state.step, desk.state.time, desk.state.playing) == (12, 1.0, False)


def test_turning_over_turns_the_work(desk: Desk) -> None:
    for _ in range(8):
        key(desk, "Right")
    before = desk.view
    key(desk, "space")
    desk.tick(0.9)
    half = desk.view
    key(desk, "Right")
    after = desk.view
    # Upper is up before, lower after it; half-way neither, and the eye stays where it is over the bench.
    assert [round(float(view.up[2]), 6) for view in (before, half, after)] == [1.0, 0.0, -1.0]
    tilt = [float(view.towards @ view.up) for view in (before, half, after)]
    assert np.allclose(tilt, tilt[0])


def test_a_click_picks_a_part_and_tells_of_it(desk: Desk) -> None:
    key(desk, "Right")
    before = orange(room(desk))
    clicked(desk, middle(desk, "bottom"))
    assert desk.state.picked == Picked(part="bottom")
    told = desk.show.teller.lines(Picked(part="bottom"))
    assert told[:2] == ("bottom", "  no. 1, 0.8 thick, placed in step 1")
    assert "  under side angle left: 6350 mm2" in told
    assert orange(room(desk)) > before + 100
    clicked(desk, (5.0, 5.0))
    assert desk.state.picked is None


def test_a_click_on_a_hole_tells_its_stack(desk: Desk) -> None:
    key(desk, "Right")
    index = desk.show.build.assembly.stack_of["side angle left.foot.3"]
    stack = desk.show.build.assembly.stacks[index]
    x, y, _ = desk.view.project(stack.point + stack.axis * stack.layers[0].top)
    clicked(desk, (float(x), float(y)))
    assert desk.state.picked == Picked(part="side angle left", stack=index)
    told = desk.show.teller.lines(desk.state.picked)
    assert told[0] == "side angle left.foot.3 (also bottom.side left.3)"
    assert told[3:5] == ("  grip 1.6", "  hole 3.3 (small): pull 3.2 length 6 (grips 1.5 to 3.5)")


def test_hide_ghost_and_all_again(desk: Desk) -> None:
    key(desk, "Right")
    clicked(desk, middle(desk, "bottom"))
    full = room(desk)
    key(desk, "h")
    assert desk.state.hidden == {"bottom"}
    x, y = (round(value) for value in middle(desk, "bottom"))
    assert (room(desk)[y, x] == 255).all()
    assert not (full[y, x] == 255).all()
    key(desk, "g")
    assert (desk.state.hidden, desk.state.ghosts) == (frozenset(), frozenset({"bottom"}))
    glass = room(desk)[y, x]
    assert (glass < 255).all()
    assert (glass != full[y, x]).any()
    key(desk, "a")
    assert (desk.state.hidden, desk.state.ghosts) == (frozenset(), frozenset())
    assert np.array_equal(room(desk)[y, x], full[y, x])


def test_colours_by_layer_and_by_step(desk: Desk) -> None:
    for _ in range(2):
        key(desk, "Right")
    x, y = (round(value) for value in middle(desk, "bottom"))
    seen = []
    for name in ("1", "2", "3"):
        key(desk, name)
        seen.append(room(desk)[y, x + 20].astype(int))
    assert [desk.state.shading, len({tuple(colour) for colour in seen})] == ["by step", 3]
    # The bottom is the second layer nearly everywhere: its colour is the sky blue one.
    assert seen[1][2] - seen[1][0] > 40


def test_marks_of_the_step_are_seen_where_nothing_moves(desk: Desk) -> None:
    for _ in range(4):
        key(desk, "Right")
    assert orange(room(desk)) > 800
    desk.state = replace(desk.state, time=0.5)
    desk.refresh()
    assert orange(room(desk)) == 0


def test_dragging_turns_shifts_and_the_wheel_brings_nearer(desk: Desk) -> None:
    before = desk.state.sight
    dragged(desk, (300.0, 300.0), (380.0, 340.0))
    # The room is 760 high: 180 degrees for that many pixels. Down by 40 tilts by 9.47 towards the top.
    assert desk.state.sight.turn == pytest.approx((before.turn - 80 * 180 / 760) % 360)
    assert desk.state.sight.tilt == pytest.approx(before.tilt + 40 * 180 / 760)
    view = desk.view
    dragged(desk, (300.0, 300.0), (350.0, 300.0), "Right")
    assert view.project(desk.state.sight.centre)[0] == pytest.approx(view.size[0] / 2 - 50)
    half = desk.state.sight.half
    desk.window.interactor.MouseWheelForwardEvent()
    assert desk.state.sight.half == pytest.approx(half / 1.15)
    assert desk.state.picked is None


def test_from_under(desk: Desk) -> None:
    above = room(desk)
    tilt = desk.state.sight.tilt
    key(desk, "u")
    assert desk.state.sight.tilt == -tilt
    assert not np.array_equal(room(desk), above)
    key(desk, "u")
    assert desk.state.sight.tilt == tilt


def test_another_build_keeps_step_and_view(desk: Desk) -> None:
    for _ in range(4):
        key(desk, "Right")
    dragged(desk, (300.0, 300.0), (380.0, 340.0))
    clicked(desk, middle(desk, "bottom"))
    before, seen = desk.state, room(desk)
    desk.tick(0.0, News(build=tray(), wrong=()))
    assert desk.state == before
    assert np.array_equal(room(desk), seen)


def test_what_is_wrong_is_told_and_the_work_stays(desk: Desk) -> None:
    key(desk, "Right")
    seen = room(desk)
    paper = desk.window.pixels()[:, :PAPER_WIDTH]
    desk.tick(
        0.0, News(build=None, wrong=("The files do not read any more.", "a.yaml:3: There is no `botom`."))
    )
    assert np.array_equal(room(desk), seen)
    assert orange(desk.window.pixels()[:, :PAPER_WIDTH]) > orange(paper) + 500
    desk.tick(0.0, News(build=None, wrong=()))
    assert np.array_equal(desk.window.pixels()[:, :PAPER_WIDTH], paper)


def test_the_window_fits_another_size(desk: Desk) -> None:
    desk.window.plotter.render_window.SetSize(1000, 640)
    desk.tick(0.0)
    assert desk.window.room == (600, 640)
    assert desk.window.pixels().shape == (640, 1000, 3)
    desk.window.plotter.render_window.SetSize(1200, 760)
    desk.tick(0.0)
    assert desk.window.room == (800, 760)


def test_other_keys_do_nothing(desk: Desk) -> None:
    before = desk.state
    # Keys that the graphics library itself would answer: wire frames, stereo, the end.
    for name in ("e", "q", "r", "s", "p", "v", "F5", ""):
        key(desk, name)
    assert desk.state == before
    assert not desk.state.closed


def test_escape_ends_the_loop() -> None:
    with open_desk(tray()) as desk:
        key(desk, "Escape")
        desk.run(lambda: None, lambda: False)
        assert desk.state.closed
