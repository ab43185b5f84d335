"""Fittings and meshes: the words of parts that are put together of pieces, or come as a file of triangles."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from seqviz.geometry.pose import Pose, any_across
from seqviz.records.directions import SPOT, Direction, Vector, frame_of
from seqviz.records.kinds import Choice, Length, Text, YesNo
from seqviz.records.lists import Entries, ReadEntries, Word
from seqviz.records.model import FittingPiece, FittingShape, MeshFlat, MeshShape, PieceShape, RodShape
from seqviz.records.nodes import Node, Scalar
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values, by_name
from seqviz.records.words import as_word

__all__ = ["ROD", "fitting", "mesh", "mesh_fields", "piece_record", "pieces_field"]

_LONG = Length(above=0.0)
_DIRECTION = Direction()
_AT = Field(
    word="at", kind=SPOT, help="Where the piece's own origin is, in the part's frame; left out: [0, 0, 0]."
)
_X_ALONG = Field(word="x along", kind=_DIRECTION, help="Where the piece's x points; left out: +x.")
_Y_ALONG = Field(
    word="y along", kind=_DIRECTION, help="Where its y points, square to its x; left out: +y. z follows."
)
_ALONG = Field(word="along", kind=_DIRECTION, help="Which way it reaches from `at`; left out: up.")

ROD = (
    Field(word="diameter", kind=_LONG, help="Of the rod: a stud, a pin.", required=True),
    Field(word="length", kind=_LONG, help="From end to end.", required=True),
)
"""Words of a round rod, but for its place."""


def _rod_frame(values: Values) -> Pose | None:
    z = np.array(values.get("along", (0.0, 0.0, 1.0)))
    x = any_across(z)
    y = np.cross(z, x)
    return frame_of(values.get("at", (0.0, 0.0, 0.0)), _three(x), _three(y))


def _three(vector: Any) -> Vector:
    x, y, z = (float(number) for number in vector)
    return (x, y, z)


def _frame(reading: Reading, values: Values) -> Pose | None:
    frame = frame_of(
        values.get("at", (0.0, 0.0, 0.0)),
        values.get("x along", (1.0, 0.0, 0.0)),
        values.get("y along", (0.0, 1.0, 0.0)),
    )
    if frame is None:
        word = "y along" if values.has("y along") else "x along"
        reading.bad(
            values.keys[word],
            "The piece's x and y are not square to each other.",
            "Left out, x points along +x and y along +y of the part.",
            "Write both `x along` and `y along`, square to each other.",
        )
    return frame


def piece_record(
    shape: str, fields: tuple[Field, ...], make: Callable[[Values], PieceShape] | None, shape_field: Field
) -> Record:
    """Return the table of a piece that is a ``shape``; a rod has no ``make``."""

    def build(reading: Reading, values: Values) -> FittingPiece | None:
        openings: ReadEntries | None = values.get("openings")
        if values.failed or (openings and openings.broken):
            return None
        if make is None:
            frame, form = _rod_frame(values), _rod(values)
        else:
            frame, form = _frame(reading, values), make(values)
        if frame is None:
            return None
        return FittingPiece(name=values.name, shape=form, frame=frame, at=reading.at(values.place))

    place = (_AT, _ALONG) if make is None else (_AT, _X_ALONG, _Y_ALONG)
    return Record(
        title=f"{'an' if shape == 'angle' else 'a'} {shape} in a fitting",
        help=_ROD_HELP if make is None else f"A piece with the frame and the flats of a {shape}.",
        fields=(shape_field, *fields, *place),
        build=build,
        refused=(("holes", "Holes belong to the fitting: its rows say on which flat they lie."),),
    )


_ROD_HELP = "A round piece without flats, such as a stud: it reaches from `at` along its axis."


def _rod(values: Values) -> PieceShape:
    return RodShape(diameter=values.get("diameter"), length=values.get("length"))


def pieces_field(pieces: Entries) -> Field:
    """Return the field ``pieces`` of a fitting."""
    return Field(
        word="pieces",
        kind=pieces,
        help="Plain pieces by name, which may touch or overlap. Their flats are `PIECE` where a piece has "
        "one (plate, tube), else `PIECE FLAT`: `web top`.",
        required=True,
    )


def fitting(values: Values) -> FittingShape:
    """Return a fitting from its values."""
    read: ReadEntries = values.get("pieces")
    return FittingShape(pieces=tuple(read.good.values()))


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundOrGiven:
    """``found``, or pieces by name."""

    value: Entries
    label: str = "`found`, or pieces by name"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> ReadEntries | str | None:
        """Return the entries, or ``found``."""
        if isinstance(node, Scalar) and as_word(node.text) == "found":
            return "found"
        return self.value.read(reading, node)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"anyOf": [{"const": "found"}, self.value.schema()]}


def _mesh_flat(reading: Reading, values: Values) -> MeshFlat | None:
    if values.failed:
        return None
    normal, x_along = values.get("normal"), values.get("x along")
    if x_along is not None and abs(float(np.dot(normal, x_along))) > 1e-3:
        reading.bad(
            values.keys["x along"],
            "`x along` is not square to `normal`.",
            "A flat's x lies in the flat, its normal stands on it.",
            "Correct one of them.",
        )
        return None
    return MeshFlat(
        name=values.name,
        point=values.get("at"),
        normal=normal,
        x_along=x_along,
        thickness=values.get("thickness"),
        at=reading.at(values.place),
    )


_MESH_FLAT = Record(
    title="a flat of a mesh",
    help="A flat face of the mesh, so that it can have holes and lie on others. Its x and y are those of the "
    "file (x and z where it looks along y, y and z where it looks along x), from `at`. With `x along` x runs "
    "as said and y to the left of it, seen from outside.",
    fields=(
        Field(word="at", kind=SPOT, help="A point in the plane of its outside: x = y = 0.", required=True),
        Field(word="normal", kind=_DIRECTION, help="Which way its outside looks.", required=True),
        Field(word="thickness", kind=_LONG, help="Through to the other side; left out: as in the mesh."),
        Field(word="x along", kind=_DIRECTION, help="Where its x points; needed where it looks askew."),
    ),
    build=_mesh_flat,
)


def mesh_fields(pieces: Entries) -> tuple[Field, ...]:
    """Return the words of a mesh."""
    return (
        Field(
            word="file",
            kind=Word(of=Text(label="a path")),
            help="An .stl, .obj, .gltf or .glb file, its path seen from this file. It stays in the project.",
            required=True,
        ),
        Field(
            word="unit",
            kind=Choice(words=("mm", "cm", "m", "in"), label="a unit"),
            help="What its numbers mean; STL and OBJ need it, glTF is in metres.",
        ),
        Field(
            word="open",
            kind=YesNo(),
            help="yes: its surface is known to have open edges, and gaps are closed straight across.",
        ),
        Field(
            word="pieces",
            kind=FoundOrGiven(value=pieces),
            help="The solid that is checked: `found` in the mesh (left out), or pieces as of a fitting.",
        ),
        Field(
            word="flats",
            kind=Entries(entry=by_name(_MESH_FLAT), value=_MESH_FLAT, label="flats by name"),
            help="Its flat faces by name, as far as they have holes or lie on something.",
        ),
    )


def mesh(values: Values) -> MeshShape:
    """Return a mesh from its values."""
    pieces: ReadEntries | str = values.get("pieces", "found")
    flats: ReadEntries | None = values.get("flats")
    return MeshShape(
        file=values.get("file"),
        unit=values.get("unit"),
        open=values.get("open", False),
        pieces=None if isinstance(pieces, str) else tuple(pieces.good.values()),
        flats=tuple(flats.good.values()) if flats else (),
    )
