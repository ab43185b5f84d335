from __future__ import annotations

import os
from pathlib import Path

import numpy as np
import pytest
import trimesh

from seqviz.cli.program import run
from tests.cli.shelf import write_shelf

Captured = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)


def corners(path: str) -> dict[str, np.ndarray]:
    """Return of each node its lowest and highest corner, mm, base frame: x, y, z there are -x, z, y here."""
    scene = trimesh.load(path)
    found = {}
    for node in scene.graph.nodes_geometry:
        pose, name = scene.graph[node]
        points = trimesh.transform_points(scene.geometry[name].vertices, pose) * 1000
        found[node] = np.array([points.min(axis=0), points.max(axis=0)])
    return found


def test_the_structure_of_a_model_in_metres_with_its_names(capsys: Captured) -> None:
    assert run(["show", "shelf.yaml", "--glb", "shelf.glb"]) == 0
    assert capsys.readouterr() == ("shelf.glb\n", "")
    found = corners("shelf.glb")
    assert sorted(found) == ["panel", "stiffener"]
    # The base's +x is forward unless said otherwise: ahead is z, left (+y) is x, up is y.
    low, high = found["panel"]
    assert (high - low).tolist() == pytest.approx([120, 0.8, 300], abs=1e-3)
    # Legs of 20 on a sheet of 0.8: from 0.8 up to 20.8.
    low, high = found["stiffener"]
    assert (low[1], high[1]) == pytest.approx((0.8, 20.8), abs=1e-3)


def test_after_a_step_with_pins_and_heads() -> None:
    assert run(["show", "evening.yaml", "--glb", "1.glb", "--step", "1"]) == 0
    # The ends and every 4th of 14: 1, 5, 9, 13 and 14.
    pins = [f"pin stiffener.foot.{number}" for number in (1, 5, 9, 13, 14)]
    assert sorted(corners("1.glb")) == sorted(["panel", "stiffener", *pins])
    assert run(["show", "evening.yaml", "--glb", "2.glb", "--step", "2"]) == 0
    found = corners("2.glb")
    assert len(found) == 2 + 14 + 14
    head = found["head stiffener.foot.3"]
    # A head of 2 x 3.2 wide and 0.3 x 3.2 high on the foot, whose top is 0.8 + 1.0 up.
    assert (head[0][1], head[1][1]) == pytest.approx((1.8, 1.8 + 0.96), abs=1e-3)
    assert head[1][0] - head[0][0] == pytest.approx(6.4, abs=0.01)
    # Hole 3 of 14 from 20 to 280 is 20 + 2 * 20 = 60 along, 10 to the left.
    assert head.mean(axis=0)[[0, 2]].tolist() == pytest.approx([10, 60], abs=1e-3)
    assert run(["show", "evening.yaml", "--glb", "all.glb"]) == 0
    assert sorted(corners("all.glb")) == sorted(found)


def test_a_file_of_ours_is_replaced_and_one_of_others_is_not(capsys: Captured) -> None:
    Path("mine.glb").write_bytes(b"glTF mine")
    assert run(["show", "shelf.yaml", "--glb", "mine.glb"]) == 2
    assert "mine.glb is there already; nothing was written." in capsys.readouterr().err
    assert run(["show", "shelf.yaml", "--glb", "mine.glb", "--force"]) == 0
    assert run(["show", "shelf.yaml", "--glb", "mine.glb"]) == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["evening.yaml", "--glb", "a.glb", "--step", "3"], "There is no step 3. The steps are 1 to 2."),
        (["evening.yaml", "--glb", "a.glb", "--step", "0"], "There is no step 0. The steps are 1 to 2."),
        (
            ["shelf.yaml", "--glb", "a.glb", "--step", "1"],
            "--step goes with a sequence: a model alone has no steps.",
        ),
        (["shelf.yaml", "--glb", "a.gltf"], "--glb a.gltf: the name of the file ends in .glb."),
        (["shelf.yaml", "--glb", "no/a.glb"], "no: no such folder. Make it first, or give another path."),
    ],
)
def test_slips_end_with_2_and_write_nothing(arguments: list[str], said: str, capsys: Captured) -> None:
    assert run(["show", *arguments]) == 2
    assert capsys.readouterr() == ("", f"{said}\n")
    assert sorted(os.listdir()) == ["evening.yaml", "shelf.yaml"]


def test_what_has_no_dimensions_is_named(capsys: Captured) -> None:
    model = """\
format: 1
name: First evening
base: skin
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
rows:
  foot: {layers: [rail, skin], count: 3, size: small}
"""
    Path("sketch.yaml").write_text(model, encoding="utf-8")
    assert run(["show", "sketch.yaml", "--glb", "s.glb"]) == 2
    assert capsys.readouterr().err == (
        "Nothing that is there has dimensions and a place, so that there is nothing to write.\n"
    )
