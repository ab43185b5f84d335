"""Whole files in which another model, or a sequence for one, stands as one piece."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from seqviz.findings import Finding
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.records.model import Model
from seqviz.scene.stack import drawn_shut, grouped
from seqviz.scene.stack_text import summary_text
from tests.checks.expect import besides_the_kit

SIZES = """\
format: 1
forward: +x
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
"""
BOX = (
    SIZES
    + """\
base: floor
parts:
  floor:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [100, 0], [100, 60], [0, 60]]
    holes:
      rim: {from: [10, 50], to: [90, 50], count: 5, size: small}
      foot: {from: [10, 10], to: [90, 10], count: 5, size: small}
  wall:
    shape: angle
    thickness: 1.5
    length: 100
    legs: [20, 30]
    holes:
      rim: {flat: leg 1, from: [10, 10], to: [90, 10], count: 5, size: small}
  doubler:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [100, 0], [100, 20], [0, 20]]
    holes:
      foot: {from: [10, 10], to: [90, 10], count: 5, size: small}
placed:
  wall: {part: wall, match: {rim.1: floor.rim.5, rim.5: floor.rim.1}}
  doubler: {part: doubler, match: {foot.1: floor.foot.1, foot.5: floor.foot.5}}
"""
)
"""A floor with an angle along y = 40 to 60 and, over the row `foot`, a doubler."""

SKIN = (
    SIZES
    + """\
base: skin
mirror line: y=60
parts:
  skin:
    shape: skin
    thickness: 0.6
    outline: [[0, 0], [400, 0], [400, 120], [0, 120]]
    holes:
      one: {from: [20, 100], to: [100, 100], count: 5, size: small}
      two: {from: [220, 100], to: [300, 100], count: 5, size: small}
  strap:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [100, 0], [100, 20], [0, 20]]
    holes:
      eye: {from: [10, 10], to: [90, 10], count: 5, size: small}
placed:
"""
)
"""A skin whose rows take the row `foot` of the box; the row `rim` hangs over its edge at y = 120."""

LONE = "".join(line for line in SKIN.splitlines(keepends=True) if "two:" not in line)
"""The skin with one row."""

TWO = """\
  box 1: {uses: box.yaml, match: {floor.foot.1: skin.one.1, floor.foot.5: skin.one.5}}
  box 2: {uses: box.yaml, match: {floor.foot.1: skin.two.1, floor.foot.5: skin.two.5}}
