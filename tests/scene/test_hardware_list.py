"""Sums of fasteners: over steps, over the whole, with spares; counted by hand and against the replay."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.build import Build, build
from seqviz.checks.summary import summary
from seqviz.report.hardware_text import CSV_HEAD, hardware_csv, hardware_text
from seqviz.scene.hardware_list import HardwareList, hardware_of
from tests.test_uses import BOX, SKIN, TWO

DEMOS = sorted(Path(__file__).parents[2].glob("sequences/*.yaml"))

MODEL = """\
format: 1
name: Trial
base: skin
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  eighth: {diameter: 3.26, with: solid rivet 1/8}
  bolted: {diameter: 4.9, with: bolt AN3}
  odd: {diameter: 3.6, with: "-odd 3.5"}
hardware:
  "-odd 3.5": {kind: blind rivet, diameter: 3.5}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
  block: {shape: sketch, thickness: 4.0}
rows:
  foot: {layers: [rail, skin], count: 21, size: small}
  rim: {layers: [block, rail, skin], count: 3, size: small}
  edge: {layers: [rail, skin], count: 5, size: eighth}
  lug: {layers: [block, skin], count: 4, size: bolted}
  bare: {layers: [rail, skin], count: 2, diameter: 2.5}
  strange: {layers: [rail, skin], count: 1, size: odd}
later:
  - {holes: skin.foot.21, why: the strap}
"""
ORDER = """\
format: 1
model: model.yaml
up: upper
finished: no
tools:
  puller: {for: blind rivet, body: [{cylinder: 10, from: 0, to: 20}]}
steps:
  - place: [rail, block]
  - rivet: [skin.foot.1-10]
  - drill out: skin.foot.3-4
  - rivet: [skin.foot.3-4, skin.edge]
  - bolt: skin.lug
    finger tight: yes
  - bolt: skin.lug
