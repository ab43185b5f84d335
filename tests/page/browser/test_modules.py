"""The page's modules that need no page, asked one by one: an import map as in a page, and nothing else."""

from __future__ import annotations

import base64
import gzip
import json
import math
import struct
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.page.browser.bench import Bench
from tests.page.browser.browsing import Open, Pages
from tests.page.trial import parsed

Ask = Callable[..., Any]


@pytest.fixture(scope="module")
def empty(pages: Pages, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A page with the import map alone."""
    imports = parsed(pages("practice_tray").read_text(encoding="utf-8")).scripts["importmap"]
    path = tmp_path_factory.mktemp("empty") / "empty.html"
    path.write_text(
        f'<!DOCTYPE html><meta charset="utf-8"><script type="importmap">{imports}</script>'
        '<p class="opener" id="parts"></p><ol id="steps"><li class="opener"></li></ol>',
        encoding="utf-8",
    )
    return path


@pytest.fixture
def ask(opened: Open, empty: Path) -> Ask:
    """Return what asks a module: its name, an expression with ``m`` for it, and what ``a`` is."""
    bench: Bench = opened(empty)

    def answer(module: str, expression: str, handed: Any = None) -> Any:
        code = f"async (a) => {{ const m = await import('bench/{module}'); return {expression}; }}"
        return bench.page.evaluate(code, handed)

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


PLAYED = {
    "parts": [{"tool": False}, {"tool": False}, {"tool": True}],
    "steps": [
        {
            "work": None,
            "there": [0, 1],
            "moves": [
                {"part": 1, "piece": "rail", "path": [[0, 0, 0], [0, 0, 40], [30, 0, 40]], "leaves": False}
            ],
            "fixed_before": [],
            "fixed": [[0, 3]],
            "turn": None,
        },
        {
            "work": None,
            "there": [0],
            "moves": [{"part": 1, "piece": "rail", "path": [[0, 0, 0], [0, 0, 40]], "leaves": True}],
            "fixed_before": [[0, 3]],
            "fixed": [[2, 3]],
            "turn": {"axis": [1, 0, 0], "before": [0, 0, 1]},
        },
    ],
}
MOMENT = "(({ there, off, fixed, news, turn }) => ({ there: [...there], off: [...off], fixed, news, turn }))"


def moment(ask: Ask, step: int, t: float) -> Any:
    return ask(
        "play", f"{MOMENT}(m.createPlay(a.work).at(a.step, a.t))", {"work": PLAYED, "step": step, "t": t}
    )


def test_a_part_comes_in_along_its_way_backwards_and_then_its_pins(ask: Ask) -> None:
    start, half, end = (moment(ask, 0, t) for t in (0, 1 / 3, 1))
    assert start["there"] == [1, 0, 0]
    assert start["fixed"] == []
    # The part takes 1 of 1.5 shares, so at 1/3 it is half its way: 35 of 70 mm are left, straight up.
    assert half["there"] == [1, 1, 0]
    assert half["off"][3:6] == pytest.approx([0, 0, 35], abs=1e-3)
    assert half["fixed"] == []
    assert (end["there"], end["off"], end["fixed"], end["news"]) == ([1, 1, 0], [0.0] * 9, [0, 1, 2, 3], 4)


def test_what_leaves_goes_after_its_pins_and_before_the_turn(ask: Ask) -> None:
    # Out of holes 0.5, leaving 1, turning 1.5: a sixth, a third, a half of the time.
    at = {t: moment(ask, 1, t) for t in (0, 1 / 12, 1 / 3, 0.75, 1)}
    assert (at[0]["there"], at[0]["fixed"], at[0]["turn"]) == ([1, 1, 0], [2, 3, 0, 1], 0)
    assert at[1 / 12]["fixed"] == [2, 3, 1]
    assert at[1 / 3]["off"][3:6] == pytest.approx([0, 0, 20], abs=1e-3)
    assert (at[0.75]["there"], at[0.75]["fixed"], at[0.75]["turn"]) == ([1, 0, 0], [2, 3], pytest.approx(0.5))
    assert (at[1]["there"], at[1]["fixed"], at[1]["turn"]) == ([1, 0, 0], [2, 3], 1)


def test_without_a_step_all_is_in_place_but_templates(ask: Ask) -> None:
    whole = moment(ask, -1, 1)
    assert (whole["there"], whole["fixed"], whole["off"]) == ([1, 1, 0], [2, 3], [0.0] * 9)


def test_a_ray_meets_the_nearer_part_and_the_hole_beside_it(ask: Ask) -> None:
    square = {
        "points": [0, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0],
        "faces": [0, 1, 2, 0, 2, 3],
        "low": [0, 0, 0],
        "high": [100, 100, 0],
    }
    lying = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1]
    work = {
        "bodies": [square],
        "parts": [
            {"shape": 0, "pose": [*lying, 0], "stacks": [0]},
            {"shape": 0, "pose": [*lying, 5], "stacks": [0]},
        ],
        "stacks": [{"at": [50, 50, 2], "axis": [0, 0, 1], "diameter": 4}],
    }
    found = ask(
        "pick",
        """a.at.map(([x, y]) => m.createPicker(a.work, { presence: () => 1, offset: () => [0, 0, 0] })
            .under(([right, up]) => ({ from: [x + right, y + up, 90], way: [0, 0, -1] }), 9, () => 0.5))""",
        {"work": work, "at": [[50, 52], [20, 20], [300, 0]]},
    )
    assert found[0] == {"part": 1, "stack": 0, "point": [50, 52, 5]}
    assert found[1] == {"part": 1, "stack": None, "point": [20, 20, 5]}
    assert found[2] == {"part": None, "stack": None, "point": None}


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


def test_json_survives_the_page(pages: Pages, opened: Open) -> None:
    from tests.page.trial import unpacked

    path = pages("practice_tray")
    told = json.loads(unpacked(parsed(path.read_text(encoding="utf-8")).scripts["work"]))
    assert opened(path).work() == told
