"""The file format as others need it: JSON Schema for editors, Markdown for people; both from the tables."""

from __future__ import annotations

from typing import Any, Literal

from seqviz.records.model_file import MODEL
from seqviz.records.sequence_file import APART_FILE, SEQUENCE
from seqviz.records.tables import Field, Record, every_record
from seqviz.records.words import listed

__all__ = ["file_format", "schema"]

_MOST_WORDS = 10
_INTRODUCTION = """# The file format

Two kinds of YAML files: a model says what the structure is, a sequence in which order it is put
together. This page is generated from the tables that read the files; a test keeps it so.

## Words, names, values

- **Words** (left of a colon, and values to choose from) read the same with spaces, underscores or
  hyphens, in any case: `bend radius`, `bend_radius`, `Bend-Radius`.
- **Names** of parts, rows, sizes hold letters, digits, spaces and hyphens. Capitals count; several
  blanks count as one. A row's name is not only digits. Names of fasteners may also hold `.` and `/`:
  `blind rivet 3.2`, `solid rivet 1/8`.
- **Lengths**: `12`, `2.5 mm`, `1.2 cm`, `1/8 in`, `3/32"`, `1 1/2 in`, `1-1/2"`. A plain number counts
  in the file's `units`. Decimals have a point. `010` is 10; `1e-3` is a thousandth.
- **A hole's diameter** may be written as the drill that makes it: `No. 30`, `letter F`, `F`. A fraction
  without a unit is a drill too, in inches in every file: `1/8`. Which drill is how wide:
  [the table](tables/drills.md).
- **Angles**: `7`, `7 deg`, `7°`.
- **Holes**: `PLACED.ROW.N` is one, `PLACED.ROW.N-M` a range, `PLACED.ROW` a row; several are a list:
  `[rail left.foot.1-3, rail left.foot.5]`. They are read from the right. In a `match` the key `ROW.N` is
  a hole of the part itself. Within a piece that `uses` another model a hole is `PIECE.PLACED.ROW.N`.
- **Another model as one piece** (`uses`) stands in the frame of its base and is one layer at each hole: as
  thick as all that touches there. Of a sequence the holes that it fills are gone, and the heads and tails
  that stand out are solid; of a model alone all holes are open, and nothing is asked of its own joints.
  Sizes count where both models have one of that name and diameter. Bare names of its twins mean both.
- **Sub-assemblies** of a sequence (`apart`) may be named wherever a placed part may be: `place`, `take off`,
  `through`, `head: on NAME`, `over the edge`. Holes always belong to placed parts.
- **Both sides**: a row of the base with `both sides: yes` makes `NAME left` and `NAME right`, hole k
  mirroring hole k (`NAME forward` and `NAME aft` where the mirror line runs across); the bare name means
  both. A placed part with `both sides` makes two in the same way, and inside its entry bare names of
  twins mean one's own side.
- **A part of its own length along a row**: `{part: P, along: PLACED.ROW}` gives a flat without holes those
  of the row beneath, as stock has it. `row on`, `row in` and `ends` say where on the part they come to lie.
- **Rows from a spreadsheet**: `rows from: holes.csv`, saved as CSV with commas, semicolons or tabs. The
  first line names the columns `part`, `row`, `from edge`, `first`, `last`, `count`, `size`; also `flat`,
  `edge`, `last in`, `pitch`, `spaces`, `both sides`, and `notes`, which is passed over. A unit may stand in
  a title: `first (in)`. Without an `edge` a row runs along the flat's x from `first` to `last`, its y is
  `from edge`. With `edge` (left, right, forward, aft) both are measured from the edge's aft or right end.
  `size` is a name in `sizes`, or a diameter. Where `last` is empty there is one hole.
- **Comments** are whole lines, or begin with `# ` and a space. `#30` behind a value would be lost, so it
  is a mistake.
- A comma stands inside `[..]` and `{..}` only, a colon has a space behind it, and depth is made with
  spaces, not tabs.
- Anchors, aliases, tags and merge keys are not read, nor more than 50 levels.
"""


def schema(which: Literal["model", "sequence"]) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a model or a sequence file.

    Names are not looked up by it; `seqviz check` does that. Whether a sequence is named by another one, and
    so needs no model of its own, cannot be seen from the file either.
    """
    record = {"model": MODEL, "sequence": APART_FILE}[which]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"seqviz {which}",
        "description": record.help,
        **record.schema(),
    }


def file_format() -> str:
    """Return the text of ``docs/file-format.md``."""
    shown: set[str] = set()
    parts = [_INTRODUCTION, *_tables(MODEL, "The model", shown), *_tables(SEQUENCE, "The sequence", shown)]
    return "\n".join(parts)


def _tables(top: Record, heading: str, shown: set[str]) -> list[str]:
    """Return a section with a table for each record that is not shown yet."""
    section = [f"## {heading}\n\n{top.help}\n\n{_table(top)}"]
    shown.add(top.title)
    for record in every_record(top, set()):
        if record.title not in shown:
            shown.add(record.title)
            title = record.title.partition(" ")[2]
            section.append(f"### {title[0].upper()}{title[1:]}\n\n{record.help}\n\n{_table(record)}")
    return section


def _table(record: Record) -> str:
    lines = ["| word | value | unit | needed | meaning |", "|---|---|---|---|---|"]
    lines += [_line(field) for field in record.fields]
    if record.extra_kind is not None:
        lines.append(f"| `N`, `N-M` | {record.extra_kind.label} | | | Other size of those holes. |")
    return "\n".join(lines) + "\n"


def _line(field: Field) -> str:
    kind = getattr(field.kind, "of", field.kind)
    words = getattr(kind, "words", ())
    label = listed(f"`{word}`" for word in words) if 0 < len(words) <= _MOST_WORDS else field.kind.label
    needed = "yes" if field.required else ""
    if field.required and field.instead:
        needed = f"or `{field.instead}`"
    return f"| `{field.word}` | {label} | {field.kind.unit} | {needed} | {field.help} |".replace("  ", " ")