"""


def made(folder: Path, order: str | None = ORDER, model: str = MODEL) -> Build:
    (folder / "model.yaml").write_text(model, encoding="utf-8")
    if order is None:
        return build(str(folder / "model.yaml"))
    (folder / "order.yaml").write_text(order, encoding="utf-8")
    return build(str(folder / "order.yaml"))


def told(wanted: HardwareList) -> list[tuple[str, str, str, int, int]]:
    return [(row.kind, row.name, row.take, row.needed, row.spare) for row in wanted.rows]


def test_a_model_alone_wants_what_all_its_joints_take(tmp_path: Path) -> None:
    wanted = hardware_of(made(tmp_path, None))
    assert told(wanted) == [
        # 0.8 + 1.6 = 2.4 in 20 (hole 21 comes later): 10 % are 2; 6.4 in 3: 10 % are 1, at least 2.
        ("blind rivet", "blind rivet 3.2", "length 6", 20, 2),
        ("blind rivet", "blind rivet 3.2", "length 10", 3, 2),
        ("blind rivet", "-odd 3.5", "", 1, 2),
        # 2.4 + 1.5 x 3.175 = 7.16, 5/16 in are 7.94
        ("solid rivet", "solid rivet 1/8", "length 5/16 in (4-5)", 5, 2),
        # 4.8 is .189 in: -5, grip .250, one washer
        ("bolt", "bolt AN3", "AN3-5", 4, 2),
        ("washer", "AN960-10", "", 4, 2),
        ("nut", "AN365-1032", "", 4, 2),
        ("not named", "", "", 2, 2),
    ]
    # 20 + 3 + 1 + 5 + 4 + 2
    assert (wanted.fasteners, wanted.unset, wanted.later) == (35, 0, 1)


def test_steps_count_what_they_set_and_what_was_drilled_out_again(tmp_path: Path) -> None:
    work = made(tmp_path)
    four = hardware_of(work, [2, 3, 4])
    assert told(four) == [
        ("blind rivet", "blind rivet 3.2", "length 6", 12, 2),
        ("solid rivet", "solid rivet 1/8", "length 5/16 in (4-5)", 5, 2),
    ]
    assert (four.fasteners, four.again, four.unset, four.later) == (17, 2, 0, 0)
    assert [row.needed for row in hardware_of(work, [5]).rows] == [4, 4, 4]
    assert hardware_of(work, [6]).rows == ()  # tightened, nothing new
    # Set in steps: 10 + 2 + 5 + 4 = 21; never: foot 11-20, rim, bare, strange 10 + 3 + 2 + 1 = 16.
    whole = hardware_of(work)
    assert (whole.fasteners, whole.again, whole.unset, whole.later) == (37, 2, 16, 1)


@pytest.mark.parametrize(
    ("percent", "needed", "spare"), [(10.0, 20, 2), (10.1, 20, 3), (50.0, 20, 10), (1.0, 20, 2), (0.0, 20, 0)]
)
def test_spares_are_rounded_up_and_at_least_2(
    tmp_path: Path, percent: float, needed: int, spare: int
) -> None:
    row = hardware_of(made(tmp_path, None), percent=percent).rows[0]
    assert (row.needed, row.spare) == (needed, spare)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_steps_of_every_demo_add_up_to_the_whole(path: Path) -> None:
    work = build(str(path))
    assert work.replay is not None
    whole = hardware_of(work)
    rivets = ("washer", "nut")
    by_step = [hardware_of(work, [state.step.number]) for state in work.replay.states]
    for state, one in zip(work.replay.states, by_step, strict=True):
        assert one.fasteners == len(state.filled)
        assert sum(row.needed for row in one.rows if row.kind not in rivets) == len(state.filled)
    assert sum(one.fasteners for one in by_step) == whole.fasteners - whole.unset
    assert sum(row.needed for row in whole.rows if row.kind not in rivets) == whole.fasteners
    counted = summary(work, ())
    assert whole.fasteners - whole.unset - whole.again == counted["fasteners"]
    assert whole.unset == counted.get("open", {}).get("holes", whole.unset)
    if whole.unset == 0:
        parts: dict[tuple[str, str, str], int] = {}
        for one in by_step:
            for row in one.rows:
                key = (row.kind, row.name, row.take)
                parts[key] = parts.get(key, 0) + row.needed
        assert parts == {(row.kind, row.name, row.take): row.needed for row in whole.rows}


def test_the_text(tmp_path: Path) -> None:
    text = hardware_text(hardware_of(made(tmp_path)), "mm")
    assert text.splitlines()[:3] == [
        "fastener                 take                  grip  needed  spare  in all",
        "blind rivet 3.2          length 6              2.4       22      3      25",
        "blind rivet 3.2          length 10             6.4        3      2       5",
    ]
    assert "what fits a hole of 2.5  no length             2.4        2      2       4\n" in text
    assert "No length for -odd 3.5 (blind rivet): No table in seqviz lists this rivet. List its" in text
    assert "2 fasteners among them after one was drilled out of the same hole.\n" in text
    assert "16 of them for holes that no step fills yet.\n" in text
    assert "Not counted: 1 hole named under later.\n" in text
    assert hardware_text(hardware_of(made(tmp_path), [1]), "mm", "1") == "Steps 1 set no fasteners.\n"


def test_the_table_for_a_spreadsheet(tmp_path: Path) -> None:
    lines = hardware_csv(hardware_of(made(tmp_path, None))).splitlines()
    assert lines[0] == CSV_HEAD
    assert lines[1] == "blind rivet,blind rivet 3.2,length 6,3.2,6,2.4,2.4,20,2,22,"
    assert lines[4] == "solid rivet,solid rivet 1/8,length 5/16 in (4-5),3.175,7.938,2.4,2.4,5,2,7,"
    # What begins like a formula is none.
    assert lines[3].startswith("blind rivet,'-odd 3.5,,3.5,,2.4,2.4,1,2,3,No table")


def test_what_is_set_inside_another_model_is_a_list_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "box.yaml").write_text(BOX, encoding="utf-8")
    work = made(tmp_path, None, SKIN + TWO)
    wanted = hardware_of(work)
    # The rows one and two of the skin, 5 holes each: 0.6 + 1.0 + 0.8 = 2.4; the rows rim inside are not here.
    assert told(wanted) == [("blind rivet", "blind rivet 3.2", "length 6", 10, 2)]
    (inside,) = wanted.inside
    assert (Path(inside.path).name, inside.placed) == ("box.yaml", ("box 1", "box 2"))
    text = hardware_text(wanted, "mm")
    assert "Not counted: what is set inside box 1 and box 2 before that comes here; its own list:" in text


def test_flush_heads_are_a_sort_of_their_own(tmp_path: Path) -> None:
    model = MODEL.replace(
        "count: 5, size: eighth}",
        "count: 5, size: eighth}\n  keel: {layers: [rail, skin], count: 7, size: eighth, countersunk: yes}",
    )
    rows = [row for row in hardware_of(made(tmp_path, None, model)).rows if row.kind == "solid rivet"]
    # grip 0.8 + 1.6 = 2.4, and 1.5 x 3.175 = 4.76: 7.16, so 5/16 in for both
    assert sorted((row.take, row.needed) for row in rows) == [
        ("length 5/16 in (4-5)", 5),
        ("length 5/16 in (4-5), flush head", 7),
    ]
