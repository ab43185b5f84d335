"""The file of a mesh: where it may lie, how big it may be, and its triangles."""

from __future__ import annotations

import os
import re
from difflib import get_close_matches
from pathlib import Path

import numpy as np

from seqviz.geometry.pose import Array
from seqviz.parts.gltf import gltf_triangles
from seqviz.parts.obj import obj_triangles
from seqviz.parts.stl import stl_triangles
from seqviz.records.model import Name
from seqviz.units import Slip

__all__ = ["MOST_BYTES", "MOST_TRIANGLES", "mesh_triangles"]

MOST_BYTES = 100_000_000
MOST_TRIANGLES = 500_000
"""So that a check is done in seconds (project choice)."""

_KINDS = (".stl", ".obj", ".gltf", ".glb")
_PROJECT = "A model stays with its files: they lie in its folder or below it, or beside a folder `models`."


def mesh_triangles(written: Name) -> tuple[Array, str] | Slip:
    """Return the ``(n, 3, 3)`` corners of the triangles of a mesh's file, and its kind: ``stl``, ``glb``, ..

    ``written`` is the path in the model. The corners are numbers, in the file's own unit. A slip's message
    begins with the path.
    """
    path = _place(written)
    if isinstance(path, Slip):
        return path
    data = _read(path, written.text)
    if isinstance(data, Slip):
        return data
    kind = path.suffix.lower()[1:]
    if kind == "stl":
        found = stl_triangles(data)
    elif kind == "obj":
        found = obj_triangles(data)
    else:
        found = gltf_triangles(data, kind)
    if isinstance(found, Slip):
        return Slip(message=f"{written.text}: {found.message}.", why=found.why, fix=found.fix)
    return _sound(found, written.text) or (found, kind)


def _place(written: Name) -> Path | Slip:
    """Return where the file is; it must lie in the project."""
    name = written.text.replace("\\", "/")
    folder = os.path.realpath(os.path.dirname(written.at.file) or ".")
    project = os.path.dirname(folder) if os.path.basename(folder) == "models" else folder
    path = os.path.realpath(os.path.join(folder, name))
    if name.startswith("/") or re.match(r"[A-Za-z]:", name) or os.path.commonpath([project, path]) != project:
        return Slip(
            message=f"`{written.text}` leads out of the project.",
            why=_PROJECT,
            fix="Copy the file beside the model and write its name.",
        )
    if Path(path).suffix.lower() not in _KINDS:
        return Slip(
            message=f"`{written.text}` is none of the files that can be read.",
            why="A mesh is an .stl, .obj, .gltf or .glb file.",
            fix="Save the part as one of these; STL holds all that is needed.",
        )
    return Path(path)


def _read(path: Path, name: str) -> bytes | Slip:
    if not path.is_file():
        what = "is a folder" if path.is_dir() else "is not there" if not path.exists() else "is no file"
        there = [each.name for each in path.parent.iterdir()] if path.parent.is_dir() else []
        near = get_close_matches(path.name, [each for each in there if each != path.name], n=1)
        return Slip(
            message=f"`{name}` {what}.",
            why="The path is seen from the folder of the model.",
            fix=f"Did you mean `{near[0]}`?" if near else "Correct the path.",
        )
    size = path.stat().st_size
    if size > MOST_BYTES or size == 0:
        return Slip(
            message=f"`{name}` has {size / 1e6:.0f} MB." if size else f"`{name}` is empty.",
            why=f"Up to {MOST_BYTES / 1e6:.0f} MB are read, so that a check takes seconds (project choice)."
            if size
            else "Nothing was saved in it.",
            fix="Save it more coarsely: the surface need not be truer than 0.05 mm."
            if size
            else "Save or fetch it again.",
        )
    try:
        return path.read_bytes()
    except OSError as error:
        return Slip(
            message=f"`{name}` cannot be read ({error.strerror}).",
            why="It must be there and readable.",
            fix="Look at its permissions.",
        )


def _sound(triangles: Array, name: str) -> Slip | None:
    if len(triangles) == 0:
        return Slip(
            message=f"{name}: there are no triangles in it.", why="Nothing was saved.", fix="Save it again."
        )
    if len(triangles) > MOST_TRIANGLES:
        return Slip(
            message=f"{name} has {len(triangles):,} triangles.",
            why=f"Up to {MOST_TRIANGLES:,} are read, so that a check takes seconds (project choice).",
            fix="Save it more coarsely: the surface need not be truer than 0.05 mm.",
        )
    wrong = int((~np.isfinite(triangles)).any(axis=(1, 2)).sum())
    if wrong:
        return Slip(
            message=f"{name}: {wrong} of {len(triangles):,} triangles have corners that are no numbers.",
            why="Every corner has an x, a y and a z.",
            fix="Save it again from where it was drawn.",
        )
    return None