"""
ONE = "  box: {uses: order.yaml, match: {floor.foot.1: skin.one.1, floor.foot.5: skin.one.5}}\n"
BENCH = "format: 1\nmodel: {model}\nup: upper\nbench: trestles\nfinished: {finished}\n{more}steps:\n"


def steps(text: str, model: str = "skin.yaml", finished: str = "yes", more: str = "") -> str:
    """Return a sequence."""
    return BENCH.format(model=model, finished=finished, more=more) + text


ORDER = steps("  - place: [wall, doubler]\n  - rivet: floor.rim\n", "box.yaml", "no")
"""The box as it comes: only its row `rim` is set."""


def made(folder: Path, **files: str) -> Build:
    """Write ``box.yaml`` and ``files``, and compute the last of them."""
    files = {"box": BOX, **files}
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return build(str(folder / f"{list(files)[-1]}.yaml"))


def said(found: Build) -> list[tuple[str, str, int]]:
    """Return kind, file and line of each finding."""
    return [(f.kind, Path(f.at.file).name, f.at.line) for f in besides_the_kit(found)]


def only(found: Build) -> Finding:
    """Return the one finding."""
    (finding,) = besides_the_kit(found)
    return finding


def layers(found: Build, hole: str) -> list[tuple[str, float]]:
    """Return the layers at a hole, layer 1 first: the part and its thickness."""
    stack = found.assembly.stacks[found.assembly.stack_of[hole]]
    return [(layer.part, round(layer.thickness, 6)) for layer in stack.layers]


def test_a_box_twice_is_riveted_through(tmp_path: Path) -> None:
    order = steps("  - place: [box 1, box 2]\n  - rivet: [skin.one, box 2.doubler.foot]\n")
    whole = made(tmp_path, skin=SKIN + TWO, steps=order)
    assert said(whole) == []
    # doubler 0.8 + floor 1.0 are one layer of 1.8; with the skin 0.6 the grip is 2.4.
    for hole in ("skin.one.3", "box 1.floor.foot.3", "box 1.doubler.foot.3"):
        assert layers(whole, hole) == [("box 1", 1.8), ("skin", 0.6)]
    assert layers(whole, "box 2.floor.foot.5") == [("box 2", 1.8), ("skin", 0.6)]
    # The floor lies on the skin, and its hole foot.1 at (10, 10) on (20, 100), and on (220, 100).
    places = {name: part.pose.translation for name, part in whole.assembly.placed.items()}
    assert np.allclose(places["box 1"], [10, 90, 0.6])
    assert np.allclose(places["box 2"], [210, 90, 0.6])
    assert whole.assembly.placed["box 1"].part.pieces is whole.assembly.placed["box 2"].part.pieces
    # What holds the box together inside is nobody's business here: rim is one layer, and no rivet is missed.
    assert layers(whole, "box 1.wall.rim.1") == [("box 1", 2.5)]
    # Of its 60 mm of width 30 lie on the skin.
    assert [(c.upper, c.lower, round(c.area)) for c in whole.assembly.contacts] == [
        ("box 1", "skin", 3000),
        ("box 2", "skin", 3000),
    ]


def test_the_text_names_the_parts_inside(tmp_path: Path) -> None:
    whole = made(tmp_path, skin=SKIN + TWO)
    text = summary_text(grouped(whole.assembly.stacks), drawn_shut(whole.assembly), "mm")
    assert "box 1.doubler.foot 1-5: box 1 1.8 (doubler 0.8 + floor 1) over skin 0.6, grip 2.4;" in text


def test_a_model_is_computed_once_however_often_it_is_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def noted(model: Model) -> tuple[dict[str, Part], list[Finding]]:
        asked.append(model.path)
        return make_parts(model)

    monkeypatch.setattr("seqviz.build.make_parts", noted)
    made(tmp_path, skin=SKIN + TWO)
    assert [Path(path).name for path in asked] == ["box.yaml", "skin.yaml"]


def test_what_is_wrong_inside_is_told_once_at_its_own_place(tmp_path: Path) -> None:
    # rim.5 of the wall lies 20 mm beside floor.rim.2.
    wrong = BOX.replace("rim.5: floor.rim.1", "rim.5: floor.rim.2")
    order = steps("  - place: [box 1, box 2]\n  - rivet: [skin.one, skin.two]\n")
    whole = made(tmp_path, box=wrong, skin=SKIN + TWO, steps=order)
    line = next(k for k, text in enumerate(wrong.splitlines(), 1) if "floor.rim.2" in text)
    assert said(whole) == [("holes-off", "box.yaml", line)]
    assert whole.assembly.muted == {"box 1", "box 2"}


def test_the_other_hand_is_mirrored_whole(tmp_path: Path) -> None:
    twins = TWO.splitlines()[0].replace("box 1", "box").replace("one.5}", "one.5}, both sides: other hand")
    skin = SKIN.replace(
        "count: 5, size: small}\n      two", "count: 5, size: small, both sides: yes}\n      two"
    )
    whole = made(tmp_path, skin=skin + twins + "\n")
    assert said(whole) == []
    here, there = (whole.assembly.placed[f"box {side}"] for side in ("left", "right"))
    assert (here.part.mirrored, there.part.mirrored) == (False, True) or (
        here.part.mirrored,
        there.part.mirrored,
    ) == (True, False)
    spots = [{hole.name: part.pose.points(hole.centre) for hole in part.part.holes} for part in (here, there)]
    assert len(spots[0]) == 20
    for name, spot in spots[0].items():
        assert np.allclose(spots[1][name], spot * [1, -1, 1] + [0, 120, 0]), name
    corners = [np.sort(part.solids.vertices.reshape(-1, 3), axis=0) for part in (here, there)]
    image = np.sort(corners[0] * [1, -1, 1] + [0, 120, 0], axis=0)
    assert np.allclose(image, corners[1])
    # Its picture is that of its parts: they fill 6000 x 1 + 2000 x 0.8 + the angle.
    mesh = mesh_of(there.part)
    assert (mesh.vertices @ [0, 1, 0]).min() == pytest.approx(-60)
    assert (mesh.vertices @ [0, 1, 0]).max() == pytest.approx(0)
    a, b, c = (mesh.vertices[mesh.faces[:, k]] for k in range(3))
    assert np.einsum("ij,ij->", a, np.cross(b, c)) / 6 > 6000 + 1600


CAP = (
    SIZES
    + """\
