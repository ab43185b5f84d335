from __future__ import annotations

import math
from pathlib import Path

import pytest
import trimesh

from seqviz.build import build
from seqviz.parts.bulk import box_of, metal_of, single_holes
from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.mesh import mesh_of

SHAPES = Path(__file__).parents[2] / "docs" / "shapes"


@pytest.mark.parametrize("shape", ["plate", "angle", "channel", "zed", "hat", "tee", "tube", "bar", "block"])
def test_metal_is_that_of_the_mesh(shape: str) -> None:
    made = build(str(SHAPES / f"{shape}.yaml"))
    part = list(made.parts.values())[-1]
    mesh = mesh_of(part, segments=128)
    solid = trimesh.Trimesh(mesh.vertices, mesh.faces)
    assert solid.is_watertight
    metal = metal_of(part)
    assert metal == pytest.approx(solid.volume, rel=5e-4)
    sheet = flat_pattern(part)
    if sheet is not None and shape != "tube":
        # the same metal, laid flat: pieces of bends lie inside the true bend by their facets
        assert sheet.area * sheet.thickness == pytest.approx(metal, rel=1e-3)


def test_a_channel_by_hand() -> None:
    part = build(str(SHAPES / "channel.yaml")).parts["rib"]
    # flanges 18 and web 40 outside, 160 long
    assert box_of(part) == pytest.approx((160.0, 18.0, 40.0))
    # flats 15.5 + 35 + 15.5, two bends of pi / 2 x 2; 8 holes of 3.3 in 1 mm
    flat = (66 + math.pi * 2) * 160 - 8 * math.pi / 4 * 3.3**2
    assert metal_of(part) == pytest.approx(flat, rel=1e-3)


def test_two_names_of_one_hole_are_one_hole() -> None:
    made = build(str(SHAPES.parents[1] / "models" / "battery_shelf.yaml"))
    skin = made.parts["shelf skin"]
    # every row across meets both rails: 4 rows, 2 rails
    assert len(skin.holes) - len(single_holes(skin)) == 8


def test_a_sketch_has_no_size(tmp_path: Path) -> None:
    path = tmp_path / "m.yaml"
    path.write_text(
        "format: 1\nname: s\nbase: p\nparts:\n  p: {shape: sketch, thickness: 1}\n", encoding="utf-8"
    )
    part = build(str(path)).parts["p"]
    assert (box_of(part), metal_of(part)) == (None, None)


def test_a_mesh_has_what_its_surface_encloses(tmp_path: Path) -> None:
    box = trimesh.creation.box(extents=(40, 30, 20))
    (tmp_path / "box.stl").write_bytes(box.export(file_type="stl"))
    path = tmp_path / "m.yaml"
    path.write_text(
        "format: 1\nname: s\nbase: p\nparts:\n  p: {shape: mesh, file: box.stl, unit: mm}\n",
        encoding="utf-8",
    )
    made = build(str(path))
    assert [finding.message for finding in made.noticed if finding.severity == "error"] == []
    part = made.parts["p"]
    assert metal_of(part) == pytest.approx(40 * 30 * 20)
    assert box_of(part) == pytest.approx((40, 30, 20))
