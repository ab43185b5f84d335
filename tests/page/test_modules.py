"""Modules of the page that need neither page nor 3D: ticks, words, data, directions, the clock."""

from __future__ import annotations

import base64
import gzip
import math
import struct
from collections.abc import Callable, Iterator
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Browser

from tests.page.bench import Bench, opened

Ask = Callable[..., Any]


@pytest.fixture(scope="module")
def bench(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    with opened(browser, tmp_path_factory.mktemp("modules")) as bench:
        yield bench
        assert bench.mistakes == []


@pytest.fixture
def ask(bench: Bench) -> Ask:
    """Return what asks a module: its name, an expression with ``m`` for it, and what ``a`` is."""

    def answer(module: str, expression: str, handed: Any = None) -> Any:
        return bench.run(f"bench/{module}", f"const a = given; return {expression};", handed)

    return answer


def test_what_is_quoted_is_read_back_letter_by_letter(ask: Ask) -> None:
    letters = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)

    @settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
    @given(letters)
    def holds(text: str) -> None:
        assert yaml.safe_load(ask("ticks", "m.quoted(a)", text)) == text

    holds()
    assert yaml.safe_load(ask("ticks", "m.quoted('half \\ud800 of a sign')")) == "half \ufffd of a sign"


def test_ticks_as_yaml_and_out_of_it(ask: Ask) -> None:
    ticks = [
        {"step": 3, "title": 'Place "rail"\\: #1', "done": "2026-02-28"},
        {"step": 12, "title": "Zeile\u2028zwei \U0001f527", "done": "2026-03-01"},
    ]
    text = ask("ticks", "m.asYaml('a: b', 'x.yaml', a)", ticks)
    told = yaml.safe_load(text)
    assert (told["format"], told["structure"], told["sequence"]) == (1, "a: b", "x.yaml")
    assert [{**one, "done": str(one["done"])} for one in told["steps"]] == ticks
    assert ask("ticks", "m.fromYaml(a)", text) == ticks
    assert ask("ticks", "m.fromYaml(a)", text.replace("\n", "\r\n")) == ticks
    assert yaml.safe_load(ask("ticks", "m.asYaml('a', 'b', [])"))["steps"] == []


def test_long_names_show_that_they_are_shortened(ask: Ask) -> None:
    assert ask("paper", "m.shorten('rail')") == "rail"
    # 20 letters: 15 from the beginning, 5 from the end.
    assert ask("paper", "m.shorten(a, 20)", "0123456789" * 3) == "012345678901234 … 56789 (30 letters)"
    assert ask("paper", "m.shorten(a, 4)", "🔧" * 6) == "🔧🔧🔧 … 🔧 (6 letters)"


def test_data_are_unpacked(ask: Ask) -> None:
    packed = base64.b64encode(gzip.compress("größer".encode())).decode()
    assert ask("data", "new TextDecoder().decode(await m.unpack(a))", packed) == "größer"
    # One triangle of a part 10 x 5 x 0 at (1, 2, 3); rows are differences, modulo 2**16.
    rows = [0, 0, 0, 10, 0, 0, 65536 - 10, 5, 0]
    data = struct.pack("<9H2x3I2I", *rows, 0, 1, 2, 0, 1)
    work = {
        "shapes": [
            {"low": [1, 2, 3], "grain": [1, 1, 1], "vertices": [0, 3], "faces": [0, 1], "edges": [0, 1]}
        ],
        "meshes": {"vertices": [0, 18], "faces": [20, 12], "edges": [32, 8]},
    }
    body = ask(
        "data",
        """m.bodiesOf(a.work, new Uint8Array(a.bytes).buffer).map(({ points, faces, edges, low, high }) =>
            ({ points: [...points], faces: [...faces], edges: [...edges], low, high }))[0]""",
        {"work": work, "bytes": list(data)},
    )
    assert body["points"] == [1, 2, 3, 11, 2, 3, 1, 7, 3]
    assert (body["faces"], body["edges"]) == ([0, 1, 2], [0, 1])
    assert (body["low"], body["high"]) == ([1, 2, 3], [11, 7, 3])


def test_space_is_right_handed(ask: Ask) -> None:
    assert ask("space", "m.cross([1, 0, 0], [0, 1, 0])") == [0, 0, 1]
    quarter = ask("space", "m.turned(m.turning([0, 0, 1], Math.PI / 2), [2, 0, 1])")
    assert quarter == pytest.approx([0, 2, 1])
    back = ask(
        "space",
        "((by) => m.turnedBack(by, m.turned(by, [4, 5, 6])))(m.turning(m.unit([1, 2, 3]), 0.7))",
    )
    assert back == pytest.approx([4, 5, 6])
    pose = [0, -1, 0, 10, 1, 0, 0, 20, 0, 0, 1, 30]  # a quarter turn about z, then a shift
    assert ask("space", "m.placed(a, [1, 0, 0])", pose) == [10, 21, 30]
    assert ask("space", "m.inPart(a, [10, 21, 30])", pose) == [1, 0, 0]


