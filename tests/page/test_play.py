"""What stands where, how the work lies, what is under a finger: the page's modules without 3D."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.page.bench import Bench, opened
from tests.page.work import work

WORK = "const work = (await import('try/little_work')).withBodies(given);"
TELL = """
const short = (off) => [...off].map((value) => Math.round(value * 1e4) / 1e4);
const tell = ({ there, fresh, off, fixed, news, turn }) =>
  ({ there: [...there], fresh: [...fresh], off: short(off), fixed, news, turn });
"""


@pytest.fixture(scope="module")
def bench(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    with opened(browser, tmp_path_factory.mktemp("bench")) as bench:
        yield bench
        assert bench.mistakes == []


def at(bench: Bench, step: int, t: float) -> Any:
    code = f"{WORK}{TELL} return tell(m.createPlay(work).at({step}, {t}));"
    return bench.run("bench/play", code, work())


def test_a_path_is_gone_along_by_its_length(bench: Bench) -> None:
    # 30 and 40 mm: half of it are the first 30 and 5 of the 40
    path = [[0, -30, 40], [0, 0, 40], [0, 0, 0]]
    assert bench.run("bench/play", "return m.along(given, 0.5)", path) == [0, 0, 35]
    assert bench.run("bench/play", "return m.along(given, 1)", path) == [0, 0, 0]
    assert bench.run("bench/play", "return m.along([[0, 0, 0]], 0.3)") == [0, 0, 0]


def test_a_part_comes_and_then_its_pin(bench: Bench) -> None:
    # The way takes 1 share, the holes half a one: it is half way, and half fast, at a third of the step.
    assert at(bench, 1, 0) == {
        "there": [1, 0, 0],
        "fresh": [0, 1, 0],
        "off": [0, 0, 0, 0, -30, 40, 0, 0, 0],
        "fixed": [],
        "news": 0,
        "turn": 1,
    }
    middle = at(bench, 1, 1 / 3)
    assert (middle["there"], middle["off"][3:6], middle["fixed"]) == ([1, 1, 0], [0, 0, 35], [])
    end = at(bench, 1, 1)
    assert (end["off"], end["fixed"], end["news"]) == ([0] * 9, [0], 1)


def test_a_pin_goes_as_rivets_come(bench: Bench) -> None:
    assert at(bench, 2, 0)["fixed"] == [0]
    assert (at(bench, 2, 0.5)["fixed"], at(bench, 2, 0.5)["news"]) == ([1], 1)
    assert (at(bench, 2, 1)["fixed"], at(bench, 2, 1)["news"]) == ([1, 2], 2)


def test_a_part_leaves_after_its_hole_is_free(bench: Bench) -> None:
    # Half a share for the hole, one for the way: the way is half gone at two thirds.
    assert sorted(at(bench, 5, 0)["fixed"]) == [1, 2]
    free = at(bench, 5, 1 / 3 + 1e-9)
    assert (free["fixed"], free["there"]) == ([2], [1, 1, 1])
    assert at(bench, 5, 2 / 3)["off"][6:] == [0, 0, 25]
    assert at(bench, 5, 1)["there"] == [1, 1, 0]


def test_without_a_step_all_is_there(bench: Bench) -> None:
    whole = at(bench, -1, 1)
    assert (whole["there"], whole["fixed"], whole["off"]) == ([1, 1, 1], [2], [0] * 9)


def test_pulled_apart_the_later_part_is_farther_out(bench: Bench) -> None:
    # The second of three ways goes 0.4 + 0.6 * 2/3 = 0.8 of its 70 mm back, the third all of its 50.
    apart = bench.run("bench/play", f"{WORK} return [...m.createPlay(work).apart(3, 1)]", work())
    assert [round(value, 3) for value in apart] == [0, 0, 0, 0, -16, 40, 0, 0, 50]
    assert bench.run("bench/play", f"{WORK} return [...m.createPlay(work).apart(3, 0)]", work()) == [0] * 9


def lie(bench: Bench, step: int, t: float) -> Any:
    code = f"""{WORK} const {{ createPlay }} = await import("bench/play");
    const {{ turn, move }} = m.createLying(work).at({step}, createPlay(work).at({step}, {t}));
    const short = (v) => Math.round(v * 1e6) / 1e6 + 0;
    return [turn.map(short), move.map(short)];"""
    return bench.run("bench/lying", code, work())


def test_forward_lies_away_and_the_work_on_the_bench(bench: Bench) -> None:
    # Middle of all of it: (100, 50, 8.5); forward, the base's x, becomes the bench's y.
    assert lie(bench, 0, 1) == [[0, -1, 0, 1, 0, 0, 0, 0, 1], [50, -100, 0]]


def test_turned_over_it_lies_on_its_other_side(bench: Bench) -> None:
    # About x by half a turn; what was highest, 17, lies on the bench.
    assert lie(bench, 4, 1) == [[0, 1, 0, 1, 0, 0, 0, 0, -1], [-50, -100, 17]]
    # It stays so in the next step, which has no turn; the cap that it lay on leaves, so 12 is the lowest.
    assert lie(bench, 5, 1) == [[0, 1, 0, 1, 0, 0, 0, 0, -1], [-50, -100, 12]]


def test_on_its_way_over_it_stands_on_its_edge(bench: Bench) -> None:
    turn, move = lie(bench, 4, 0.5)
    # A quarter turn: the 100 mm are upright, with y = 100 down or up: the other end is 100 above.
    assert turn[6:] in ([0, 1, 0], [0, -1, 0])
    assert move[2] in (0, 100)


PICK = (
    WORK
    + """
