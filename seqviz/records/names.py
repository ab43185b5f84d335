"""All names of a model, to look up what other entries and the steps write."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from enum import Enum

from seqviz.records.model import HoleChoice, LaidRow, Name, PartRecord, Row
from seqviz.records.reading import Reading
from seqviz.records.row_layout import hole_count
from seqviz.records.words import listed, meant
from seqviz.trade.drills import looks_like_a_drill
from seqviz.trade.fasteners import parse_fastener

__all__ = ["Found", "Holes", "Names", "Scope", "absent_numbers", "rows_of"]


_WRITE = "Write one of the names that are there, or add it to the model."
_WIDTH = "`{0}` is a width: add `NAME: {{diameter: {0}}}` to `sizes` and write its name here."


class Found(Enum):
    """What came of looking a name up: there; there but wrong, so say nothing; not there, which was told."""

    GOOD = "good"
    MUTED = "muted"
    WRONG = "wrong"


@dataclass(frozen=True, slots=True, kw_only=True)
class Holes:
    """A row's holes: how many places (None: its edge decides), and the numbers without a hole."""

    count: int | None
    absent: frozenset[int] = frozenset()


Rows = dict[str, Holes]


def rows_of(part: PartRecord, twin_words: tuple[str, str] | None) -> Rows:
    """Return the rows of a part by name; of the base (``twin_words``) twin rows under all names."""
    rows: Rows = {}
    for row in part.rows:
        holes = Holes(count=hole_count(row), absent=absent_numbers(row))
        rows[row.name] = holes
        if row.both_sides and twin_words is not None:
            rows.update({f"{row.name} {word}": holes for word in twin_words})
    return rows


def absent_numbers(row: Row | LaidRow) -> frozenset[int]:
    """Return the numbers of a row's places that have no hole."""
    gone: set[int] = set()
    for other in row.exceptions:
        # Not longer than a row may be, however far somebody's slip reaches.
        numbers = range(other.first, min(other.last, 10_000) + 1)
        gone = gone | set(numbers) if other.size is None else gone - set(numbers)
    return frozenset(gone.union(row.skip))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scope:
    """The names of one table: ``good`` ones, ``broken`` ones; ``unread``: the table itself is wrong."""

    what: str
    good: frozenset[str]
    broken: frozenset[str]
    unread: bool = False

    def find(self, name: str) -> Found:
        """Look ``name`` up, without a word."""
        if name in self.broken:
            return Found.MUTED
        if name in self.good:
            return Found.GOOD
        return Found.MUTED if self.unread else Found.WRONG

    def look_up(self, reading: Reading, name: Name) -> Found:
        """Look ``name`` up, and note it where it is not there."""
        found = self.find(name.text)
        if found is Found.WRONG:
            message = f"There is no {self.what} `{name.text}`."
            width = self.what == "size" and (looks_like_a_drill(name.text) or name.text.isdigit())
            way_out = _WIDTH.format(name.text) if width else _WRITE
            unknown(reading, name, message, sorted(self.good | self.broken), way_out)
        return found


def unknown(
    reading: Reading, name: Name | HoleChoice, message: str, there: list[str], way_out: str = _WRITE
) -> None:
    """Note an unknown name, which names there are, and the way out where none of them is near."""
    written = name.text if isinstance(name, Name) else name.row
    near = meant(written, there)
    why = f"There is {listed(there)}." if there else "None is written in the model."
    fix = f"Did you mean `{near}`?" if near else way_out
    reading.report("unknown-name", name.at, message, why, fix)


@dataclass(slots=True, kw_only=True, eq=False)
class Names:
    """The names of a model.

    Attributes
    ----------
    placed
        Placed parts, the base among them, single ones of twins and their common names too.
    rows
        Placed part -> its rows; not there for those that are broken.
    unsure
        Says of a row's name whether an unreadable entry of ``rows`` may have made it.
    twins
        Entry of ``placed`` for both sides -> the two placed parts that it makes.
    templates
        Placed parts that are templates (``tool: yes``).
    used
        Pieces that use another model.
    """

    sizes: Scope
    hardware: Scope
    fasteners: frozenset[str]
    parts: Scope
    stock: Scope
    placed: Scope
    rows: dict[str, Rows] = field(default_factory=dict)
    part_rows: dict[str, Rows] = field(default_factory=dict)
    unsure: Scope = field(default_factory=lambda: Scope(what="row", good=frozenset(), broken=frozenset()))
    twins: dict[str, tuple[str, ...]] = field(default_factory=dict)
    templates: frozenset[str] = frozenset()
    used: frozenset[str] = frozenset()

    def fastener(self, reading: Reading, name: Name) -> Found:
        """Look up a fastener: an entry of ``hardware``, one that a size names, or a row of the tables."""
        found = self.hardware.find(name.text)
        if found is not Found.WRONG:
            return found
        if name.text in self.fasteners or parse_fastener(name.text) is not None:
            return Found.GOOD
        unknown(
            reading,
            name,
            f"There is no fastener `{name.text}`.",
            [
                *sorted(self.hardware.good | self.hardware.broken),
                "blind rivet 3.2",
                "solid rivet 1/8",
                "bolt AN3",
            ],
        )
        return Found.WRONG

    def holes(self, reading: Reading, choice: HoleChoice) -> Found:
        """Look a choice of holes up: the placed part, its row, its numbers."""
        if "." in choice.row and choice.placed not in self.used:
            if self.placed.find(choice.placed) is Found.MUTED:
                return Found.MUTED
            # Only a piece that uses another model has rows with a point; this was meant as a placed part.
            within, _, row = choice.row.rpartition(".")
            choice = replace(choice, placed=f"{choice.placed}.{within}", row=row)
        found = self.placed.look_up(reading, Name(text=choice.placed, at=choice.at))
        if found is not Found.GOOD:
            return found
        rows = self.rows.get(choice.placed)
        if rows is None or (choice.row not in rows and self.unsure.find(choice.row) is Found.MUTED):
            return Found.MUTED
        return in_rows(reading, choice, rows)

    def all_holes(self, reading: Reading, choices: Iterable[HoleChoice]) -> list[Found]:
        """Look several choices up."""
        return [self.holes(reading, choice) for choice in choices]


def in_rows(reading: Reading, choice: HoleChoice, rows: Rows) -> Found:
    """Look the row and the numbers of ``choice`` up in ``rows`` of its placed part."""
    holes = rows.get(choice.row)
    if holes is None:
        unknown(reading, choice, f"`{choice.placed}` has no row `{choice.row}`.", list(rows))
        return Found.WRONG
    ends = [end for end in (choice.first, choice.last) if end is not None]
    row = f"{choice.placed}.{choice.row}"
    if holes.count is not None and any(end > holes.count for end in ends):
        reading.report(
            "unknown-name",
            choice.at,
            f"There is no hole {row}.{max(ends)}.",
            f"The row {row} has {holes.count} holes.",
            f"Write a number from 1 to {holes.count}, or correct the row.",
        )
        return Found.WRONG
    if ends and choice.first == choice.last and ends[0] in holes.absent:
        reading.report(
            "unknown-name",
            choice.at,
            f"There is no hole {row}.{ends[0]}.",
            f"The row {row} leaves number {ends[0]} out (`skip`, or `none`).",
            "Write another number, or correct the row.",
        )
        return Found.WRONG
    return Found.GOOD
