"""Hole stacks: the layers that a fastener goes through, in their order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from seqviz.assembly.axes import StandingHole, axis_groups, standing_holes
from seqviz.assembly.crossings import Span, crossings
from seqviz.assembly.fastening import fastener_of_size, lengths_of
from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.laying import laid_stacks
from seqviz.assembly.pins import largest_pin
from seqviz.assembly.site import Site
from seqviz.assembly.structure import Layer, PlacedPart, Stack
from seqviz.geometry.pose import Array, any_across, cross, frozen
from seqviz.records.model import Model

__all__ = ["CLEAR", "hole_stacks"]

CLEAR = 3.0
"""mm: a clear space wider than this ends a stack."""

SAME_LAYER = 0.05
"""mm: a thickness that overlaps a hole's layer of the same part by more is that layer."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Thickness:
    """A part's thickness along an axis; ``hole`` None: it is solid there."""

    part: str
    low: float
    high: float
    hole: StandingHole | None


def hole_stacks(site: Site) -> tuple[tuple[Stack, ...], dict[str, int]]:
    """Return all hole stacks, and for every hole name the index of its stack."""
    placed = [site.placed[name] for name in sorted(site.placed)]
    holes = standing_holes(placed)
    clusters: list[tuple[list[_Thickness], Array, Array]] = []
    groups = [[holes[i] for i in group] for group in axis_groups(holes)]
    while groups:
        groups = _take_clusters(clusters, groups, placed, site.up)
    order = _row_order(placed_names=list(site.placed), site=site)
    clusters.sort(key=lambda c: order[_names(c[0])[0]])
    stacks = tuple(_stack(k, *cluster, site.model) for k, cluster in enumerate(clusters))
    if any(part.laid for part in placed):
        laid = sorted(laid_stacks(site.placed, stacks, site.model), key=lambda stack: order[stack.holes[0]])
        stacks = tuple(replace(stack, index=k) for k, stack in enumerate(laid))
    return stacks, {name: stack.index for stack in stacks for name in stack.holes}


def _take_clusters(
    clusters: list[tuple[list[_Thickness], Array, Array]],
    groups: Sequence[Sequence[StandingHole]],
    placed: Sequence[PlacedPart],
    up: Array,
) -> list[list[StandingHole]]:
    """Add each group's stack at its root, with the root's line; return what lies apart from it.

    What lies apart gets a line of its own next: seen along the root's it could be beside its place.
    """
    roots = [min(group, key=lambda h: (h.part.depth, h.part.name)) for group in groups]
    axes = np.array([_towards_layer_1(root, up) for root in roots])
    points = np.array([root.centre for root in roots])
    apart: list[list[StandingHole]] = []
    for k, solid in enumerate(crossings(placed, points, axes)):
        for cluster in _clusters(groups[k], solid, points[k], axes[k]):
            own = [t.hole for t in cluster if t.hole]
            if any(hole is roots[k] for hole in own):
                clusters.append((cluster, points[k], axes[k]))
            else:
                apart.append(own)
    return apart


def _row_order(placed_names: list[str], site: Site) -> dict[str, tuple[str, int]]:
    """Return for every hole name its place: by part name, then in the part's own order."""
    return {
        f"{name}.{hole.name}": (name, k)
        for name in placed_names
        for k, hole in enumerate(site.placed[name].holes)
    }


def _towards_layer_1(root: StandingHole, up: Array) -> Array:
    """Return the axis from the last layer towards layer 1: the base's upper side, else the flat's outside."""
    along = float(root.axis @ up)
    return root.axis * np.sign(along) if abs(along) >= PARALLEL else root.axis


def _clusters(
    group: Sequence[StandingHole], solid: Sequence[Span], point: Array, axis: Array
) -> list[list[_Thickness]]:
    """Split what stands on one axis where the clear space is more than 3 mm; keep what has a hole."""
    drilled = [_of_hole(hole, point, axis) for hole in group]
    layers = drilled + [
        _Thickness(part=part, low=low, high=high, hole=None)
        for part, low, high in solid
        if not any(t.part == part and min(t.high, high) - max(t.low, low) > SAME_LAYER for t in drilled)
    ]
    joined = {name for hole in group for name in hole.hole.crosses}
    clusters: list[list[_Thickness]] = []
    reach = -np.inf
    for layer in sorted(layers, key=lambda t: (t.low, t.high, t.part)):
        bridged = bool(clusters) and layer.part in joined and any(t.part in joined for t in clusters[-1])
        if layer.low - reach > CLEAR and not bridged:
            clusters.append([])
        clusters[-1].append(layer)
        reach = max(reach, layer.high)
    return [cluster for cluster in clusters if any(t.hole for t in cluster)]


def _of_hole(hole: StandingHole, point: Array, axis: Array) -> _Thickness:
    middle = float((hole.centre - point) @ axis)
    return _Thickness(part=hole.part.name, low=middle - hole.half, high=middle + hole.half, hole=hole)


def _names(cluster: Sequence[_Thickness]) -> tuple[str, ...]:
    """Return the hole names, those of the part farthest from the base first; ties: the later name first."""
    holes = [t.hole for t in cluster if t.hole]
    holes.sort(key=lambda h: h.part.name, reverse=True)
    holes.sort(key=lambda h: -h.part.depth)
    return tuple(name for hole in holes for name in hole.names)


def _stack(index: int, cluster: Sequence[_Thickness], point: Array, axis: Array, model: Model) -> Stack:
    layers = tuple(
        Layer(
            part=t.part,
            hole=t.hole.names[0] if t.hole else None,
            top=t.high,
            bottom=t.low,
            column=t.hole.hole.column if t.hole else None,
        )
        for t in sorted(cluster, key=lambda t: (-(t.low + t.high), t.part))
    )
    names = _names(cluster)
    holes = sorted((t.hole for t in cluster if t.hole), key=lambda h: names.index(h.names[0]))
    across = any_across(axis)
    plane = np.array([across, cross(axis, across)])
    centres = np.array([plane @ (h.centre - point) for h in holes])
    diameters = np.array([h.hole.diameter for h in holes])
    sizes = [h.hole.size for h in holes if h.hole.size]
    fasteners = [f for size in sizes if (f := fastener_of_size(model, size))]
    return Stack(
        index=index,
        point=frozen(point),
        axis=frozen(axis),
        layers=layers,
        holes=names,
        diameter=float(diameters.min()),
        size=sizes[0] if sizes else None,
        fastener=fasteners[0] if fasteners else None,
        pin=largest_pin(centres, diameters),
        lengths=lengths_of(model, fasteners[0] if fasteners else None),
    )