const state = { presence: (k) => given.presence?.[k] ?? 1, offset: (k) => given.offset?.[k] ?? [0, 0, 0] };
const picker = m.createPicker(work, state);
const rayAt = ([x, y]) => ({ from: [given.at[0] + x, given.at[1] + y, 500], way: [0, 0, -1] });
"""
)


def under(bench: Bench, place: list[float], finger: float = 6, **state: Any) -> Any:
    """Look straight down, one pixel a mm."""
    return bench.run(
        "bench/pick",
        f"{PICK} return picker.under(rayAt, {finger}, () => 1);",
        {**work(), "at": place, **state},
    )


def test_the_part_on_top_is_met(bench: Bench) -> None:
    assert under(bench, [100, 50]) == {"part": 0, "stack": None, "point": [100, 50, 2]}
    assert under(bench, [100, 10]) == {"part": 1, "stack": None, "point": [100, 10, 12]}
    assert under(bench, [300, 10]) == {"part": None, "stack": None, "point": None}


def test_a_hole_within_a_fingers_width_is_meant(bench: Bench) -> None:
    # 7 mm from the hole's middle is 5 from its rim; 9 is 7 from it, more than half a finger.
    assert under(bench, [187, 10])["stack"] == 1
    assert under(bench, [171, 10])["stack"] is None
    assert under(bench, [171, 10], finger=8)["stack"] == 1


def test_through_a_hole_the_hole_is_meant_however_large_it_is_seen(bench: Bench) -> None:
    # The boxes have no holes: looked at from above, the bar's top is at the hole's own height.
    assert under(bench, [181, 11], finger=0)["stack"] == 1
    assert under(bench, [183, 10], finger=0)["stack"] is None
    # With the cap over it, it is hidden: the cap reaches from 0 to 20.
    assert under(bench, [19, 10], finger=0) == {"part": 2, "stack": None, "point": [19, 10, 17]}


def test_what_is_hidden_or_a_ghost_is_looked_through(bench: Bench) -> None:
    assert under(bench, [100, 10], presence=[1, 2, 1])["part"] == 0
    assert under(bench, [100, 10], presence=[0, 0, 1])["part"] is None


def test_a_part_is_met_where_it_is_drawn_and_told_where_it_belongs(bench: Bench) -> None:
    offset = [[0, 0, 0], [0, 60, 30], [0, 0, 0]]
    assert under(bench, [100, 70], offset=offset) == {"part": 1, "stack": None, "point": [100, 10, 12]}
    assert under(bench, [180, 70], offset=offset)["stack"] == 1


FINE = """
const { faces, edges } = m.sorted({
  points: Float32Array.from(given.points),
  faces: Uint32Array.from(given.faces),
  edges: Uint32Array.from(given.edges),
});
return [[...faces.corners], faces.large, [...edges.corners], edges.large];
"""
SMALL = [0, 0, 0, 1, 0, 0, 0, 1, 0]


def test_small_faces_come_last(bench: Bench) -> None:
    # One of 1 mm, and a large triangle of which it is far less than a twentieth.
    points = [*SMALL, 100, 0, 0, 0, 100, 0]
    body = {"points": points, "faces": [0, 1, 2, 0, 3, 4], "edges": [0, 1, 0, 3]}
    assert bench.run("bench/fineness", FINE, body) == [[0, 3, 4, 0, 1, 2], 3, [0, 3, 0, 1], 2]


def test_a_body_of_small_faces_alone_stays_whole(bench: Bench) -> None:
    body = {"points": SMALL, "faces": [0, 1, 2], "edges": [0, 1]}
    assert bench.run("bench/fineness", FINE, body) == [[0, 1, 2], 3, [0, 1], 2]


def test_a_tag_stands_where_its_part_is_widest(bench: Bench) -> None:
    # Seven wide, five high: part 0 fills the left five columns, part 1 the right two.
    rows = [[0, 0, 0, 0, 0, 1, 1]] * 5
    spots = bench.run("bench/tags", "return m.widest(Int32Array.from(given.flat()), 7, 5)", rows)
    assert (spots[0]["part"], spots[0]["x"], spots[0]["y"]) == (0, 2, 2)
    assert {spot["part"] for spot in spots} == {0, 1}


def test_numbers_have_colour_and_pattern_and_sixty_four_are_told_apart(bench: Bench) -> None:
    code = "return given.map((n) => JSON.stringify(m.numbered(n, { tint: 1 })))"
    assert len(set(bench.run("bench/shades", code, list(range(64))))) == 64
