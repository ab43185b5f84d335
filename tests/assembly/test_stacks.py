"""Hole stacks and grips, every sum worked by hand."""

from pathlib import Path

import pytest

from seqviz.assembly.axes import shared_axes
from seqviz.build import build
from tests.assembly.trial import placed

TRAY = Path(__file__).parents[2] / "models" / "practice_tray.yaml"


def test_every_stack_of_the_practice_tray() -> None:
    assembly = build(str(TRAY)).assembly
    expected: dict[str, tuple[tuple[str, ...], float]] = {}
    for side, end_hole in (("left", {"back": 1, "front": 8}), ("right", {"back": 8, "front": 1})):
        angle = f"side angle {side}"
        for k in range(1, 12):
            # A side angle 0.8 on the bottom 0.8 makes 1.6.
            expected[f"{angle}.foot.{k}"] = ((angle, "bottom"), 0.8 + 0.8)
        # In the corners an end angle 0.8 lies over both: 2.4. Hole 1 is aft, hole 11 forward.
        expected[f"back angle.foot.{end_hole['back']}"] = (("back angle", angle, "bottom"), 0.8 + 0.8 + 0.8)
        expected[f"front angle.foot.{end_hole['front']}"] = (
            ("front angle", angle, "bottom"),
            0.8 + 0.8 + 0.8,
        )
        del expected[f"{angle}.foot.1"], expected[f"{angle}.foot.11"]
        # The divider 0.8 crosses the side angles at their sixth hole: 2.4.
        end = 8 if side == "left" else 1
        expected[f"divider.middle.{end}"] = (("divider", angle, "bottom"), 0.8 + 0.8 + 0.8)
        del expected[f"{angle}.foot.6"]
    for k in range(2, 8):
        # Between the corners the end angles are drawn down on the bottom: the gap of 0.8 adds nothing.
        expected[f"front angle.foot.{k}"] = (("front angle", "bottom"), 0.8 + 0.8)
        expected[f"back angle.foot.{k}"] = (("back angle", "bottom"), 0.8 + 0.8)
    for k in (2, 7):
        expected[f"divider.middle.{k}"] = (("divider", "bottom"), 0.8 + 0.8)
    for k in (3, 4, 5, 6):
        # The foot pad 1.0 lies under the bottom there.
        expected[f"divider.middle.{k}"] = (("divider", "bottom", "foot pad"), 0.8 + 0.8 + 1.0)
    found = {name: assembly.stacks[assembly.stack_of[name]] for name in expected}
    assert {name: stack.parts for name, stack in found.items()} == {n: e[0] for n, e in expected.items()}
    for name, stack in found.items():
        assert stack.grip == pytest.approx(expected[name][1]), name
        assert stack.pin == pytest.approx(3.3)
        assert (stack.size, stack.fastener) == ("small", "pull 3.2")
    # 22 holes in the side angles, 6 and 6 between the corners, 6 of the divider beside them: no other stack.
    assert len(assembly.stacks) == len({s.index for s in found.values()}) == 22 + 6 + 6 + 6


def test_a_corner_hole_has_all_its_names() -> None:
    assembly = build(str(TRAY)).assembly
    stack = assembly.stacks[assembly.stack_of["bottom.front.1"]]
    # Farthest from the base first, of equals the later name; the bottom's hole carries two names.
    assert stack.holes == (
        "side angle right.foot.11",
        "front angle.foot.1",
        "bottom.side right.11",
        "bottom.front.1",
    )


SHEETS = """
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      a: {at: [[100, 100], [150, 100]], diameter: 3.3}
  upper:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [100, 0], [100, 40], [0, 40]]
    holes:
      a: {at: [[25, 20], [75, 20]], diameter: 3.3}
"""


@pytest.mark.parametrize(("level", "layers"), [(3.8, 2), (3.81, 1)])
def test_a_clear_space_of_more_than_3_mm_ends_a_stack(tmp_path: Path, level: float, layers: int) -> None:
    entry = f"placed:\n  upper: {{part: upper, at: [75, 80, {level}], x along: forward, y along: left}}\n"
    assembly, _ = placed(tmp_path, SHEETS + entry)
    # The floor's top is at 0.8: 3.8 - 0.8 = 3.0 still belongs together.
    assert len(assembly.stacks[assembly.stack_of["floor.a.1"]].layers) == layers


