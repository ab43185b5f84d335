"""What a model file says of the shape of a part: lengths in mm, angles in degrees."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At
from seqviz.geometry.pose import Pose
from seqviz.records.named import Name
from seqviz.records.work_types import UNWORKED, Work

__all__ = [
    "AngleShape",
    "BarShape",
    "BlockShape",
    "ChannelShape",
    "FittingPiece",
    "FittingShape",
    "FrameFlange",
    "FrameShape",
    "HatShape",
    "Lip",
    "MeshFlat",
    "MeshShape",
    "Opening",
    "PieceShape",
    "PlateShape",
    "RodShape",
    "Rolling",
    "Shape",
    "SketchShape",
    "SkinShape",
    "TeeShape",
    "TubeShape",
    "ZedShape",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lip:
    """The lip round an opening of a frame: ``height`` mm, ``angle`` of its bend, ``side`` of the web."""

    height: float
    side: str
    angle: float
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """An opening in a sheet: round (``center``, ``diameter``) or an ``outline`` of points, mm."""

    name: str
    center: tuple[float, float] | None
    diameter: float | None
    outline: tuple[tuple[float, float], ...]
    at: At
    lip: Lip | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rolling:
    """One roll of a sheet to ``radius`` (of its hollow face) about a line of its flat pattern, mm.

    ``about``: two points of the line. ``start`` and ``end``: distances from it, positive to its left; None: not
    said. ``angle``: all of it, degrees. ``side``: the face that becomes hollow.
    """

    radius: float
    about: tuple[tuple[float, float], tuple[float, float]]
    start: float | None
    end: float | None
    angle: float | None
    side: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class SkinShape:
    """A skin: the ``outline`` of its flat pattern in mm, in the order written, and how it is ``rolled``."""

    thickness: float
    outline: tuple[tuple[float, float], ...]
    openings: tuple[Opening, ...]
    rolled: tuple[Rolling, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateShape:
    """A gusset, doubler or shim."""

    thickness: float
    outline: tuple[tuple[float, float], ...]
    openings: tuple[Opening, ...]
    rolled: tuple[Rolling, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameFlange:
    """A flange of a frame.

    ``edges`` are the numbers of its sides, from 1 in the order written; empty where ``name`` is ``left edge``
    or another edge by the way it faces. ``width`` is the outside dimension, ``angle`` the bend's, ``side`` of
    the web where it stands, ``relief`` mm from corners that it shares with other flanges.
    """

    name: str
    edges: tuple[int, ...]
    width: float
    side: str
    angle: float
    relief: float | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameShape:
    """A flanged rib or bulkhead: ``outline`` of the web to the mould lines of its flanges, as written."""

    thickness: float
    outline: tuple[tuple[float, float], ...]
    bend_radius: float
    flanges: tuple[FrameFlange, ...]
    openings: tuple[Opening, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleShape:
    """An angle: legs are outside dimensions, ``bend_radius`` is inside, ``angle`` the bend's, degrees."""

    thickness: float
    length: float
    legs: tuple[float, float]
    bend_radius: float
    angle: float
    work: Work = UNWORKED


@dataclass(frozen=True, slots=True, kw_only=True)
class BarShape:
    """A flat bar: length along x, width along y, thickness along z, mm."""

    length: float
    width: float
    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockShape:
    """A block: length along x, width along y, height along z, mm."""

    length: float
    width: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SketchShape:
    """A part without dimensions yet: all that is known is its thickness, mm."""

    thickness: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelShape:
    """A web between two flanges on the same side; ``angles`` of both bends."""

    thickness: float
    length: float
    flanges: tuple[float, float]
    web: float
    bend_radius: float
    angles: tuple[float, float]
    work: Work = UNWORKED


@dataclass(frozen=True, slots=True, kw_only=True)
class ZedShape:
    """A web between two flanges on opposite sides; ``angles`` of both bends."""

    thickness: float
    length: float
    flanges: tuple[float, float]
    web: float
    bend_radius: float
    angles: tuple[float, float]
    work: Work = UNWORKED


@dataclass(frozen=True, slots=True, kw_only=True)
class HatShape:
    """A crown on two webs on two feet; ``angles`` of the four bends from foot 1 to foot 2."""

    thickness: float
    length: float
    feet: tuple[float, float]
    webs: tuple[float, float]
    crown: float
    bend_radius: float
    angles: tuple[float, float, float, float]
    work: Work = UNWORKED


@dataclass(frozen=True, slots=True, kw_only=True)
class TeeShape:
    """An extruded T: ``flange`` is its whole width, ``stem`` its whole height."""

    thickness: float
    stem_thickness: float
    length: float
    flange: float
    stem: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeShape:
    """A round tube: ``diameter`` outside."""

    length: float
    diameter: float
    wall: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RodShape:
    """A round rod, which only pieces of a fitting are: it stands on z = 0 about its own z axis."""

    diameter: float
    length: float


PieceShape = (
    PlateShape
    | AngleShape
    | ChannelShape
    | ZedShape
    | HatShape
    | TeeShape
    | TubeShape
    | BarShape
    | BlockShape
    | RodShape
)
"""What a piece of a fitting may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingPiece:
    """A piece of a fitting; ``frame`` is where the piece's own frame stands in the part's, mm."""

    name: str
    shape: PieceShape
    frame: Pose
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingShape:
    """A few plain pieces that are one part."""

    pieces: tuple[FittingPiece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshFlat:
    """A flat that is declared on a mesh.

    Attributes
    ----------
    point
        ``(3,)``, mm, in the file's frame: the flat's x = y = 0 on its outside.
    normal
        ``(3,)``, unit vector: the way the outside looks.
    x_along
        ``(3,)``, unit vector across the normal, None: not said.
    thickness
        mm; None: that of the mesh.
    """

    name: str
    point: tuple[float, float, float]
    normal: tuple[float, float, float]
    x_along: tuple[float, float, float] | None
    thickness: float | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshShape:
    """A part whose surface is a file of triangles.

    ``unit`` None: not said. ``open``: the surface is known to have open edges. ``pieces`` None: to be found.
    """

    file: Name
    unit: str | None
    open: bool
    pieces: tuple[FittingPiece, ...] | None
    flats: tuple[MeshFlat, ...]


Shape = (
    SkinShape
    | PlateShape
    | FrameShape
    | AngleShape
    | ChannelShape
    | ZedShape
    | HatShape
    | TeeShape
    | TubeShape
    | BarShape
    | BlockShape
    | SketchShape
    | RodShape
    | FittingShape
    | MeshShape
)
