"""Hole stacks: the layers that a fastener goes through, in their order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from seqviz.assembly.axes import SharedAxes, StandingHole
from seqviz.assembly.crossings import Span, crossings
from seqviz.assembly.fastening import fastener_of_size, supply_named
from seqviz.assembly.flats import PARALLEL
from seqviz.assembly.laying import laid_stacks
from seqviz.assembly.pins import largest_pin
from seqviz.assembly.site import Site
from seqviz.assembly.structure import CLEAR, Layer, PlacedPart, Stack
from seqviz.geometry.pose import Array, frames_along, frozen
from seqviz.records.model import Model

__all__ = ["CLEAR", "hole_stacks"]

SAME_LAYER = 0.05
"""mm: a thickness that overlaps a hole's layer of the same part by more is that layer."""


class _Thickness(NamedTuple):
    """A part's thickness along an axis; ``hole`` None: it is solid there.

    ``spot``, mm: where the hole's middle lies across the axis.
    """

    low: float
    high: float
    part: str
    hole: StandingHole | None = None
    spot: tuple[float, float] = (0.0, 0.0)


def hole_stacks(site: Site, axes: SharedAxes) -> tuple[tuple[Stack, ...], dict[str, int]]:
    """Return all hole stacks, and for every hole name the index of its stack."""
    placed = [site.placed[name] for name in sorted(site.placed)]
    clusters: list[tuple[list[_Thickness], Array, Array]] = []
    groups = [[axes.holes[i] for i in group] for group in axes.groups()]
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
    axes = frozen([_towards_layer_1(root, up) for root in roots])
    points = frozen([root.centre for root in roots])
    drilled = _drilled(groups, points, axes)
    apart: list[list[StandingHole]] = []
    for k, solid in enumerate(crossings(placed, points, axes)):
        for cluster in _clusters(drilled[k], solid):
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
    if root.part.part.roll is not None and root.part.depth == 0:
        return root.axis * root.part.part.flats[root.hole.flat].outside
    along = float(root.axis @ up)
    return root.axis * np.sign(along) if abs(along) >= PARALLEL else root.axis


def _drilled(groups: Sequence[Sequence[StandingHole]], points: Array, axes: Array) -> list[list[_Thickness]]:
    """Return each group's holes as seen along its line, which goes through ``points`` along ``axes``."""
    line = np.repeat(np.arange(len(groups)), [len(group) for group in groups])
    centres = np.array([hole.centre for group in groups for hole in group])
    seen = frames_along(axes)[line] @ (centres - points[line])[..., None]
    places = iter(seen[..., 0].tolist())
    return [[_of_hole(hole, *next(places)) for hole in group] for group in groups]


def _of_hole(hole: StandingHole, x: float, y: float, middle: float) -> _Thickness:
    return _Thickness(middle - hole.half, middle + hole.half, hole.part.name, hole, (x, y))


def _clusters(drilled: Sequence[_Thickness], solid: Sequence[Span]) -> list[list[_Thickness]]:
    """Split what stands on one axis where the clear space is more than 3 mm; keep what has a hole."""
    layers = [
        *drilled,
        *(
            _Thickness(low, high, part)
            for part, low, high in solid
            if not any(t.part == part and min(t.high, high) - max(t.low, low) > SAME_LAYER for t in drilled)
        ),
    ]
    joined = {name for t in drilled if t.hole for name in t.hole.hole.crosses}
    clusters: list[list[_Thickness]] = []
    reach = -np.inf
    for layer in sorted(layers, key=lambda t: t[:3]):
        bridged = bool(clusters) and layer.part in joined and any(t.part in joined for t in clusters[-1])
        if layer.low - reach > CLEAR and not bridged:
            clusters.append([])
        clusters[-1].append(layer)
        reach = max(reach, layer.high)
    return [_without_cover(cluster) for cluster in clusters if any(t.hole for t in cluster)]


def _without_cover(cluster: list[_Thickness]) -> list[_Thickness]:
    """Leave out what is solid over a flush head, beyond the hole whose row says that it lies there."""
    end = _head_end(cluster)
    drilled = [t for t in cluster if t.hole]
    if end == 1:
        face = max(t.high for t in drilled)
        return [t for t in cluster if t.hole or t.low < face - SAME_LAYER]
    if end == -1:
        face = min(t.low for t in drilled)
        return [t for t in cluster if t.hole or t.high > face + SAME_LAYER]
    return cluster


def _head_end(cluster: Sequence[_Thickness]) -> int | None:
    """Return +1 where the row of the hole at layer 1's end says `countersunk`, -1 that of the other end.

    Of a single hole, and where no row says so, None.
    """
    top = max((t for t in cluster if t.hole), key=lambda t: t.high)
    bottom = min((t for t in cluster if t.hole), key=lambda t: t.low)
    if top is bottom:
        return None
    if top.hole and top.hole.hole.head_here:
        return 1
    return -1 if bottom.hole and bottom.hole.hole.head_here else None


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
    drilled = [(names.index(t.hole.names[0]), t.hole, t.spot) for t in cluster if t.hole]
    drilled.sort(key=lambda place: place[0])
    holes = [hole.hole for _, hole, _ in drilled]
    circles = [(x, y, hole.diameter) for hole, (_, _, (x, y)) in zip(holes, drilled, strict=True)]
    sizes = [hole.size for hole in holes if hole.size]
    fasteners = [f for size in sizes if (f := fastener_of_size(model, size))]
    return Stack(
        index=index,
        point=point,
        axis=axis,
        layers=layers,
        holes=names,
        diameter=min(hole.diameter for hole in holes),
        size=sizes[0] if sizes else None,
        fastener=fasteners[0] if fasteners else None,
        pin=largest_pin(circles),
        supply=supply_named(model, fasteners[0] if fasteners else None),
        countersunk=any(hole.countersunk for hole in holes),
        head_end=_head_end(cluster),
    )
