"""The model file: the table of its top level, and the model made from it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import PurePath
from typing import Any

from seqviz.records.asked_for import AFTER, KEEP_CLEAR, PREPARATION
from seqviz.records.kinds import Choice, Text
from seqviz.records.laid_rows import ROWS
from seqviz.records.lists import OneName, ReadEntries
from seqviz.records.makers import KIT, MADE_BY_OF_MODEL, MAKERS
from seqviz.records.measured import MEASURED_TO
from seqviz.records.mirror import MirrorText
from seqviz.records.model import Model
from seqviz.records.names import Rows
from seqviz.records.nodes import Mapping, Node, Scalar, Spoiled
from seqviz.records.placing import PLACED
from seqviz.records.reading import Reading
from seqviz.records.remarks import KNOWN, LATER
from seqviz.records.row_files import ROWS_FROM, join_rows
from seqviz.records.shapes import PARTS, STOCK
from seqviz.records.source import Source
from seqviz.records.tables import Field, Record
from seqviz.records.trade_entries import HARDWARE, SIZES
from seqviz.records.words import as_name, as_word

__all__ = ["FORMAT", "MODEL", "Format", "ReadModel", "empty_model", "read_model"]

_TABLES = ("sizes", "hardware", "stock", "parts", "placed", "rows")


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """The number of the file format, which is 1."""

    label: str = "the number of the file format, 1"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> int | None:
        """Return 1."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        if text.strip() == "1":
            return 1
        reading.bad(
            node,
            f"The file says format `{text.strip()}`.",
            "This version of seqviz reads format 1.",
            "Write `format: 1`, or take the version of seqviz that the file was written for.",
        )
        return None

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"const": 1}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReadModel:
    """A model as read.

    ``unread``: those of sizes, hardware, stock, parts, placed, rows, base, mirror line that could not be read
    at all, so that anything may stand in them. ``broken``: names of wrong entries, by table. ``sources``: the
    other files of which it consists. ``used``: entry of ``placed`` -> the rows of the structure that it uses.
    """

    model: Model
    unread: frozenset[str]
    broken: dict[str, frozenset[str]]
    sources: dict[str, Source] = field(default_factory=dict)
    used: dict[str, Rows] = field(default_factory=dict)


FORMAT = Field(word="format", kind=Format(), help="The number of the file format: 1.", required=True)


MODEL = Record(
    title="a model",
    help="What the structure is: parts, and where they are placed.",
    fields=(
        FORMAT,
        Field(word="name", kind=Text(), help="Of the structure, for titles."),
        Field(
            word="units",
            kind=Choice(words=("mm", "in"), label="a unit"),
            help="What plain numbers mean: mm (where it is left out) or in.",
        ),
        Field(
            word="base",
            kind=OneName,
            help="The part on which everything else is placed; its frame is that of the structure.",
            required=True,
        ),
        Field(
            word="forward",
            kind=Choice(words=("+x", "-x", "+y", "-y"), label="a direction", exact=True),
            help="Where forward is in the base's frame; left out: +x.",
        ),
        Field(word="mirror line", kind=MirrorText(), help="For inboard, outboard and both sides."),
        Field(word="sizes", kind=SIZES, help="Hole sizes by name."),
        Field(word="hardware", kind=HARDWARE, help="Fasteners by name, with the maker's own data."),
        Field(word="stock", kind=STOCK, help="Angles, channels, zeds, hats and bars that are cut to a row."),
        Field(word="parts", kind=PARTS, help="Each kind of piece, described once.", required=True),
        MADE_BY_OF_MODEL,
        MEASURED_TO,
        ROWS_FROM,
        Field(word="placed", kind=PLACED, help="Each occurrence of a part in the structure."),
        Field(word="rows", kind=ROWS, help="What lies over what, for parts that have no dimensions yet."),
        Field(word="later", kind=LATER, help="What is known to come."),
        Field(word="known", kind=KNOWN, help="Findings that are settled."),
        Field(
            word="after",
            kind=AFTER,
            help="Orders that the maker asks for.",
        ),
        Field(
            word="preparation",
            kind=PREPARATION,
            help="What goes between parts.",
        ),
        Field(
            word="keep clear",
            kind=KEEP_CLEAR,
            help="Spaces that stay free.",
        ),
    ),
    build=lambda _reading, _values: True,
)


def read_model(reading: Reading, root: Mapping) -> ReadModel:
    """Read the whole model; units, base and maker of ``reading`` are set from the file first."""
    reading.units = "in" if as_word(_peek(root, "units")) == "in" else "mm"
    reading.base = as_name(_peek(root, "base")) or None
    maker = as_word(_peek(root, "made by"))
    reading.made_by = maker if maker in MAKERS else KIT
    sources = join_rows(reading, root)
    _peek_mirror_line(reading, root)
    values = MODEL.values(reading, root, root)
    assert values is not None
    tables: dict[str, ReadEntries] = {
        word: values.get(word, ReadEntries(good={}, broken=frozenset())) for word in _TABLES
    }
    spaces: ReadEntries | None = values.get("keep clear")
    unread = {
        word for word in (*_TABLES, "base", "mirror line") if values.has(word) and values.get(word) is None
    }
    unread |= {word for word in ("base", "parts") if not values.has(word)}
    model = Model(
        path=reading.file,
        name=values.get("name", PurePath(reading.file).stem),
        units=reading.units,
        base=values.get("base"),
        forward=values.get("forward", "+x"),
        mirror_line=values.get("mirror line"),
        sizes=tables["sizes"].good,
        hardware=tables["hardware"].good,
        stock=tables["stock"].good,
        parts=tables["parts"].good,
        placed=tables["placed"].good,
        rows=tables["rows"].good,
        later=values.get("later", ()),
        known=values.get("known", ()),
        measured=values.get("measured to"),
        made_by=reading.made_by,
        after=values.get("after", ()),
        preparation=values.get("preparation", ()),
        keep_clear=spaces.good if spaces else {},
        at=reading.at(root),
    )
    broken = {word: tables[word].broken for word in _TABLES}
    return ReadModel(model=model, unread=frozenset(unread), broken=broken, sources=sources)


def empty_model(reading: Reading) -> ReadModel:
    """Return a model of which nothing is known, for a sequence that does not name its own."""
    return ReadModel(
        model=Model(
            path="",
            name="",
            units="mm",
            base=None,
            forward="+x",
            mirror_line=None,
            sizes={},
            hardware={},
            stock={},
            parts={},
            placed={},
            later=(),
            known=(),
            at=reading.at(Spoiled(1, 1)),
        ),
        unread=frozenset((*_TABLES, "base", "mirror line")),
        broken={word: frozenset() for word in _TABLES},
    )


def _peek_mirror_line(reading: Reading, root: Mapping) -> None:
    """Read the mirror line before the parts that may be halves about it; a wrong one is told in its turn."""
    written = next((value for key, value in root.pairs if as_word(key.text) == "mirror line"), None)
    if written is not None:
        aside = Reading(file=reading.file, units=reading.units)
        reading.mirror_line = MirrorText().read(aside, written)
        reading.mirror_lost = reading.mirror_line is None


def _peek(root: Mapping, word: str) -> str:
    """Return the text of ``word`` before anything else is read; a wrong one is told in its turn."""
    return next(
        (value.text for key, value in root.pairs if as_word(key.text) == word and isinstance(value, Scalar)),
        "",
    )
