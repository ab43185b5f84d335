"""Where the holes of a row lie: from point to point, along an edge, across, over a grid, or one by one."""

from __future__ import annotations

import numpy as np

from seqviz.findings import At, Finding
from seqviz.geometry.pose import Array
from seqviz.parts.edges import EDGES, FREE_EDGE, Edge, directions, edge_facing, free_edge
from seqviz.parts.mistakes import bad_value, missing_word, plain
from seqviz.parts.part import Flat
from seqviz.records.model import Across, AlongEdge, FromTo, Grid, MirrorLine, Points, Row, Spacing

__all__ = ["row_places"]

ROUNDING = 0.01
"""mm: how far a length may be off a whole number of pitches, for pitches written with two decimals."""


_ONE_BEND = ("leg", "flange", "foot")
_AS_DRAWN = ("face", "top", "bottom")
"""Flats whose x and y are those in which the part is drawn, so that they have a left and a right."""


def row_places(row: Row, flat: Flat, forward: str, line: MirrorLine | None = None) -> Array | Finding:
    """Return where the row's places lie, skipped ones among them, or the mistake in its layout.

    ``line`` is the mirror line about which a row across is symmetric, in the coordinates of ``flat``.

    Returns
    -------
    ndarray
        ``(n, 2)``, mm, coordinates of ``flat``; place k is hole k + 1.
    """
    if isinstance(row.layout, Points):
        return np.array(row.layout.points, dtype=np.float64).reshape(-1, 2)
    if isinstance(row.layout, FromTo):
        return _from_to(row, row.layout)
    if isinstance(row.layout, Grid):
        return _grid(row.layout)
    if isinstance(row.layout, Across):
        return _across(row, row.layout, (flat, forward, line))
    return _along_edge(row, row.layout, flat, forward)


def _grid(layout: Grid) -> Array:
    x, y = np.meshgrid(np.arange(layout.columns), np.arange(layout.rows))
    numbers = np.column_stack([x.ravel(), y.ravel()]).astype(np.float64)
    return np.asarray(numbers * layout.pitches + layout.corner, dtype=np.float64)


def _across(row: Row, layout: Across, on: tuple[Flat, str, MirrorLine | None]) -> Array | Finding:
    flat, forward, line = on
    if not _as_drawn(flat):
        return bad_value(
            layout.at,
            f"Row {row.name}: there is no across on {flat.name}.",
            "A row across lies on a skin, plate or bar, on a block's top, or on the web of a frame.",
            "Give the row by from and to.",
        )
    if line is None or line.axis == forward[-1]:
        return missing_word(
            layout.at,
            f"Row {row.name} is symmetric about a mirror line that runs forward, but there is none.",
            "From centre is measured from the part's own mirror line, or else from that of the model.",
            "Write a mirror line, such as y=180, or give the row by from and to.",
        )
    spaces = _spaces(row.name, layout.spacing, 2 * layout.from_centre)
    if isinstance(spaces, Finding):
        return spaces
    ways = directions(forward)
    centre = np.abs(ways["forward"]) * layout.station + np.abs(ways["left"]) * line.value
    return centre + np.linspace(-layout.from_centre, layout.from_centre, spaces + 1)[:, None] * ways["left"]


def _from_to(row: Row, layout: FromTo) -> Array | Finding:
    start, end = np.array(layout.start), np.array(layout.end)
    spaces = _spaces(row.name, layout.spacing, float(np.linalg.norm(end - start)))
    if isinstance(spaces, Finding):
        return spaces
    return np.linspace(start, end, spaces + 1)


def _along_edge(row: Row, layout: AlongEdge, flat: Flat, forward: str) -> Array | Finding:
    edge = _edge(row.name, layout, flat, forward)
    if isinstance(edge, Finding):
        return edge
    steps = _steps(row.name, layout, edge.length)
    if isinstance(steps, Finding):
        return steps
    return edge.start + edge.inward * layout.inset + steps[:, None] * edge.along


def _edge(name: str, layout: AlongEdge, flat: Flat, forward: str) -> Edge | Finding:
    if layout.edge == FREE_EDGE and flat.name.startswith(_ONE_BEND):
        free = free_edge(flat.outline)
        if free is not None:
            return free
    if layout.edge not in EDGES or not _as_drawn(flat):
        return bad_value(
            layout.at,
            f"Row {name}: there is no {layout.edge} on {flat.name}.",
            "Left, right, forward and aft edges are those of a skin, plate or bar, of a block's top, of a "
            "frame's web. A leg, flange or foot has a free edge, across from its bend.",
            "Give the row by from and to.",
        )
    return edge_facing(flat.outline if flat.drawn is None else flat.drawn, layout.edge, forward, layout.at)


