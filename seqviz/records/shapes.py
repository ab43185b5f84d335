"""Parts and stock: a table of words for each shape."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from seqviz.records.fitting_words import ROD, fitting, mesh, mesh_fields, piece_record, pieces_field
from seqviz.records.formed_words import LENGTH, LONG_PARTS, STOCK_PARTS, THICKNESS, Bent, angles_said_twice
from seqviz.records.frame_words import FRAME, frame
from seqviz.records.kinds import Choice, Length, Text, YesNo
from seqviz.records.lists import Entries, ReadEntries
from seqviz.records.makers import MADE_BY
from seqviz.records.measured import MEASURED_TO
from seqviz.records.mirror import HALF_OUTLINE, OWN_MIRROR_LINE, whole_outline
from seqviz.records.model import (
    BarShape,
    BlockShape,
    PartRecord,
    PieceShape,
    PlateShape,
    Shape,
    SketchShape,
    SkinShape,
    Stock,
)
from seqviz.records.nodes import Node, Scalar
from seqviz.records.opening_words import OPENINGS, OPENINGS_IN_FRAME, OUTLINE
from seqviz.records.reading import Reading
from seqviz.records.roll_words import ROLLED
from seqviz.records.rows import rows_on
from seqviz.records.same_holes import PartHoles, PartRows
from seqviz.records.tables import Field, Record, Values, lacks
from seqviz.records.words import as_word, listed
from seqviz.records.work_words import work_fields, work_of

__all__ = ["FLATS", "PARTS", "STOCK", "ByShape"]

FLATS: dict[str, tuple[str, ...]] = {
    "skin": ("face",),
    "plate": ("face",),
    "frame": (),
    **{shape: words.flats for shape, words in LONG_PARTS.items()},
    "bar": ("top", "bottom", "left", "right", "front", "back"),
    "block": ("top", "bottom", "left", "right", "front", "back"),
    "fitting": (),
    "mesh": (),
}
"""Shape -> its flats; of a skin, plate or bar the first need not be named. None: the part names its own."""

_NOT_YET_WORDS = ("kinks", "joggles", "cut ends", "end tabs", "keep clear")

_LONG = Length(above=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ByShape:
    """An entry whose word ``shape`` says which table of words it has."""

    label: str
    records: Mapping[str, Record]
    unit: str = ""

    @property
    def alternatives(self) -> tuple[Record, ...]:
        """The tables."""
        return tuple(self.records.values())

    def entry(self, reading: Reading, _name: str, key: Scalar, value: Node) -> Any | None:
        """Return the entry called ``key``."""
        mapping = reading.mapping(value, self.label)
        if mapping is None:
            return None
        said = [(word, shape) for word, shape in mapping.pairs if as_word(word.text) == "shape"]
        if not said:
            lacks(reading, key, self.label, self._shape)
            return None
        if reading.without_value(said[0][0], said[0][1], self._shape.kind.label):
            return None
        shape = self._shape.kind.read(reading, said[0][1])
        return None if shape is None else self.records[shape].read_at(reading, value, key)

    def read(self, reading: Reading, node: Node) -> Any | None:
        """Entries are read by name, with `entry`."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        forms = []
        for shape, record in self.records.items():
            form = record.schema()
            form["properties"]["shape"] = {"const": shape}
            forms.append(form)
        return {"oneOf": forms}

    @property
    def _shape(self) -> Field:
        return next(iter(self.records.values())).fields[0]


def _sheet(values: Values) -> dict[str, Any]:
    openings: ReadEntries | None = values.get("openings")
    return {
        "thickness": values.get("thickness"),
        "outline": values.get("outline"),
        "openings": tuple(openings.good.values()) if openings else (),
        "rolled": values.get("rolled", ()),
    }


def _skin(values: Values) -> SkinShape:
    return SkinShape(**_sheet(values))


def _plate(values: Values) -> PlateShape:
    return PlateShape(**_sheet(values))


def _bar(values: Values) -> BarShape:
    return BarShape(
        length=values.get("length", 0.0), width=values.get("width"), thickness=values.get("thickness")
    )


def _block(values: Values) -> BlockShape:
    return BlockShape(length=values.get("length"), width=values.get("width"), height=values.get("height"))


def _sketch(values: Values) -> SketchShape:
    return SketchShape(thickness=values.get("thickness"))


def _worked(shape: Shape, values: Values) -> Shape:
    """Return the shape with the work on it, where it is of a kind that can have some."""
    return replace(shape, work=work_of(values)) if isinstance(shape, Bent) else shape


def _work_words(shape: str) -> tuple[Field, ...]:
    return work_fields(FLATS[shape]) if shape in STOCK_PARTS else ()


