from __future__ import annotations

import io

import numpy as np
import pytest
import trimesh

from seqviz.geometry.pose import IDENTITY, Pose, frozen
from seqviz.parts.gltf_file import MARKER, Solid, glb_file, round_mesh
from seqviz.parts.make import make_parts
from seqviz.parts.mesh import mesh_of
from seqviz.parts.surface import Mesh
from seqviz.parts.welding import surface_of
from seqviz.records.model import Points
from tests.parts.samples import model, part, row, skin
from tests.parts.surfaces import box

# x to the right, y ahead, z up becomes x to the left, y up, z ahead.
UP = frozen([[-1, 0, 0], [0, 0, 1], [0, 1, 0]])
BLOCK = surface_of(box((20.0, 30.0, 5.0)))


def loaded(data: bytes) -> trimesh.Scene:
    scene = trimesh.load(io.BytesIO(data), file_type="glb")
    assert isinstance(scene, trimesh.Scene)
    return scene


def solid(name: str, mesh: Mesh = BLOCK, pose: Pose = IDENTITY, key: object = "block") -> Solid:
    return Solid(name=name, key=key, mesh=mesh, pose=pose)


def test_metres_with_y_up_and_each_piece_where_it_stands() -> None:
    moved = Pose(rotation=frozen(np.eye(3)), translation=frozen([100.0, 0.0, 40.0]))
    scene = loaded(glb_file([solid("block left"), solid("block right", pose=moved)], UP))
    assert sorted(scene.graph.nodes_geometry) == ["block left", "block right"]
    assert len(scene.geometry) == 1
    # 0..20, 0..30, 0..5 mm: x turns to -20..0, up 0..5, ahead 0..30; the other 100 to the right, 40 higher.
    corners = {
        name: trimesh.transform_points(scene.geometry[geometry].vertices, pose)
        for name in scene.graph.nodes_geometry
        for pose, geometry in [scene.graph[name]]
    }
    assert corners["block left"].min(axis=0) == pytest.approx([-0.020, 0, 0])
    assert corners["block left"].max(axis=0) == pytest.approx([0, 0.005, 0.030])
    assert corners["block right"].min(axis=0) == pytest.approx([-0.120, 0.040, 0])
    assert corners["block right"].max(axis=0) == pytest.approx([-0.100, 0.045, 0.030])
    (mesh,) = scene.geometry.values()
    # 20 x 30 x 5 = 3000 mm3; turned, not mirrored, so that it is not negative.
    assert mesh.volume == pytest.approx(3000e-9, rel=1e-5)


def test_holes_are_in_it_and_the_body_is_closed() -> None:
    outline = ((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0))
    spots = Points(points=((10.0, 10.0),))
    made, _ = make_parts(model(part(skin(outline, 2.0), row(spots, size=None, diameter=4.0))))
    scene = loaded(glb_file([solid("plate", mesh_of(made["p"]))], UP))
    (mesh,) = scene.geometry.values()
    mesh.merge_vertices()
    assert mesh.is_watertight
    # A hole of 16 corners on its circle takes 16/2 * r^2 * sin(22.5 deg) = 8 * 4 * 0.382683 = 12.2459 mm2.
    assert mesh.volume == pytest.approx((800 - 12.2459) * 2e-9, rel=1e-5)


def test_names_are_safe_and_unlike() -> None:
    names = ["rail", "rail", "world", "a\u202eb\x00c", "x" * 10_000, ""]
    scene = loaded(glb_file([solid(name) for name in names], UP))
    found = sorted(scene.graph.nodes_geometry)
    assert found == sorted(["rail", "rail (2)", "world (2)", "a b c", "x" * 120, "part"])


def test_a_round_body_is_closed_and_looks_out() -> None:
    mesh = round_mesh(10.0, 4.0, top=1.0)
    body = trimesh.Trimesh(vertices=mesh.vertices, faces=mesh.faces, process=False)
    assert body.is_watertight
    # 24 corners on a circle of radius 5: 12 * 25 * sin(15 deg) = 300 * 0.258819 = 77.6457 mm2, 4 mm high.
    assert body.volume == pytest.approx(77.6457 * 4, rel=1e-5)
    assert body.bounds.tolist() == [[-5, -5, 0], [5, 5, 4]]


def test_who_wrote_it_stands_near_the_beginning_however_many_nodes_there_are() -> None:
    data = glb_file([solid(f"block {k}") for k in range(300)], UP)
    assert MARKER.encode() in data[:200]


def test_the_same_file_twice() -> None:
    assert glb_file([solid("block")], UP) == glb_file([solid("block")], UP)