def _as_drawn(flat: Flat) -> bool:
    return flat.name in _AS_DRAWN or flat.drawn is not None


def _steps(name: str, layout: AlongEdge, length: float) -> Array | Finding:
    """Return the distances (n,) mm of the places from the edge's start."""
    if layout.last_in is None:
        return _open_ended(name, layout)
    span = length - layout.first - layout.last_in
    if span < 0:
        return bad_value(
            layout.at,
            f"Row {name}: the edge is {plain(length)} long; first {plain(layout.first)} and "
            f"last in {plain(layout.last_in)} do not fit on it.",
            "First is measured from the edge's start, last in from its end.",
            "Check both numbers and the edge.",
        )
    spaces = _spaces(name, layout.spacing, span)
    if isinstance(spaces, Finding):
        return spaces
    return np.linspace(layout.first, length - layout.last_in, spaces + 1)


def _open_ended(name: str, layout: AlongEdge) -> Array | Finding:
    spacing = layout.spacing
    spaces = _said_spaces(spacing)
    if spacing.pitch is None or spaces is None:
        return missing_word(
            spacing.at,
            f"Row {name}: it is not said where the row ends.",
            "A row along an edge without last in needs a pitch and a count (or spaces).",
            "Write last in, or both pitch and count.",
        )
    if spacing.pitch <= 0 or spaces < 0:
        return _no_holes(name, spacing.at)
    return np.asarray(layout.first + spacing.pitch * np.arange(spaces + 1.0), dtype=np.float64)


def _said_spaces(spacing: Spacing) -> int | None:
    return spacing.spaces if spacing.count is None else spacing.count - 1


def _spaces(name: str, spacing: Spacing, span: float) -> int | Finding:
    """Return how many spaces lie between the first and the last hole, ``span`` mm apart."""
    spaces = _said_spaces(spacing)
    if spaces is None:
        return _whole_pitches(name, spacing, span)
    if spaces < 0 or (spacing.pitch is not None and spacing.pitch <= 0):
        return _no_holes(name, spacing.at)
    if spaces == 0 and span > ROUNDING:
        return bad_value(
            spacing.at,
            f"Row {name}: one hole cannot lie at both ends, {plain(span)} apart.",
            "The first and the last hole of a row lie on its two ends.",
            "Write a count of 2 or more, or a single hole as at: [[x, y]].",
        )
    if spacing.pitch is not None and abs(spaces * spacing.pitch - span) > ROUNDING:
        return bad_value(
            spacing.at,
            f"Row {name}: {spaces} spaces of {plain(spacing.pitch)} make {plain(spaces * spacing.pitch)}, "
            f"but the ends are {plain(span)} apart.",
            "Ends, pitch and count must agree where all three are written.",
            "Leave one of them out.",
        )
    return spaces


def _whole_pitches(name: str, spacing: Spacing, span: float) -> int | Finding:
    pitch = spacing.pitch
    if pitch is None:
        return missing_word(
            spacing.at,
            f"Row {name}: it is not said how many holes it has.",
            "Between two ends a row needs a count, a pitch or spaces.",
            "Write one of count, pitch, spaces.",
        )
    if pitch <= 0:
        return _no_holes(name, spacing.at)
    pitches = span / pitch
    spaces = round(pitches)
    if abs(spaces * pitch - span) <= ROUNDING:
        return spaces
    # The nearest whole number is what was most likely meant; a row has at least one space.
    meant = max(spaces, 1)
    return bad_value(
        spacing.at,
        f"Row {name}: {plain(span)} is {plain(pitches)} pitches of {plain(pitch)}; "
        f"{plain(meant * pitch)} would be {meant}.",
        "The first and the last hole lie on the two ends, so a whole number of pitches must fit between.",
        "Correct the ends or the pitch, or give a count.",
    )


def _no_holes(name: str, at: At) -> Finding:
    return bad_value(
        at,
        f"Row {name}: with this spacing there are no holes.",
        "A row has one hole at least, and its pitch is more than 0.",
        "Check the count and the pitch.",
    )
