"""What stands under a click: a hole if one is there, else the part that is seen there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from seqviz.assembly.structure import Stack
from seqviz.geometry.pose import Array
from seqviz.render.desk_state import Picked
from seqviz.render.desk_stock import Lot, Stock
from seqviz.render.view import View
from seqviz.scene.film_types import Film
from seqviz.scene.playing import Instant

__all__ = ["Aim", "picked_at"]

_NEAR = 6.0  # pixels around a small hole that are taken for it
_FACING = 0.15  # cosine; a hole seen flatter than that is not aimed at
_DEEP = 1.0  # mm that what is seen may stand before the end of a hole


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Aim:
    """What a click may meet.

    Attributes
    ----------
    film, stock, stacks
        Everything.
    instant
        What is there.
    hidden
        Placed parts that are not drawn, and those that one looks through.
    """

    film: Film
    stock: Stock
    stacks: Sequence[Stack]
    instant: Instant
    hidden: frozenset[str]


def picked_at(aim: Aim, view: View, at: tuple[float, float]) -> Picked | None:
    """Return what is seen in ``view`` at the pixels ``at`` (from the left, from the top)."""
    offsets = {name: off for name, off in aim.instant.offsets.items() if name not in aim.hidden}
    start = _point_under(view, at)
    part, depth = _first_part(aim.stock, offsets, view, start)
    standing = [k for k in aim.instant.fixed if aim.film.fixed[k].part in offsets]
    shifts = np.array([offsets[aim.film.fixed[k].part] for k in standing]).reshape(-1, 3)
    fixed, nearer = _first(aim.stock.fixed, standing, shifts, view, start)
    if fixed is not None and nearer >= depth:
        one = aim.film.fixed[fixed]
        return Picked(part=one.part, stack=one.stack)
    hole = _hole(aim.stacks, offsets, view, at, depth)
    if hole is not None:
        return hole
    return None if part is None else Picked(part=part)


def _point_under(view: View, at: tuple[float, float]) -> Array:
    right, top, _ = view.axes
    across, upward = at[0] - view.size[0] / 2, view.size[1] / 2 - at[1]
    return np.asarray(view.centre + (right * across + top * upward) / view.scale)


def _first_part(
    stock: Stock, offsets: Mapping[str, Array], view: View, start: Array
) -> tuple[str | None, float]:
    names = [name for name in offsets if name in stock.number]
    shifts = np.array([offsets[name] for name in names]).reshape(-1, 3)
    number, depth = _first(stock.parts, [stock.number[name] for name in names], shifts, view, start)
    return (None if number is None else stock.names[number]), depth


def _first(
    lot: Lot, numbers: Sequence[int], shifts: Array, view: View, start: Array
) -> tuple[int | None, float]:
    """Return which body the line of sight through ``start`` meets first, and its depth: mm to the eye."""
    best: tuple[int | None, float] = (None, -np.inf)
    if not numbers:
        return best
    reached = _boxes_met(lot.low[numbers] + shifts, lot.high[numbers] + shifts, view.towards, start)
    for k in np.flatnonzero(reached).tolist():
        corners = lot.body.vertices[lot.body.faces[lot.faces == numbers[k]]]
        depth = _depth_of(corners - (start - shifts[k]), view)
        if depth > best[1]:
            best = (numbers[k], depth)
    # Depths are measured from the view's centre, as the point under the click is.
    return best


def _boxes_met(low: Array, high: Array, along: Array, start: Array) -> Array:
    """Return for each box whether the endless line through ``start`` meets it."""
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - start) / along, (high - start) / along
    first, last = np.fmin(one, other).max(axis=1), np.fmax(one, other).min(axis=1)
    return np.asarray(first <= last)


def _depth_of(corners: Array, view: View) -> float:
    """Return how near the eye the line of sight through the origin meets ``(n, 3, 3)`` triangles first."""
    flat = corners @ view.axes.T
    x, y = flat[:, :, 0], flat[:, :, 1]
    sides = x * np.roll(y, -1, axis=1) - y * np.roll(x, -1, axis=1)
    area = sides.sum(axis=1)
    hit = ((sides >= 0).all(axis=1) | (sides <= 0).all(axis=1)) & (np.abs(area) > 1e-12)
    if not hit.any():
        return -np.inf
    # The side across from a corner weighs it.
    weights = np.roll(sides[hit], -1, axis=1) / area[hit, np.newaxis]
    return float((weights * flat[hit, :, 2]).sum(axis=1).max())


def _hole(
    stacks: Sequence[Stack], offsets: Mapping[str, Array], view: View, at: tuple[float, float], depth: float
) -> Picked | None:
    """Return the nearest hole under the click whose rim nothing hides."""
    best: tuple[float, Picked] | None = None
    for stack in stacks:
        there = [layer for layer in stack.layers if layer.part in offsets] if stack.located else []
        if not there:
            continue
        for layer, along, outward in ((there[0], there[0].top, 1.0), (there[-1], there[-1].bottom, -1.0)):
            if outward * float(stack.axis @ view.towards) < _FACING:
                continue
            x, y, near = view.project(stack.point + stack.axis * along + offsets[layer.part])
            away = float(np.hypot(x - at[0], y - at[1]))
            reach = max(stack.diameter / 2 * view.scale, _NEAR)
            slant = stack.diameter / 2 + _DEEP
            if away <= reach and near >= depth - slant and (best is None or near > best[0]):
                best = (float(near), Picked(part=layer.part, stack=stack.index))
    return best[1] if best is not None else None