def _part(make: Callable[[Values], Shape]) -> Callable[[Reading, Values], PartRecord | None]:
    def build(reading: Reading, values: Values) -> PartRecord | None:
        rows: PartRows | None = values.get("holes")
        tables = (values.get(word) for word in ("holes", "openings", "flanges", "pieces", "flats"))
        if values.failed or any(getattr(table, "broken", ()) for table in tables):
            return None
        if not whole_outline(reading, values) or angles_said_twice(reading, values):
            return None
        return PartRecord(
            name=values.name,
            shape=_worked(make(values), values),
            rows=tuple(rows.good.values()) if rows else (),
            at=reading.at(values.place),
            material=values.get("material"),
            number=values.get("number"),
            drawing=values.get("drawing"),
            how_to_tell=values.get("how to tell"),
            made_by=values.get("made by", reading.made_by),
            mirror_line=values.get("mirror line"),
            same=rows.same if rows else None,
            measured=values.get("measured to"),
            tool=values.get("tool", False),
        )

    return build


def _stock(make: Callable[[Values], Bent | BarShape]) -> Callable[[Reading, Values], Stock | None]:
    def build(reading: Reading, values: Values) -> Stock | None:
        if values.failed or angles_said_twice(reading, values):
            return None
        return Stock(
            name=values.name,
            shape=make(values),
            row_on=values.get("row on"),
            row_in=values.get("row in"),
            ends=values.get("ends"),
            at=reading.at(values.place),
        )

    return build


def _shape_field(shapes: tuple[str, ...], label: str) -> Field:
    kind = Choice(words=shapes, label=label)
    return Field(word="shape", kind=kind, help=f"One of {listed(shapes)}.", required=True)


_SHEET = (
    THICKNESS,
    Field(
        word="outline",
        kind=OUTLINE,
        help="The corners in order; written anticlockwise the outside faces up (+z), clockwise down.",
        required=True,
        instead=HALF_OUTLINE,
    ),
    Field(
        word=HALF_OUTLINE,
        kind=OUTLINE,
        help="Of a symmetrical outline the corners from the mirror line round one side and back to the line.",
    ),
    Field(
        word="openings",
        kind=OPENINGS,
        help="Openings by name; rivet holes do not belong here.",
    ),
)
_FRAME = (
    *_SHEET[:-1],
    *FRAME,
    Field(
        word="openings",
        kind=OPENINGS_IN_FRAME,
        help="Openings in the web by name; rivet holes do not belong here.",
    ),
)
_WIDTH = Field(word="width", kind=_LONG, help="Along y.", required=True)
_ABOUT = (
    Field(word="material", kind=Text(), help="For the notes."),
    Field(word="number", kind=Text(), help="The part's number, for the notes."),
    Field(word="drawing", kind=Text(), help="The drawing, for the notes."),
    Field(word="how to tell", kind=Text(), help="How to know the part from its look-alikes."),
    MADE_BY,
)
_TOOL = Field(
    word="tool",
    kind=YesNo(),
    help="yes: a template that leads the drill and is taken off again. No part lies on it; it is no layer.",
)
_SHAPES = ("skin", "plate", "frame", *LONG_PARTS, "bar", "block", "fitting", "mesh", "sketch")
_PART_SHAPE = _shape_field(_SHAPES, "a shape")
_STOCK_SHAPE = _shape_field((*STOCK_PARTS, "bar"), "a shape of stock")
_OF_STOCK = (
    Field(
        word="row in",
        kind=_LONG,
        help="How far its holes are from the outer corner of the flat, from the right edge of a bar.",
        required=True,
    ),
    Field(word="ends", kind=_LONG, help="From the first and last hole to the ends.", required=True),
)


def _part_record(shape: str, own: tuple[Field, ...], make: Callable[[Values], Shape]) -> Record:
    flats = FLATS[shape]
    needed = LONG_PARTS[shape].needed if shape in LONG_PARTS else shape in ("block", "frame")
    holes = Field(
        word="holes",
        kind=PartHoles(value=rows_on(flats, flat_needed=needed)),
        help=f"Rows of holes by name, on {listed(flats) or 'its flats'}. `same as PART` repeats the rows of "
        "that part at the same coordinates of the flats of the same name. With changes: `{same as: PART, "
        "ROW: {5: none}, ROW: none, NEW ROW: {..}}`.",
    )
    return Record(
        title=LONG_PARTS[shape].title if shape in LONG_PARTS else f"a {shape}",
        help=_HELP[shape],
        fields=(_PART_SHAPE, *own, holes, OWN_MIRROR_LINE, MEASURED_TO, _TOOL, *_ABOUT),
        build=_part(make),
        not_yet=_NOT_YET_WORDS,
    )