def test_the_work_lies_with_its_forward_side_away_and_turns_half_round(ask: Ask) -> None:
    assert ask("lying", "m.firstTurn({ forward: [1, 0, 0] }, [0, 0, 1])") == pytest.approx(
        [0, -1, 0, 1, 0, 0, 0, 0, 1]
    )
    # From the eye's place: high above looks straight down, and the spot keeps its distance.
    eye = ask("camera", "m.axesOf({ round: 0, high: 30 }).eye")
    assert eye == pytest.approx([0, -math.cos(math.radians(30)), 0.5])
    assert ask("camera", "m.viewAlong(a, 12)", eye) == {"high": pytest.approx(30), "round": pytest.approx(0)}
    assert ask("camera", "m.viewAlong([0, 0, 1], 12)") == {"high": pytest.approx(90), "round": 12}


def test_the_clock_tells_steps_and_rests_between_them(ask: Ask) -> None:
    told = ask(
        "timeline",
        """(() => {
          const [own, frames, told] = [[requestAnimationFrame, performance.now], [], []]; let now = 0;
          globalThis.requestAnimationFrame = (draw) => frames.push(draw); performance.now = () => now;
          const line = m.createTimeline(3, {
            draw: (k, t) => told.push([k, Math.round(100 * t) / 100, now]),
            seconds: () => 1, calm: () => false });
          line.play();
          while (frames.length) { now += 250; frames.shift()(now); }
          [globalThis.requestAnimationFrame, performance.now] = own;
          return told;
        })()""",
    )
    # The first lies done already; 1.1 s of rest, then a step of 1 s in four frames, and so on to the last.
    steps = [(k, t) for k, t, _ in told]
    assert steps == [(k, t) for k in (1, 2) for t in (0, 0.25, 0.5, 0.75, 1)]
    done, begun = (next(at for k, t, at in told if (k, t) == wanted) for wanted in ((1, 1), (2, 0)))
    assert 1100 <= begun - done <= 1500


@pytest.mark.parametrize(
    ("glassy", "above", "through"),
    # Part 1 covers all at z = 30, part 2 is the sheet in which the spot is, from z = -1 to 0.
    [([1], True, [1]), ([], False, []), ([1, 2], True, [1])],
)
def test_a_spot_is_seen_through_a_cover_of_glass_or_else_from_underneath(
    ask: Ask, glassy: list[int], above: bool, through: list[int]
) -> None:
    seen = ask(
        "sight",
        """(() => {
          const planes = [[1, 30], [2, 0], [2, -1]];
          const hit = (from, way) => {
            const met = planes.map(([part, z]) => ({ part, far: (z - from[2]) / way[2] }));
            const first = met.filter(({ far }) => far > 1e-6).sort((p, q) => p.far - q.far)[0];
            return first ? { part: first.part, point: from.map((x, k) => x + first.far * way[k]) } : null;
          };
          const lie = { turn: [1, 0, 0, 0, 1, 0, 0, 0, 1], move: [0, 0, 0] };
          return m.clearSide({ hit }, lie, [0, 0, 0], { round: 28, high: 38 }, (part) => a.includes(part));
        })()""",
        glassy,
    )
    assert (seen["side"]["high"] > 0) == above
    assert seen["through"] == through


def test_marks_tell_the_end_at_which_they_are_where_it_does_not_face_up(ask: Ask) -> None:
    up = [0, 0, -1]  # the work lies on its upper side
    outs = [[0, 0, -1], [0, 0, -1], [0, 0, 1], [0, 0.98, 0.2], [0, -1, 0]]
    step = {
        "title": "Step 1.",
        "work": None,
        "up": up,
        "up_name": "lower side",
        "bare": False,
        "marks": [{"kind": "set", "out": out} for out in outs],
    }
    told = ask(
        "bench_words",
        """(() => {
          const [told, marks, says] = ["p", "ul", "p"].map((tag) => document.createElement(tag));
          m.createBenchWords({ steps: [a], parts: [] }, { told, marks, says }).step(0);
          return Array.from(marks.children, (item) => item.textContent);
        })()""",
        step,
    )
    assert told == ["set: 2", "set: 1 from below", "set: 2 from the side"]
