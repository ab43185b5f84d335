"""Meshes of parts as they stand in a scene, with the edges worth drawing; each part is meshed once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from seqviz.geometry.pose import Array, any_across
from seqviz.parts.mesh import mesh_of
from seqviz.parts.part import Part
from seqviz.scene.picture import Fitted, Item

__all__ = ["Body", "Meshes", "feature_edges", "joined_bodies", "round_body"]

Indices = NDArray[np.int64]
_SHARP = 30.0  # degrees; a hole of 16 segments has 22.5 between them
_WELD = 6  # decimals of a mm


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Body:
    """Triangles with the edges to draw: ``vertices`` (n, 3) mm, ``faces`` (m, 3), ``edges`` (k, 2)."""

    vertices: Array
    faces: Indices
    edges: Indices


@dataclass(slots=True)
class Meshes:
    """Keeps the mesh of each part, in the part's own frame."""

    kept: dict[Part, Body] = field(default_factory=dict)

    def body(self, item: Item) -> Body:
        """Return the item's mesh where it is drawn, base frame."""
        own = self.own(item.part)
        return Body(vertices=item.pose.points(own.vertices) + item.shift, faces=own.faces, edges=own.edges)

    def own(self, part: Part) -> Body:
        """Return the mesh of a part in its own frame."""
        own = self.kept.get(part)
        if own is None:
            mesh = mesh_of(part, segments=16)
            vertices, faces = (
                np.asarray(mesh.vertices, dtype=np.float64),
                np.asarray(mesh.faces, dtype=np.int64),
            )
            own = Body(vertices=vertices, faces=faces, edges=feature_edges(vertices, faces))
            self.kept[part] = own
        return own


def feature_edges(vertices: Array, faces: Indices) -> Indices:
    """Return ``(k, 2)`` edges where triangles meet at more than 30 degrees, or that only one has."""
    _, first, weld = np.unique(vertices.round(_WELD), axis=0, return_index=True, return_inverse=True)
    faces = first[weld.reshape(-1)][faces]
    corners = vertices[faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1)
    whole = lengths > 1e-12
    faces, normals = faces[whole], normals[whole] / lengths[whole, np.newaxis]
    sides = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1)
    owners = np.tile(np.arange(len(faces)), 3)
    edges, which, count = np.unique(sides, axis=0, return_inverse=True, return_counts=True)
    order = np.argsort(which.reshape(-1), kind="stable")
    starts = np.concatenate([[0], np.cumsum(count)[:-1]])
    one = owners[order[starts]]
    other = owners[order[np.minimum(starts + 1, len(order) - 1)]]
    bent = np.einsum("ij,ij->i", normals[one], normals[other]) < np.cos(np.radians(_SHARP))
    return np.asarray(edges[(count != 2) | bent], dtype=np.int64)


def joined_bodies(bodies: Iterable[Body]) -> Body:
    """Return all bodies as one."""
    nothing = np.zeros((0, 2), dtype=np.int64)
    listed = [Body(vertices=np.zeros((0, 3)), faces=np.zeros((0, 3), dtype=np.int64), edges=nothing)]
    listed += bodies
    starts = np.cumsum([0, *(len(body.vertices) for body in listed)])
    return Body(
        vertices=np.concatenate([body.vertices for body in listed]),
        faces=np.concatenate([body.faces + start for body, start in zip(listed, starts, strict=False)]),
        edges=np.concatenate([body.edges + start for body, start in zip(listed, starts, strict=False)]),
    )


def round_body(fitted: Fitted, sides: int = 12) -> Body:
    """Return a head, tail or pin as a short cone frustum that stands on its face."""
    across = any_across(fitted.outward)
    along = np.cross(fitted.outward, across)
    turns = np.linspace(0.0, 2 * np.pi, sides, endpoint=False)
    ring = np.cos(turns)[:, np.newaxis] * across + np.sin(turns)[:, np.newaxis] * along
    radius, top = fitted.diameter / 2, (0.85 if fitted.pin else 0.62)
    above = fitted.point + fitted.outward * fitted.height
    vertices = np.concatenate([fitted.point + ring * radius, above + ring * radius * top, [above]])
    k = np.arange(sides)
    nxt = (k + 1) % sides
    walls = np.concatenate([np.stack([k, nxt, nxt + sides], 1), np.stack([k, nxt + sides, k + sides], 1)])
    lid = np.stack([k + sides, nxt + sides, np.full(sides, 2 * sides)], 1)
    rims = np.concatenate([np.stack([k, nxt], 1), np.stack([k + sides, nxt + sides], 1)])
    return Body(vertices=vertices, faces=np.concatenate([walls, lid]), edges=rims)