def _sketch_record() -> Record:
    why = "A sketch has no dimensions yet. What lies over what at its holes is said in `rows`."
    dimensions = ("holes", "outline", "length", "width", "height", "legs", "openings", "bend radius", "angle")
    return Record(
        title="a sketch",
        help=_HELP["sketch"],
        fields=(_PART_SHAPE, THICKNESS, *_ABOUT),
        build=_part(_sketch),
        refused=tuple((word, why) for word in dimensions),
    )


def _stock_record(shape: str, own: tuple[Field, ...], make: Callable[[Values], Bent | BarShape]) -> Record:
    why = "Stock takes its length and its holes from the row it lies along."
    flats = FLATS[shape] if shape in LONG_PARTS else ()
    row_on = (
        (
            Field(
                word="row on",
                kind=Choice(words=flats, label="a flat"),
                help=f"The flat with its holes; left out: {flats[0]}.",
            ),
        )
        if flats
        else ()
    )
    return Record(
        title=f"{LONG_PARTS[shape].title if shape in LONG_PARTS else 'a bar'} of stock",
        help="It is cut to the row that it lies along.",
        fields=(_STOCK_SHAPE, *own, *row_on, *_OF_STOCK),
        build=_stock(make),
        refused=(("length", why), ("holes", why)),
    )


_HELP = {
    "skin": "A flat or rolled sheet; x and y as in its outline, which is that of the flat pattern.",
    "plate": "A gusset, doubler or shim; x and y as in its outline.",
    "frame": "A flanged rib or bulkhead: a web, with flanges bent up along edges of its outline. Its flats "
    "are `web`, with x and y as in the outline, and `flange` with the name of each flange (`flange left "
    "edge`, or shorter `flange left`).",
    **{shape: words.help for shape, words in LONG_PARTS.items()},
    "bar": "Length along x, width along y, thickness along z.",
    "block": "Length along x, width along y, height along z.",
    "fitting": "A few plain pieces that are one part: a welded bracket, a plate with a stud.",
    "mesh": "A part whose surface is a file of triangles; x, y and z as in the file.",
    "sketch": "A part without dimensions yet: enough for stacks, grips, fasteners and the order of work.",
}
_HEIGHT = Field(word="height", kind=_LONG, help="Along z.", required=True)
_PIECES: dict[str, tuple[tuple[Field, ...], Callable[[Values], PieceShape] | None]] = {
    "plate": (_SHEET, _plate),
    **{shape: ((LENGTH, *words.fields), words.make) for shape, words in LONG_PARTS.items()},
    "bar": ((LENGTH, _WIDTH, THICKNESS), _bar),
    "block": ((LENGTH, _WIDTH, _HEIGHT), _block),
    "rod": (ROD, None),
}
_PIECE_SHAPE = _shape_field(tuple(_PIECES), "a shape of a piece")
_PIECE = ByShape(
    label="a piece",
    records={shape: piece_record(shape, *words, _PIECE_SHAPE) for shape, words in _PIECES.items()},
)
_PIECE_ENTRIES = Entries(entry=_PIECE.entry, value=_PIECE, label="pieces by name")
_PART = ByShape(
    label="a part",
    records={
        "skin": _part_record("skin", (*_SHEET, ROLLED), _skin),
        "plate": _part_record("plate", (*_SHEET, ROLLED), _plate),
        "frame": _part_record("frame", _FRAME, frame),
        **{
            shape: _part_record(shape, (LENGTH, *words.fields, *_work_words(shape)), words.make)
            for shape, words in LONG_PARTS.items()
        },
        "bar": _part_record("bar", (LENGTH, _WIDTH, THICKNESS), _bar),
        "block": _part_record("block", (LENGTH, _WIDTH, _HEIGHT), _block),
        "fitting": _part_record("fitting", (pieces_field(_PIECE_ENTRIES),), fitting),
        "mesh": _part_record("mesh", mesh_fields(_PIECE_ENTRIES), mesh),
        "sketch": _sketch_record(),
    },
)
_STOCK_KIND = ByShape(
    label="a piece of stock",
    records={
        **{shape: _stock_record(shape, words.fields, words.make) for shape, words in STOCK_PARTS.items()},
        "bar": _stock_record("bar", (_WIDTH, THICKNESS), _bar),
    },
)

PARTS = Entries(entry=_PART.entry, value=_PART, label="parts by name")
"""``parts``."""

STOCK = Entries(entry=_STOCK_KIND.entry, value=_STOCK_KIND, label="pieces of stock by name")
"""``stock``."""
