"""What a part is once it is built: flats, convex pieces and a table of holes, all in the part's own frame."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.findings import At
from seqviz.geometry.pose import Array, Pose
from seqviz.geometry.prism import Piece
from seqviz.parts.blank import Blank
from seqviz.parts.roll import Roll
from seqviz.parts.spine import Spine
from seqviz.parts.surface import Mesh

__all__ = ["ANOTHER_MODEL", "Column", "Flat", "Hole", "Member", "Part", "Worked"]

ANOTHER_MODEL = "another model"
"""The ``shape`` of another model that stands as one piece."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Flat:
    """One flat region of a part: the face of a skin, a leg, a side of a block.

    Attributes
    ----------
    name
        ``face``, ``leg 1``, ``leg 2``, ``top``, ...
    frame
        The flat's frame seen from the part. Its x-y plane is one face; the sheet fills
        0 <= z <= thickness. x and y are the coordinates in which rows are written.
    thickness
        mm. Of a bar or block: the whole way through to the opposite side.
    outside
        +1 where the outside is the face at z = thickness (its outward normal is +z of ``frame``),
        -1 where it is the face at z = 0 (outward normal -z).
    outline
        ``(n, 2)``, mm, the flat region without bends, anticlockwise; may be concave.
    openings
        Each ``(n, 2)``, mm: lightening and cable holes, rivet holes not among them.
    drawn
        ``(n, 2)``, mm, anticlockwise: the outline as written, to mould lines, where that is another one.
    stretch_of
        The flat of which this is one stretch, where a part has kinks, joggles or notches; else None.
    """

    name: str
    frame: Pose
    thickness: float
    outside: int
    outline: Array
    openings: tuple[Array, ...] = ()
    drawn: Array | None = None
    stretch_of: str | None = None

    @property
    def written(self) -> str:
        """The name by which the file calls it."""
        return self.stretch_of or self.name

    def face_normal(self, face: str) -> Array:
        """Return the outward unit normal, part frame, of ``face`` (``outside`` or ``inside``)."""
        sign = self.outside if face == "outside" else -self.outside
        return self.frame.rotation[:, 2] * sign

    def face_level(self, face: str) -> float:
        """Return the z in the flat's frame, mm, of ``face`` (``outside`` or ``inside``)."""
        return self.thickness if (face == "outside") == (self.outside > 0) else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """What a hole goes through in another model that stands as one piece: layers that touch, told as one.

    Attributes
    ----------
    number
        Its place among the columns of the piece; holes of one column are one hole with several names.
    thickness
        mm, from the top of the first layer to the bottom of the last.
    layers
        (placed part inside, thickness in mm), from one face to the other.
    flats
        The flats of the piece that it goes through.
    loose
        How many layers nothing holds together yet; 1 where that model tells of none.
    later
        Whether that model names the hole under ``later``.
    held
        Whether it is a joint of a model alone: no sequence tells that it is not held together already.
    """

    number: int
    thickness: float
    layers: tuple[tuple[str, float], ...]
    flats: tuple[str, ...]
    loose: int = 1
    later: bool = False
    held: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hole:
    """One hole of a part.

    Attributes
    ----------
    row, number
        Its name; numbers count from 1.
    flat
        Name of the flat that it goes through.
    centre
        ``(3,)``, mm, part frame, in the middle of the flat's thickness.
    axis
        ``(3,)`` unit vector, part frame: outward normal of the flat's outside.
    diameter
        mm.
    size
        The name in ``sizes`` that it was given, or None where a diameter was written.
    at
        Where its row stands in the file.
    crosses
        Parts whose walls a bolt through this hole joins although there is clear space between.
    pilot
        mm, of the pilot hole that a ``drill`` step opens to ``diameter``; None: it has its size.
    punched
        False where only a ``drill`` step makes it.
    column
        Of another model as one piece: what it goes through there. ``centre`` is in the middle of it.
    countersunk
        Whether the manufactured head of what goes in lies flush.
    head_here
        Whether its own row says so: the head lies in this part.
    """

    row: str
    number: int
    flat: str
    centre: Array
    axis: Array
    diameter: float
    size: str | None
    at: At
    crosses: tuple[str, ...] = ()
    pilot: float | None = None
    punched: bool = True
    column: Column | None = None
    countersunk: bool = False
    head_here: bool = False

    @property
    def name(self) -> str:
        """``ROW.N``."""
        return f"{self.row}.{self.number}"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Member:
    """A piece of a fitting, or a placed part of another model that stands as one piece.

    Attributes
    ----------
    name
        As in the file.
    part
        The piece in its own frame, with its own flats and its holes.
    pose
        Where that frame stands in the whole's.
    flats
        The whole's name of each flat -> the piece's own.
    """

    name: str
    part: Part
    pose: Pose
    flats: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Part:
    """One kind of piece, in its own right-handed frame, mm.

    Attributes
    ----------
    name
        As in the file.
    shape
        The word in the file: ``skin``, ``angle``, ``tube``, ...
    flats
        By name, in the order in which the shape lists them.
    pieces
        Convex pieces that together fill the part; rivet holes are not cut out.
    piece_flats
        For each piece the name of the flat that it belongs to, or None for a piece of a bend.
    holes
        All holes, row by row.
    twins
        ``rail`` -> (``rail left``, ``rail right``) for each row entered once for both sides.
    at
        Where the part stands in the file.
    mirrored
        True for the other hand: every y of the description changed its sign. Frames stay right-handed.
    members
        Of a fitting its pieces.
    surface
        Of a mesh its triangles as in the file.
    measured_to
        mm, how far its lengths may be off where they were taken with a tape; 0 for those of a drawing.
    tool
        True of a template: it leads the drill, seats no other part and is no layer of any stack.
    roll
        Of a rolled skin how its ``face``, which stays the flat pattern, is rolled; None: nothing is.
    facets
        Of a rolled skin the plane strips of its ``face`` where they lie, for what sits on it; of a whole
        with such a piece also its other flats.
    worked
        Of a long part with kinks, joggles, cut ends, tabs or notches what it is made from; else None.
    heads
        How many of the last ``pieces`` are heads and tails of fasteners that are set in it already.
    filled
        ``ROW.N`` of holes that are gone, because a fastener is set in them -> the file that says so.
    """

    name: str
    shape: str
    flats: dict[str, Flat]
    pieces: tuple[Piece, ...]
    piece_flats: tuple[str | None, ...]
    holes: tuple[Hole, ...]
    twins: dict[str, tuple[str, str]]
    at: At
    mirrored: bool = False
    measured_to: float = 0.0
    tool: bool = False
    members: tuple[Member, ...] = ()
    surface: Mesh | None = None
    roll: Roll | None = None
    facets: tuple[Flat, ...] = ()
    worked: Worked | None = None
    heads: int = 0
    filled: dict[str, str] = field(default_factory=dict)

    def thickness_at(self, hole: Hole) -> float:
        """Return the thickness, mm, that ``hole`` goes through: of its flat, or of all that touches there."""
        return hole.column.thickness if hole.column else self.flats[hole.flat].thickness


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Worked:
    """What a long part is made from: the ``straight`` part with its holes, its blank, its spine."""

    straight: Part
    blank: Blank
    spine: Spine
