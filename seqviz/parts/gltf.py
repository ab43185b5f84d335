"""Triangles of a glTF file: all meshes of its scene, each where its node stands."""

from __future__ import annotations

import io
from typing import Any

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.units import Slip

__all__ = ["gltf_triangles"]

_WHY = "A glTF file holds a scene with meshes. Only what stands in the file itself is read."
_FIX = "Save the part as one .glb file, without compression."


def gltf_triangles(data: bytes, kind: str) -> Array | Slip:
    """Return the ``(n, 3, 3)`` corners of all triangles of the scene, in metres, or what is wrong with it.

    ``kind`` is ``gltf`` or ``glb``. Buffers and textures in other files are not read.
    """
    import trimesh

    try:
        # Without a resolver there is no way to another file.
        scene = trimesh.load_scene(io.BytesIO(data), file_type=kind, resolver=None, skip_materials=True)
        found = [_standing(scene, node) for node in sorted(scene.graph.nodes_geometry)]
    except Exception:
        # Whatever a broken file makes a foreign reader do.
        outside = b'"uri"' in data and b'"uri":"data:' not in data.replace(b" ", b"")
        return Slip(
            message="its data lies in another file" if outside else "this is no glTF file that can be read",
            why=_WHY,
            fix=_FIX,
        )
    triangles = [each for each in found if len(each)]
    if not triangles:
        return Slip(message="there are no faces in it", why=_WHY, fix=_FIX)
    return np.concatenate(triangles)


def _standing(scene: Any, node: str) -> Array:
    """Return the triangles of one node where it stands."""
    pose, name = scene.graph[node]
    geometry = scene.geometry[name]
    faces = getattr(geometry, "faces", None)
    if faces is None or not len(faces):
        return np.zeros((0, 3, 3))
    corners = np.asarray(geometry.vertices, dtype=np.float64) @ pose[:3, :3].T + pose[:3, 3]
    triangles = corners[np.asarray(faces)]
    # A mirroring node turns its triangles inside out.
    return np.asarray(triangles[:, ::-1] if np.linalg.det(pose[:3, :3]) < 0 else triangles)
