"""Solids as a binary glTF file: every part once, each piece a node with its name; metres, y up."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np

from seqviz.geometry.pose import Array, Pose
from seqviz.parts.extrude import closed
from seqviz.parts.mesh import Mesh

__all__ = ["MARKER", "Solid", "glb_file", "round_mesh"]

MARKER = '"generator":"seqviz"'
"""Stands near the beginning of every file written here."""

_METRES = 0.001
_LONGEST = 120  # letters of a name
_SIDES = 24
# Muted, light and dark in turn: red, green and blue of 255. Names carry what is what.
_TONES = ((176, 182, 188), (205, 200, 186), (150, 163, 176), (190, 176, 160), (216, 218, 220))
_FIXED_TONE = (92, 96, 100)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solid:
    """One node.

    Attributes
    ----------
    name
        As people say it; made safe and unique in the file.
    key
        Solids with the same key share their mesh.
    mesh
        mm, own frame.
    pose
        Where that frame stands in the base's, mm.
    fixed
        True of heads, tails and pins: they are drawn darker.
    """

    name: str
    key: object
    mesh: Mesh
    pose: Pose
    fixed: bool = False


def glb_file(solids: Iterable[Solid], turn: Array) -> bytes:
    """Return the file.

    Parameters
    ----------
    solids
        What stands in it.
    turn
        ``(3, 3)`` rotation, base frame to the file's: x to the left, y up, z ahead (glTF 2.0, Khronos
        Group, 3.4: right-handed, +Y up, +Z forward, -X right, units metres).
    """
    import trimesh
    from trimesh.exchange.gltf import export_glb

    scene = trimesh.Scene()
    meshes: dict[object, str] = {}
    names: set[str] = set()
    for solid in solids:
        name = _unique(solid.name, names)
        matrix = np.eye(4)
        matrix[:3, :3] = turn @ solid.pose.rotation
        matrix[:3, 3] = turn @ solid.pose.translation * _METRES
        if solid.key in meshes:
            # A node of its own on the mesh that is there already.
            scene.graph.update(frame_to=name, matrix=matrix, geometry=meshes[solid.key])
            continue
        meshes[solid.key] = name
        scene.add_geometry(_toned(solid, len(meshes)), node_name=name, geom_name=name, transform=matrix)
    return bytes(export_glb(scene, include_normals=False, tree_postprocessor=_signed))


def round_mesh(diameter: float, height: float, top: float = 0.8) -> Mesh:
    """Return a closed round body on the x-y plane, mm; at its top it is ``top`` times as wide."""
    turns = np.arange(_SIDES) * 2 * np.pi / _SIDES
    ring = np.column_stack([np.cos(turns), np.sin(turns), np.zeros(_SIDES)]) * diameter / 2
    k = np.arange(1, _SIDES - 1)
    fan = np.column_stack([np.zeros_like(k), k, k + 1])
    return Mesh(vertices=np.concatenate([ring, ring * top + [0.0, 0.0, height]]), faces=closed(fan, _SIDES))


def _toned(solid: Solid, number: int) -> Any:
    import trimesh

    tone = _FIXED_TONE if solid.fixed else _TONES[number % len(_TONES)]
    material = trimesh.visual.material.PBRMaterial(
        baseColorFactor=[*tone, 255], metallicFactor=0.2, roughnessFactor=0.6
    )
    return trimesh.Trimesh(
        vertices=solid.mesh.vertices * _METRES,
        faces=solid.mesh.faces,
        process=False,
        visual=trimesh.visual.TextureVisuals(material=material),
    )


def _unique(name: str, taken: set[str]) -> str:
    """Return a name without unseen signs, of bearable length, that nothing else in the file has."""
    seen = "".join(" " if unicodedata.category(sign)[0] in "CZ" else sign for sign in name)
    plain = " ".join(seen.split())[:_LONGEST] or "part"
    found, number = plain, 2
    while found in taken or found == "world":
        found, number = f"{plain} ({number})", number + 1
    taken.add(found)
    return found


def _signed(tree: dict[str, Any]) -> None:
    """Say who wrote the file, before all else: the list of its nodes may be long."""
    rest = {key: value for key, value in tree.items() if key != "asset"}
    asset = {**tree["asset"], "generator": "seqviz"}
    tree.clear()
    tree.update({"asset": asset, **rest})
