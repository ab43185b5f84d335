"""What a model file says, as typed records: lengths in mm, angles in degrees, every entry with its place."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.findings import At
from seqviz.records.named import HoleChoice, Name
from seqviz.records.row_types import (
    Across,
    AlongEdge,
    FromTo,
    Grid,
    LaidRow,
    OtherLayers,
    OtherSize,
    Points,
    Row,
    Spacing,
)
from seqviz.records.shape_types import (
    AngleShape,
    BarShape,
    BlockShape,
    ChannelShape,
    FittingPiece,
    FittingShape,
    FrameFlange,
    FrameShape,
    HatShape,
    Lip,
    MeshFlat,
    MeshShape,
    Opening,
    PieceShape,
    PlateShape,
    RodShape,
    Rolling,
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
    "Before",
    "BlockShape",
    "ChannelShape",
    "FittingPiece",
    "FittingShape",
    "FixedPose",
    "FrameFlange",
    "FrameShape",
    "FromTo",
    "Grid",
    "Hardware",
    "HatShape",
    "HoleChoice",
    "KeptSpace",
    "Known",
    "LaidRow",
    "Later",
    "Lip",
    "Match",
    "Measured",
    "MeshFlat",
    "MeshShape",
    "MirrorLine",
    "Model",
    "Name",
    "Opening",
    "OtherLayers",
    "OtherSize",
    "PartRecord",
    "PieceShape",
    "Placed",
    "PlateShape",
    "Points",
    "Preparation",
    "RodShape",
    "Rolling",
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
    "UsedModel",
    "ZedShape",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """An entry of ``sizes``: a hole diameter in mm and the fastener that goes in, by name.

    ``countersunk``: its manufactured head lies flush in the layer under it.
    """

    name: str
    diameter: float
    fastener: Name | None
    at: At
    countersunk: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """An entry of ``hardware``: the maker's own data. ``kind`` None: not said.

    ``lengths`` holds (length, grip from, grip to), mm, in the order written; ``plain_lengths`` those of a
    solid rivet that say no grips. ``half_sizes``: it is bought in halves of 1/16 in. ``head_angle``, degrees:
    the head is made to lie flush.
    """

    name: str
    kind: str | None
    diameter: float
    lengths: tuple[tuple[float, float, float], ...]
    hole: float | None
    head_diameter: float | None
    head_height: float | None
    at: At
    plain_lengths: tuple[float, ...] = ()
    half_sizes: bool = False
    head_angle: float | None = None


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
    tool: bool = False


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
    part, stock, uses
        One of the three. ``uses``: the path as written of another model (or a sequence for one), which stands
        here as one piece; what was read from it is in `Model.uses`.
    match, along, pose
        One of the three, none where only ``rows`` say where it lies; ``match_at`` is the place of the word
        ``match`` (of the entry where there is none).
    row_on, row_in, ends
        With ``along`` and a part: the flat that takes the holes, and where on it, mm; None: not said.
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
    row_on: Name | None = None
    row_in: float | None = None
    ends: float | None = None
    uses: Name | None = None

    @property
    def has_way(self) -> bool:
        """Say whether it is written where the part stands; else ``rows`` say what it lies over."""
        return bool(self.match) or self.along is not None or self.pose is not None


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
class Before:
    """An entry of ``after``: placed parts or sub-assemblies that come ``first``, ``then`` others, and why."""

    first: tuple[Name, ...]
    then: tuple[Name, ...]
    why: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Preparation:
    """An entry of ``preparation``: ``what`` (prime, seal, deburr) goes between placed parts."""

    between: tuple[Name, ...]
    what: str
    why: str | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptSpace:
    """An entry of ``keep clear``: a cylinder of ``diameter`` mm between two points of the base frame, mm."""

    name: str
    diameter: float
    start: tuple[float, float, float]
    end: tuple[float, float, float]
    why: str | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class MirrorLine:
    """``y=180`` or ``x=0``: the line that both sides mirror about, base frame, mm."""

    axis: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedModel:
    """Another structure that stands in this one as a single piece, without a mistake of reading in it.

    Attributes
    ----------
    path
        Of the file named, as reached from the path given: a model, or a sequence.
    model
        The model with all its names looked up; its base frame is the frame of the piece. In its turn it may
        use others. Hole N of row R of its placed part P is hole N of row ``P.R`` of the piece.
    sequence_path
        The path again where a sequence was named, else None.
    finished
        Whether that sequence says ``finished: yes``: its fasteners are all set. True of a model alone.
    at
        Where the path is written.
    """

    path: str
    model: Model
    sequence_path: str | None
    finished: bool
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """A whole model file. Entries that could not be read are left out; their names are in ``broken``.

    ``uses``: entry of ``placed`` -> the structure that it uses. ``made_by``: ``kit`` or ``me``, of the parts
    that do not say so themselves.
    """

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
    after: tuple[Before, ...] = ()
    preparation: tuple[Preparation, ...] = ()
    keep_clear: dict[str, KeptSpace] = field(default_factory=dict)
    uses: dict[str, UsedModel] = field(default_factory=dict)
    made_by: str = "kit"