base: roof
parts:
  roof: {shape: plate, thickness: 1, outline: [[0, 0], [100, 0], [100, 60], [0, 60]]}
  side: {shape: block, length: 100, width: 5, height: 30}
  end: {shape: block, length: 5, width: 50, height: 30}
placed:
  right: {part: side, at: [0, 0, -30], x along: forward, y along: left}
  left: {part: side, at: [0, 55, -30], x along: forward, y along: left}
  aft: {part: end, at: [0, 5, -30], x along: forward, y along: left}
  front: {part: end, at: [95, 5, -30], x along: forward, y along: left}
"""
)
"""A roof on four walls, open below."""

CORE = """\
  cap: {uses: cap.yaml, at: [50, 30, 30.6], x along: forward, y along: left}
  core: {part: core, at: [80, 50, 0.6], x along: forward, y along: left}
"""


@pytest.mark.parametrize(("first", "then", "kinds"), [("cap", "core", ["no-way-in"]), ("core", "cap", [])])
def test_a_part_does_not_come_in_through_it(tmp_path: Path, first: str, then: str, kinds: list[str]) -> None:
    core = "  core: {shape: block, length: 20, width: 20, height: 20}\nplaced:\n" + CORE
    order = steps(f"  - place: {first}\n  - place: {then}\n", finished="no")
    whole = made(tmp_path, cap=CAP, skin=SKIN.replace("placed:\n", core), steps=order)
    found = besides_the_kit(whole)
    assert [f.kind for f in found] == kinds
    assert all("cap" in f.parts and f.steps[0] == 2 for f in found)


def test_it_is_in_the_way_of_a_tool(tmp_path: Path) -> None:
    # The wall stands on y = 40 of the box, 5 mm from the holes at y = 35: no puller goes in beside it.
    box = BOX.replace("foot: {from: [10, 10]", "foot: {from: [10, 35]").replace(
        "to: [90, 10], count: 5, size", "to: [90, 35], count: 5, size", 1
    )
    box = (
        box[: box.index("  doubler:\n")]
        + "placed:\n  wall: {part: wall, match: {rim.1: floor.rim.1, rim.5: floor.rim.5}}\n"
    )
    order = steps("  - place: box 1\n  - rivet: skin.one\n    head: upper\n", finished="no")
    skin = SKIN.replace("120]", "110]") + TWO.splitlines()[0] + "\n"
    finding = only(made(tmp_path, box=box, skin=skin, steps=order))
    assert (finding.kind, finding.steps, finding.parts) == ("tool-blocked", (1, 2), ("box 1", "skin"))


def test_within_each_other(tmp_path: Path) -> None:
    crate = (
        SIZES
        + "base: tray\nparts:\n  tray:\n    shape: plate\n    thickness: 2\n"
        + "    outline: [[0, 0], [200, 0], [200, 45], [0, 45]]\n"
        + "    holes:\n      seat: {from: [20, 20], to: [100, 20], count: 5, size: small}\n"
        + "placed:\n  box: {uses: box.yaml, match: {floor.foot.1: tray.seat.1, floor.foot.5: tray.seat.5}}\n"
    )
    placed = "  crate: {uses: crate.yaml, match: {box.floor.foot.1: skin.one.1, tray.seat.5: skin.one.5}}\n"
    order = steps("  - place: crate\n  - rivet: crate.box.floor.foot\n")
    whole = made(tmp_path, crate=crate, skin=LONE + placed, steps=order)
    assert said(whole) == []
    # doubler 0.8 + floor 1.0 + tray 2.0, then the skin.
    assert layers(whole, "crate.box.doubler.foot.2") == [("crate", 3.8), ("skin", 0.6)]
    assert layers(whole, "crate.tray.seat.2") == [("crate", 3.8), ("skin", 0.6)]
    assert np.allclose(whole.assembly.placed["crate"].pose.translation, [0, 80, 0.6])
    assert [Path(one.model.path).name for one in whole.used] == ["box.yaml", "crate.yaml"]


def test_what_lies_on_it_goes_on_top(tmp_path: Path) -> None:
    strap = "  strap: {part: strap, match: {eye.1: box 1.floor.foot.1, eye.5: box 1.doubler.foot.5}}\n"
    whole = made(tmp_path, skin=SKIN + TWO + strap)
    assert said(whole) == []
    assert layers(whole, "strap.eye.2") == [("strap", 1.2), ("box 1", 1.8), ("skin", 0.6)]
    assert whole.assembly.placed["strap"].pose.translation[2] == pytest.approx(0.6 + 1.0 + 0.8)


def test_what_its_sequence_has_set_takes_no_second_fastener(tmp_path: Path) -> None:
    strap = "  strap: {part: strap, match: {eye.1: box.floor.rim.1, eye.5: box.floor.foot.5}}\n"
    finding = only(made(tmp_path, order=ORDER, skin=LONE + ONE + strap))
    assert (finding.kind, finding.at.line, finding.holes) == (
        "bad-value",
        LONE.count("\n") + 2,
        ("box.floor.rim.1",),
    )
    assert "order.yaml sets a fastener in it" in finding.message
    own = ONE.replace("floor.foot.1: skin", "wall.rim.1: skin")
    assert only(made(tmp_path, order=ORDER, skin=LONE + own)).kind == "bad-value"


def test_a_step_that_fills_it_again_is_told(tmp_path: Path) -> None:
    files = {"order": ORDER, "skin": LONE + ONE}
    again = steps("  - place: box\n  - rivet: [skin.one, box.wall.rim.2]\n")
    finding = only(made(tmp_path, **files, steps=again))
    assert (finding.kind, finding.at.line, finding.holes) == ("bad-value", 8, ("box.wall.rim.2",))
    # Of a row of which some are set the others are meant.
    part = ORDER.replace("floor.rim\n", "floor.rim\n  - rivet: floor.foot.3\n    head: lower\n")
    skin = (
        SKIN.replace("count: 5, size: small}\n      two", "count: 5, size: small, 3: none}\n      two") + ONE
    )
    whole = made(tmp_path, order=part, skin=skin, steps=steps("  - place: box\n  - rivet: box.floor.foot\n"))
    assert whole.replay is not None
    assert len(whole.replay.states[1].filled) == 4


def test_heads_that_came_set_in_it_are_solid(tmp_path: Path) -> None:
    # On a skin of 150 the row rim stands over it, and its rivets stand out on both sides of the box.
    wide = LONE.replace("120]", "150]") + ONE
    finding = only(made(tmp_path, order=ORDER, skin=wide))
    assert (finding.kind, finding.parts) == ("parts-interfere", ("box", "skin"))
    assert finding.message == "Rivets that came set in box stand in skin, 0.6 mm deep."
    assert said(made(tmp_path, order=ORDER, skin=LONE + ONE)) == []
    # A second row of rivets cannot go where they are: one finding. In wide holes the heads have room.
    rows = wide.replace(
        "      one:", "      under: {from: [20, 140], to: [100, 140], count: 5, size: small}\n      one:"
    )
    assert only(made(tmp_path, order=ORDER, skin=rows)).message == finding.message
    holes = rows.replace("140], count: 5, size: small", "140], count: 5, diameter: 8")
    assert (
        said(made(tmp_path, order=ORDER, skin=holes, steps=steps("  - place: box\n  - rivet: skin.one\n")))
        == []
    )


def test_later_inside_waits_for_what_comes_here(tmp_path: Path) -> None:
    box = BOX.replace("base: floor", "base: floor\nlater:\n  - {holes: floor.rim, why: the lid}")
    order = steps("  - place: [wall, doubler]\n", "box.yaml")
    whole = made(
        tmp_path, box=box, order=order, skin=LONE + ONE, steps=steps("  - place: box\n  - rivet: skin.one\n")
    )
    # Its own finished sequence forgets the row foot; here it is filled, and rim may wait.
    assert [kind for kind, file, _ in said(whole) if file == "skin.yaml"] == []
    left = made(
        tmp_path, box=BOX, order=order, skin=LONE + ONE, steps=steps("  - place: box\n  - rivet: skin.one\n")
    )
    assert left.replay is not None
    loose = left.assembly.stacks[left.assembly.stack_of["box.wall.rim.1"]]
    assert (len(loose.layers), loose.joins) == (1, True)


def test_twins_inside_have_a_name_for_both(tmp_path: Path) -> None:
    box = BOX.replace("base: floor", "base: floor\nmirror line: y=30").replace(
        "foot: {from: [10, 10], to: [90, 10], count: 5, size: small}",
        "foot: {from: [10, 10], to: [90, 10], count: 5, size: small, both sides: yes}",
        1,
    )
    box = box[: box.index("placed:")].replace(
        "      rim: {from: [10, 50], to: [90, 50], count: 5, size: small}\n", ""
    )
    box = box[: box.index("  wall:")] + box[box.index("  doubler:") :]
    box += "placed:\n  doubler: {part: doubler, match: {foot.1: floor.foot.1, foot.5: floor.foot.5}, "
    box += "both sides: same part}\n"
    skin = SKIN.replace(
        "count: 5, size: small}\n      two",
        "count: 5, size: small}\n      up: {from: [20, 60], to: [100, 60], count: 5, size: small}\n      two",
    )
    # The right row, at y = 10 of the box, lies on the row one.
    placed = (
        "  box: {uses: box.yaml, match: {floor.foot right.1: skin.one.1, floor.foot right.5: skin.one.5}}\n"
    )
    order = steps("  - place: box\n  - rivet: box.doubler.foot\n")
    whole = made(tmp_path, box=box, skin=skin + placed, steps=order)
    assert whole.replay is not None
    assert len(whole.replay.states[1].filled) == 10
    both = steps("  - place: box\n  - rivet: box.floor.foot\n")
    again = made(tmp_path, box=box, skin=skin + placed, steps=both)
    assert again.replay is not None
    assert len(again.replay.states[1].filled) == 10
    wrong = placed.replace("floor.foot right.1", "floor.foot.1")
    assert only(made(tmp_path, box=box, skin=skin + wrong)).kind == "unknown-name"


def test_a_size_counts_where_both_models_mean_the_same(tmp_path: Path) -> None:
    other = BOX.replace(
        "small: {diameter: 3.3, with: blind rivet 3.2}", "small: {diameter: 3.4, with: blind rivet 3.2}"
    )
    whole = made(tmp_path, box=other, skin=SKIN + TWO)
    hole = whole.assembly.placed["box 1"].part.holes[0]
    assert (hole.size, hole.diameter) == (None, 3.4)
    assert made(tmp_path, skin=SKIN + TWO).assembly.placed["box 1"].part.holes[0].size == "small"


def test_a_piece_without_dimensions_has_no_holes_to_hang_on(tmp_path: Path) -> None:
    box = (
        SIZES
        + "base: floor\nparts:\n  floor: {shape: sketch, thickness: 1}\n"
        + "  rib: {shape: sketch, thickness: 1}\n"
        + "rows:\n  foot: {layers: [rib, floor], count: 5, size: small}\n"
    )
    finding = only(made(tmp_path, box=box, skin=LONE + ONE.replace("order", "box")))
    assert (finding.kind, finding.at.line, finding.at.column) == ("bad-value", LONE.count("\n") + 1, 33)
    assert finding.message == "box.floor.foot.1 has no place in box.yaml yet."
    at = "  box: {uses: box.yaml, at: [0, 0, 5], x along: forward, y along: left}\n"
    finding = only(made(tmp_path, box=box, skin=LONE + at, steps=steps("  - place: box\n", finished="no")))
    assert finding.message == "box cannot stand at a point: nothing in box.yaml has dimensions yet."
