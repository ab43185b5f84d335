"""What a click meets: the nearest part, through a hole what is behind it, a hole where its rim is seen."""

from dataclasses import replace

import numpy as np
import pytest

from seqviz.render.desk_pick import Aim, picked_at
from seqviz.render.desk_state import Picked
from seqviz.render.desk_stock import stock_of
from seqviz.render.meshes import Meshes
from seqviz.render.view import View
from seqviz.scene.film import film_of
from seqviz.scene.playing import instant
from tests.scene.tray import tray

UP, FORWARD = np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0])
# From straight above, 4 pixels a mm, with the picture's top forward.
ABOVE = View(towards=UP, up=FORWARD, centre=np.array([100.0, 100.0, 0.0]), scale=4.0, size=(1600, 1200))
BELOW = replace(ABOVE, towards=-UP)


@pytest.fixture(scope="module")
def aim() -> Aim:
    """Return the tray after step 2: the bottom, both side angles, pins in 8 of their holes."""
    build = tray()
    film = film_of(build)
    stock = stock_of(film, Meshes())
    stacks = build.assembly.stacks
    return Aim(film=film, stock=stock, stacks=stacks, instant=instant(film, 1, 1.0), hidden=frozenset())


def at(aim: Aim, view: View, point: list[float]) -> Picked | None:
    x, y, _ = view.project(np.array(point))
    return picked_at(aim, view, (float(x), float(y)))


def hole(aim: Aim, name: str) -> tuple[int, list[float]]:
    stack = next(stack for stack in aim.stacks if name in stack.holes)
    return stack.index, stack.point.tolist()


def test_the_nearest_part_is_met(aim: Aim) -> None:
    x, y, z = hole(aim, "side angle left.foot.4")[1]
    beside = [x, y + 10.0, z]
    assert at(aim, ABOVE, beside) == Picked(part="side angle left")
    assert at(aim, BELOW, beside) == Picked(part="bottom")
    assert at(aim, ABOVE, [-300.0, 0.0, 0.0]) is None


def test_one_sees_through_what_is_hidden(aim: Aim) -> None:
    x, y, z = hole(aim, "side angle left.foot.4")[1]
    without = replace(aim, hidden=frozenset(["side angle left"]))
    assert at(without, ABOVE, [x, y + 10.0, z]) == Picked(part="bottom")


def test_an_open_hole_is_met_from_both_sides(aim: Aim) -> None:
    index, point = hole(aim, "side angle left.foot.4")
    assert at(aim, ABOVE, point) == Picked(part="side angle left", stack=index)
    assert at(aim, BELOW, point) == Picked(part="bottom", stack=index)
    # 1.4 mm beside its middle is within the hole of 3.3 mm; 4 mm beside it is not.
    assert at(aim, ABOVE, [point[0], point[1] + 1.4, 0.0]) == Picked(part="side angle left", stack=index)
    assert at(aim, ABOVE, [point[0], point[1] + 4.0, 0.0]) == Picked(part="side angle left")


def test_a_pin_is_its_hole(aim: Aim) -> None:
    pin = aim.film.fixed[aim.instant.fixed[0]]
    assert pin.kind == "pin"
    # A pin is wider than its hole: 0.8 of its half width is outside of it.
    beside = pin.point + np.array([0.0, 0.4 * pin.diameter, 0.0])
    assert at(aim, ABOVE, beside.tolist()) == Picked(part=pin.part, stack=pin.stack)


def test_a_hole_that_something_hides_is_not_met(aim: Aim) -> None:
    """With the end angles, after step 7, the foot of one covers the corner hole of the side angle."""
    film = aim.film
    later = replace(aim, instant=instant(film, 6, 1.0))
    index, point = hole(aim, "side angle left.foot.1")
    found = at(later, ABOVE, point)
    assert found is not None
    assert found.stack == index
    assert found.part != "side angle left"


def test_parts_that_move_are_met_where_they_are(aim: Aim) -> None:
    early = replace(aim, instant=instant(aim.film, 1, 0.1))
    offset = early.instant.offsets["side angle left"]
    assert offset[2] > 4.0
    number = aim.stock.number["side angle left"]
    low, high = aim.stock.parts.low[number], aim.stock.parts.high[number]
    # From aft, at the upper end of its standing leg, which is above where it belongs.
    aft = View(towards=-FORWARD, up=UP, centre=ABOVE.centre, scale=4.0, size=(1600, 1200))
    above = [low[0] + 0.4, 0.0, high[2] + offset[2] - 1.0]
    assert at(early, aft, above) == Picked(part="side angle left")
    assert at(aim, aft, above) is None