def test_a_row_that_crosses_joins_two_walls(tmp_path: Path) -> None:
    entry = "placed:\n  upper: {part: upper, at: [75, 80, 20], x along: forward, y along: left}\n"
    text = SHEETS.replace("[75, 20]], diameter: 3.3}", "[75, 20]], diameter: 3.3, crosses: [upper, floor]}")
    assembly, _ = placed(tmp_path, text + entry)
    stack = assembly.stacks[assembly.stack_of["floor.a.1"]]
    assert stack.parts == ("upper", "floor")
    assert stack.grip == pytest.approx(2.0)
    assert stack.gaps == pytest.approx((19.2,))


@pytest.mark.parametrize(
    ("shift", "holes", "parts"),
    [
        (1.6, 2, ("upper", "floor")),  # within half a diameter: together
        (3.2, 2, ("upper", "floor")),  # between half and one diameter: together, and holes-off
        (3.4, 1, ("upper", "floor")),  # farther: the upper is solid there, an undrilled layer
    ],
)
def test_how_far_off_a_hole_may_be(tmp_path: Path, shift: float, holes: int, parts: tuple[str, ...]) -> None:
    entry = (
        f"placed:\n  upper: {{part: upper, at: [{75 + shift}, 80, 0.8], x along: forward, y along: left}}\n"
    )
    assembly, _ = placed(tmp_path, SHEETS + entry)
    stack = assembly.stacks[assembly.stack_of["floor.a.1"]]
    assert stack.parts == parts
    assert len(stack.holes) == holes
    assert [layer.hole is None for layer in stack.layers] == [holes == 1, False]
    if holes == 2:
        assert stack.pin == pytest.approx(3.3 - shift)


@pytest.mark.parametrize(("at", "solid"), [(20, True), (40, False), (39.9, True), (0.1, True)])
def test_a_line_in_the_seam_between_two_pieces(tmp_path: Path, at: float, solid: bool) -> None:
    # An L of two arms 40 wide is cut into pieces along its diagonal: (at, at) lies in that seam. At (40, 40)
    # there is the inner corner: the axis only touches the metal.
    text = f"""
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      a: {{at: [[{100 + at}, {50 + at}]], diameter: 3.3}}
  gusset:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [100, 0], [100, 40], [40, 40], [40, 100], [0, 100]]
placed:
  gusset: {{part: gusset, at: [100, 50, 0.8], x along: forward, y along: left}}
"""
    assembly, _ = placed(tmp_path, text)
    stack = assembly.stacks[assembly.stack_of["floor.a.1"]]
    assert stack.parts == (("gusset", "floor") if solid else ("floor",))


def two_walls(apart: float, crosses: str = "") -> str:
    """Two walls that stand on a floor, face to face with ``apart`` mm of air; their holes are in one line."""
    return f"""
parts:
  floor:
    {{shape: skin, thickness: 1, outline: [[0, 0], [400, 0], [400, 100], [0, 100]]}}
  wall:
    shape: plate
    thickness: 1
    outline: [[0, 0], [80, 0], [80, 50], [0, 50]]
    holes:
      eye: {{at: [[40, 25]], diameter: 3.3{crosses}}}
placed:
  near: {{part: wall, at: [100, 10, 1], x along: left, y along: up}}
  far:  {{part: wall, at: [{100 + 1 + apart}, 10, 1], x along: left, y along: up}}
"""


@pytest.mark.parametrize(
    ("apart", "crosses", "stacks"),
    [
        # A clear way of 2 mm is one stack, of 50 mm two on one line, of more than 100 mm two strangers.
        (2.0, "", [("far", "near")]),
        (50.0, "", [("far",), ("near",)]),
        (100.0, "", [("far",), ("near",)]),
        (100.1, "", [("far",), ("near",)]),
        (250.0, ", crosses: [near, far]", [("far", "near")]),
    ],
)
def test_walls_of_two_boxes_in_one_line(
    tmp_path: Path, apart: float, crosses: str, stacks: list[tuple[str, ...]]
) -> None:
    assembly, findings = placed(tmp_path, two_walls(apart, crosses))
    assert findings == []
    assert sorted(stack.parts for stack in assembly.stacks) == stacks


@pytest.mark.parametrize(("apart", "strangers"), [(100.0, False), (100.1, True)])
def test_holes_more_than_100_mm_apart_share_no_axis(tmp_path: Path, apart: float, strangers: bool) -> None:
    assembly, _ = placed(tmp_path, two_walls(apart))
    axes = shared_axes(assembly.placed)
    assert axes.groups() == ([[0], [1]] if strangers else [[0, 1]])
    assert axes.groups(without={"near"}) == [[0], [1]]
