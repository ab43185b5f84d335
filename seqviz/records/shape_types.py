"""What a model file says of the shape of a part: lengths in mm, angles in degrees."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At

__all__ = [
    "AngleShape",
    "BarShape",
    "BlockShape",
    "ChannelShape",
    "HatShape",
    "Opening",
    "PlateShape",
    "Rolling",
    "Shape",
    "SketchShape",
    "SkinShape",
    "TeeShape",
    "TubeShape",
    "ZedShape",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """An opening in a skin or plate: round (``center``, ``diameter``) or an ``outline`` of points, mm."""

    name: str
    center: tuple[float, float] | None
    diameter: float | None
    outline: tuple[tuple[float, float], ...]
    at: At


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
class AngleShape:
    """An angle: legs are outside dimensions, ``bend_radius`` is inside, ``angle`` the bend's, degrees."""

    thickness: float
    length: float
    legs: tuple[float, float]
    bend_radius: float
    angle: float


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


@dataclass(frozen=True, slots=True, kw_only=True)
class ZedShape:
    """A web between two flanges on opposite sides; ``angles`` of both bends."""

    thickness: float
    length: float
    flanges: tuple[float, float]
    web: float
    bend_radius: float
    angles: tuple[float, float]


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


Shape = (
    SkinShape
    | PlateShape
    | AngleShape
    | ChannelShape
    | ZedShape
    | HatShape
    | TeeShape
    | TubeShape
    | BarShape
    | BlockShape
    | SketchShape
)
