from __future__ import annotations

import numpy as np
import pytest
import trimesh

from seqviz.parts.gltf import gltf_triangles
from seqviz.parts.welding import open_edges, surface_of
from seqviz.units import Slip
from tests.parts.surfaces import box


def scene() -> trimesh.Scene:
    """A box of 1 x 2 x 3, once 10 along x, once at the end of two turned nodes, once mirrored."""
    made = trimesh.Scene()
    one = trimesh.Trimesh(*trimesh.triangles.to_kwargs(box((1, 2, 3))).values())
    turn = trimesh.transformations.rotation_matrix(np.pi / 2, [0, 0, 1])
    made.add_geometry(
        one, node_name="moved", transform=trimesh.transformations.translation_matrix([10, 0, 0])
    )
    made.graph.update(frame_to="turned", matrix=turn)
    made.graph.update(
        frame_from="turned",
        frame_to="twice",
        matrix=turn @ trimesh.transformations.translation_matrix([5, 0, 0]),
        geometry=made.graph["moved"][1],
    )
    made.graph.update(frame_to="mirrored", matrix=np.diag([1, -1, 1, 1]), geometry=made.graph["moved"][1])
    return made


def test_all_nodes_stand_where_the_scene_says() -> None:
    data = scene().export(file_type="glb")
    found = gltf_triangles(data, "glb")
    assert isinstance(found, np.ndarray)
    assert len(found) == 36
    boxes = sorted(
        (one.min(axis=(0, 1)).round(6).tolist(), one.max(axis=(0, 1)).round(6).tolist())
        for one in np.split(found, 3)
    )
    # Twice a quarter turn takes x to -x and y to -y: 5..6, 0..2 lands on -6..-5, -2..0.
    assert boxes == [
        ([-6, -2, 0], [-5, 0, 3]),
        ([0, -2, 0], [1, 0, 3]),
        ([10, 0, 0], [11, 2, 3]),
    ]
    surface = surface_of(found)
    assert len(open_edges(surface)) == 0
    a, b, c = (surface.vertices[surface.faces[:, k]] for k in range(3))
    assert np.einsum("ij,ij->", a, np.cross(b, c)) / 6 == pytest.approx(18.0)


def test_other_files_are_not_read() -> None:
    files = scene().export(file_type="gltf")
    slip = gltf_triangles(files["model.gltf"], "gltf")
    assert isinstance(slip, Slip)
    assert slip.message == "its data lies in another file"


@pytest.mark.parametrize(
    ("data", "kind", "message"),
    [
        (b"letter", "glb", "this is no glTF file that can be read"),
        (b"{}", "gltf", "there are no faces in it"),
    ],
)
def test_what_is_wrong(data: bytes, kind: str, message: str) -> None:
    slip = gltf_triangles(data, kind)
    assert isinstance(slip, Slip)
    assert slip.message == message
