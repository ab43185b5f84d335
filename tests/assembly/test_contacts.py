"""What sits on what, with areas worked by hand; and the graph that holds it."""

from pathlib import Path

import networkx as nx
import pytest

from seqviz.assembly.graph import assembly_graph
from seqviz.build import build
from tests.assembly.trial import placed

TRAY = Path(__file__).parents[2] / "models" / "practice_tray.yaml"

SHEETS = """
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    openings: {{port: {{outline: [[100, 100], [120, 100], [120, 110], [100, 110]]}}}}
    holes:
      a: {{at: [[20, 20], [80, 20]], diameter: 3.3}}
  plate:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [100, 0], [100, 40], [0, 40]]
placed:
  plate: {{part: plate, at: [{at}], x along: forward, y along: left}}
"""


@pytest.mark.parametrize(
    ("at", "expected"),
    [
        ("50, 50, 0.8", [("plate", "floor", 100 * 40, 0.0)]),
        # 100 x 40 over the port of 20 x 10, of which all lies under it.
        ("50, 80, 0.8", [("plate", "floor", 100 * 40 - 20 * 10, 0.0)]),
        # Half of it beyond the floor's edge at x = 300.
        ("250, 50, 0.8", [("plate", "floor", 50 * 40, 0.0)]),
        ("50, 50, 1.2", [("plate", "floor", 100 * 40, 0.4)]),
        ("50, 50, 1.4", []),  # 0.6 off: more than 0.5 does not sit
        ("300, 50, 0.8", []),  # edge to edge
    ],
)
def test_a_plate_on_a_floor(tmp_path: Path, at: str, expected: list[tuple[str, str, float, float]]) -> None:
    assembly, _ = placed(tmp_path, SHEETS.format(at=at))
    found = [(c.upper, c.lower, c.area, c.gap) for c in assembly.contacts]
    assert [row[:2] for row in found] == [row[:2] for row in expected]
    for mine, theirs in zip(found, expected, strict=True):
        assert mine[2:] == pytest.approx(theirs[2:])


def test_the_graph_of_the_practice_tray() -> None:
    assembly = build(str(TRAY)).assembly
    graph = assembly_graph(assembly)
    resting = nx.DiGraph((a, b) for a, b, kind in graph.edges(data="kind") if kind == "sits on")
    # Both ends and the divider lie over the sides, which lie on the bottom; the pad hangs under the bottom.
    sides = {"side angle left", "side angle right"}
    assert nx.descendants(resting, "front angle") == sides | {"bottom"}
    assert nx.descendants(resting, "divider") == sides | {"bottom"}
    assert set(resting.successors("foot pad")) == {"bottom"}
    assert nx.is_directed_acyclic_graph(resting)
    corners = [
        data["stacks"]
        for a, b, data in graph.edges(data=True)
        if data["kind"] == "shares holes" and (a, b) == ("front angle", "side angle left")
    ]
    assert [assembly.stacks[k].holes[0] for k in corners[0]] == ["side angle left.foot.11"]
