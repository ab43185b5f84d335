"""What a model file says of rows of holes: lengths in mm, every row with its place."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At
from seqviz.records.named import Name

__all__ = [
    "Across",
    "AlongEdge",
    "FromTo",
    "Grid",
    "LaidRow",
    "OtherLayers",
    "OtherSize",
    "Points",
    "Row",
    "Spacing",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
    """How many holes between two ends: one of the three; with a pitch also another where no end is given."""

    count: int | None = None
    pitch: float | None = None
    spaces: int | None = None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class FromTo:
    """A straight row from one point of the flat to another, mm."""

    start: tuple[float, float]
    end: tuple[float, float]
    spacing: Spacing


@dataclass(frozen=True, slots=True, kw_only=True)
class AlongEdge:
    """A row along an edge of the outline: ``inset`` from it, ``first`` and ``last_in`` from the edge's ends.

    ``last_in`` None: the spacing has both a pitch and a count (or spaces).
    """

    edge: str
    inset: float
    first: float
    last_in: float | None
    spacing: Spacing
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """A row square to forward at ``station``, the coordinate along forward; mm.

    It is symmetric about the mirror line: the first and the last hole lie ``from_centre`` from it. ``at`` is
    the place of ``across at``.
    """

    station: float
    from_centre: float
    spacing: Spacing
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Holes in ``rows`` rows of ``columns``: ``corner`` is hole 1, ``pitches`` are those along x and y, mm.

    Hole 2 follows hole 1 along x; when a row is full the next one begins, one pitch along y.
    """

    pitches: tuple[float, float]
    columns: int
    rows: int
    corner: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Points:
    """A row given point by point, mm on its flat."""

    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherSize:
    """Holes ``first`` to ``last`` of a row have another size; None: there is no hole."""

    first: int
    last: int
    size: str | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A named row of holes on a flat. ``size`` or ``diameter`` is given; ``flat`` None: its first.

    ``laid_out_on``: the part whose row is repeated here, at the places that it has on that part.
    ``pilot``: mm, what is punched where a ``drill`` step opens it (written at ``pilot_at``). ``punched``
    False: it makes the holes. ``countersunk``: heads lie flush here; None: as the size says.
    """

    name: str
    flat: str | None
    layout: FromTo | AlongEdge | Across | Grid | Points
    size: Name | None
    diameter: float | None
    exceptions: tuple[OtherSize, ...]
    skip: tuple[int, ...]
    crosses: tuple[Name, ...]
    both_sides: bool
    at: At
    laid_out_on: str | None = None
    pilot: float | None = None
    punched: bool = True
    pilot_at: At | None = None
    countersunk: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherLayers:
    """Holes ``first`` to ``last`` of a row of ``rows`` have other layers, head side first."""

    first: int
    last: int
    layers: tuple[Name, ...]
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRow:
    """An entry of ``rows``: what lies over what at ``count`` holes, without saying where they are.

    ``layers`` are placed parts, head side first; each gets the holes ``PLACED.NAME.1`` and so on.
    ``countersunk``: heads lie flush here; None: as the size says.
    """

    name: str
    layers: tuple[Name, ...]
    count: int
    size: Name | None
    diameter: float | None
    exceptions: tuple[OtherSize, ...]
    others: tuple[OtherLayers, ...]
    skip: tuple[int, ...]
    at: At
    countersunk: bool | None = None

    def layers_at(self, number: int) -> tuple[str, ...]:
        """Return the names of the layers of hole ``number``, head side first."""
        said = [other.layers for other in self.others if other.first <= number <= other.last]
        return tuple(layer.text for layer in (said[-1] if said else self.layers))

    def named(self) -> tuple[Name, ...]:
        """Return every layer that is named, those of exceptions too, in the order written."""
        return (*self.layers, *(layer for other in self.others for layer in other.layers))
