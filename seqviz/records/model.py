"""What a model file says, as typed records: lengths in mm, angles in degrees, every entry with its place."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.findings import At
from seqviz.records.shape_types import (
    AngleShape,
    BarShape,
    BlockShape,
    ChannelShape,
    HatShape,
    Opening,
    PlateShape,
    Shape,
    SketchShape,
    SkinShape,
    TeeShape,
    TubeShape,
    ZedShape,
)

__all__ = [
    "Across",
    "AlongEdge",
    "AngleShape",
    "BarShape",
    "BlockShape",
    "ChannelShape",
    "FixedPose",
    "FromTo",
    "Grid",
    "Hardware",
    "HatShape",
    "HoleChoice",
    "Known",
    "LaidRow",
    "Later",
    "Match",
    "Measured",
    "MirrorLine",
    "Model",
    "Name",
    "Opening",
    "OtherLayers",
    "OtherSize",
    "PartRecord",
    "Placed",
    "PlateShape",
    "Points",
    "Row",
    "RowChange",
    "SameHoles",
    "Shape",
    "Size",
    "SketchShape",
    "SkinShape",
    "Spacing",
    "Stock",
    "TeeShape",
    "TubeShape",
    "ZedShape",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """A name as written in some place, to be looked up."""

    text: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleChoice:
    """Holes chosen by name: ``PLACED.ROW``, ``PLACED.ROW.N`` or ``PLACED.ROW.N-M``.

    ``first`` and ``last`` are None for the whole row, equal for one hole; ``first > last`` keeps its sense.
    """

    placed: str
    row: str
    first: int | None
    last: int | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """An entry of ``sizes``: a hole diameter in mm and the fastener that goes in, by name."""

    name: str
    diameter: float
    fastener: Name | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """An entry of ``hardware``: the maker's own data. ``kind`` None: not said.

    ``lengths`` holds (length, grip from, grip to), mm, in the order written.
    """

    name: str
    kind: str | None
    diameter: float
    lengths: tuple[tuple[float, float, float], ...]
    hole: float | None
    head_diameter: float | None
    head_height: float | None
    at: At


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


@dataclass(frozen=True, slots=True, kw_only=True)
class RowChange:
    """A repeated row with other sizes for some numbers; ``none``: it is not repeated."""

    row: Name
    exceptions: tuple[OtherSize, ...]
    none: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SameHoles:
    """``same as PART`` under ``holes``, and what is different."""

    part: Name
    changes: tuple[RowChange, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """``measured to``: lengths taken with a tape may be off by ``to`` mm."""

    to: float
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRecord:
    """An entry of ``parts``."""

    name: str
    shape: Shape
    rows: tuple[Row, ...]
    at: At
    material: str | None = None
    number: str | None = None
    drawing: str | None = None
    how_to_tell: str | None = None
    made_by: str = "kit"
    mirror_line: MirrorLine | None = None
    same: SameHoles | None = None
    measured: Measured | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """An entry of ``stock``: a shape without length and rows; ``row_in`` and ``ends`` in mm serve ``along``.

    The shape's length is 0: it comes from the row beneath. ``row_on``: the flat of the row, None: the first.
    """

    name: str
    shape: AngleShape | ChannelShape | ZedShape | HatShape | BarShape
    row_in: float
    ends: float
    at: At
    row_on: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """One pair of a ``match``: hole ``row``.``number`` of the part lies on the hole ``target``."""

    row: str
    number: int
    target: HoleChoice
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedPose:
    """``at``, ``x along``, ``y along``: where a part without holes stands, base frame, mm."""

    point: tuple[float, float, float]
    x_along: str
    y_along: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """An entry of ``placed``.

    Attributes
    ----------
    part, stock
        One of the two.
    match, along, pose
        One of the three, none where only ``rows`` say where it lies; ``match_at`` is the place of the word ``match`` (of the entry where there is none).
    face
        ``outside`` or ``inside`` of the part, None: the default of its shape.
    side
        ``outside``, ``inside``, ``upper``, ``lower`` of the target, None: upper or outside.
    standing_leg
        forward, aft, left, right, inboard, outboard, up, down; None: not said.
    web_faces, flange_faces
        The like: where the web's outside looks, and where the flanges reach from the web.
    over, under
        Placed parts by name.
    both_sides
        ``other hand`` or ``same part``; None: once.
    """

    name: str
    part: Name | None
    stock: Name | None
    match: tuple[Match, ...]
    match_at: At
    along: HoleChoice | None
    pose: FixedPose | None
    face: str | None
    side: str | None
    standing_leg: Name | None
    over: tuple[Name, ...]
    under: tuple[Name, ...]
    both_sides: str | None
    at: At
    web_faces: Name | None = None
    flange_faces: Name | None = None

    @property
    def has_way(self) -> bool:
        """Say whether it is written where the part stands; else ``rows`` say what it lies over."""
        return bool(self.match) or self.along is not None or self.pose is not None


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

    def layers_at(self, number: int) -> tuple[str, ...]:
        """Return the names of the layers of hole ``number``, head side first."""
        said = [other.layers for other in self.others if other.first <= number <= other.last]
        return tuple(layer.text for layer in (said[-1] if said else self.layers))

    def named(self) -> tuple[Name, ...]:
        """Return every layer that is named, those of exceptions too, in the order written."""
        return (*self.layers, *(layer for other in self.others for layer in other.layers))


@dataclass(frozen=True, slots=True, kw_only=True)
class Later:
    """An entry of ``later``: holes or a part known to come."""

    holes: tuple[HoleChoice, ...]
    part: Name | None
    why: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """An entry of ``known``: a finding settled with a reason. ``target`` is the text of its ``at``."""

    kind: str
    target: str
    target_at: At
    why: str
    by: str | None
    figure: float | None
    sure: bool
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class MirrorLine:
    """``y=180`` or ``x=0``: the line that both sides mirror about, base frame, mm."""

    axis: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """A whole model file. Entries that could not be read are left out; their names are in ``broken``."""

    path: str
    name: str
    units: str
    base: Name | None
    forward: str
    mirror_line: MirrorLine | None
    sizes: dict[str, Size]
    hardware: dict[str, Hardware]
    stock: dict[str, Stock]
    parts: dict[str, PartRecord]
    placed: dict[str, Placed]
    later: tuple[Later, ...]
    known: tuple[Known, ...]
    at: At
    broken: frozenset[str] = field(default_factory=frozenset)
    measured: Measured | None = None
    rows: dict[str, LaidRow] = field(default_factory=dict)
