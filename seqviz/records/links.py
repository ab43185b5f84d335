"""Names within a model: each is looked up, and what hangs on a wrong entry is muted with it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from seqviz.findings import At
from seqviz.records.asked_for import preparation_linked
from seqviz.records.holes import hole_choice
from seqviz.records.laid_links import (
    layers_stand,
    no_place_yet,
    sketch_on_holes,
    with_implied,
    with_laid_rows,
    without_a_way,
)
from seqviz.records.model import HoleChoice, Known, Later, Match, Model, Name, PartRecord, Placed, Row, Size
from seqviz.records.model_file import ReadModel
from seqviz.records.names import Found, Holes, Names, Rows, Scope, in_rows, rows_of
from seqviz.records.pilots import pilot_stands
from seqviz.records.reading import Reading
from seqviz.records.same_holes import hanging, repeated
from seqviz.records.template_links import seats_nothing, template_as_base, templates_of
from seqviz.units import Slip

__all__ = ["known_linked", "link_model"]

T = TypeVar("T")
_SIDES = ("", " left", " right", " forward", " aft")


def link_model(reading: Reading, read: ReadModel) -> tuple[Model, Names]:
    """Look all names of a model up.

    Returns
    -------
    Model, Names
        The model without the entries that are wrong or hang on a wrong one (their names are in ``broken``),
        and all its names, to look up those of a sequence.
    """
    linker = _Linker(reading, read)
    linker.sizes()
    linker.parts()
    linker.base()
    linker.placed()
    linker.rows()
    return linker.model(), linker.names


class _Linker:
    """A model while its names are looked up; ``broken`` grows, table by table."""

    def __init__(self, reading: Reading, read: ReadModel) -> None:
        self._reading = reading
        self._read = read
        self._model = read.model
        self._broken = {table: set(names) for table, names in read.broken.items()}
        empty = Scope(what="", good=frozenset(), broken=frozenset())
        model = read.model
        fasteners = frozenset(size.fastener.text for size in model.sizes.values() if size.fastener)
        self.names = Names(
            sizes=empty,
            hardware=self._scope("hardware", "fastener", model.hardware),
            fasteners=frozenset(),
            parts=empty,
            stock=self._scope("stock", "stock", model.stock),
            placed=empty,
        )
        self._fasteners = fasteners
        self._looked_up: dict[tuple[At, str], Found] = {}
        parts = repeated(reading, model.parts, self._broken["parts"])
        self._model = replace(model, parts=parts)
        self._part_rows = {
            name: rows_of(part, self._twin_words if part.same else None) for name, part in parts.items()
        }

    def _scope(self, table: str, what: str, entries: Iterable[str]) -> Scope:
        names = frozenset(entries)
        broken = frozenset(self._broken[table])
        return Scope(what=what, good=names - broken, broken=broken, unread=table in self._read.unread)

    def sizes(self) -> None:
        """Look up the fasteners of sizes."""
        for size in self._model.sizes.values():
            if not self._size_stands(size):
                self._broken["sizes"].add(size.name)
        self.names.sizes = self._scope("sizes", "size", self._model.sizes)
        self.names.fasteners = self._fasteners

    def _size_stands(self, size: Size) -> bool:
        return size.fastener is None or self.names.fastener(self._reading, size.fastener) is Found.GOOD

    def parts(self) -> None:
        """Look up the sizes of rows."""
        for part in self._model.parts.values():
            stand = [self._row_stands(row) for row in part.rows]
            if not all(stand):
                self._broken["parts"].add(part.name)
        self._broken["parts"] |= hanging(self._model.parts, self._broken["parts"])
        self.names.parts = self._scope("parts", "part", self._model.parts)

    def _row_stands(self, row: Row) -> bool:
        used = [row.size] if row.size else []
        used += [Name(text=other.size, at=other.at) for other in row.exceptions if other.size is not None]
        found = [self._once(self.names.sizes, name) for name in used]
        if not pilot_stands(self._reading, row, self._model.sizes):
            return False
        mirrored = not row.both_sides or "mirror line" not in self._read.unread
        return mirrored and all(one is Found.GOOD for one in found)

    def _once(self, scope: Scope, name: Name) -> Found:
        """Look a name up that may stand in a row which other parts repeat; it is told once."""
        if (name.at, name.text) not in self._looked_up:
            self._looked_up[name.at, name.text] = scope.look_up(self._reading, name)
        return self._looked_up[name.at, name.text]

    def base(self) -> None:
        """Look the base up."""
        base = self._model.base
        if base is not None and (
            self.names.parts.look_up(self._reading, base) is Found.WRONG
            or template_as_base(self._reading, base, self._model.parts)
        ):
            self._model = replace(self._model, base=None)
            self._read = replace(self._read, unread=self._read.unread | {"base"})

    @property
    def _twin_words(self) -> tuple[str, str]:
        line = self._model.mirror_line
        across = line is not None and line.axis == self._model.forward[-1]
        return ("forward", "aft") if across else ("left", "right")

    def placed(self) -> None:
        """Look up everything that placed parts name, those that only ``rows`` name among them."""
        there = {name for entry in self._model.placed.values() for name in (entry.name, *self._made(entry))}
        there |= {self._model.base.text} if self._model.base else set()
        self._model = with_implied(self._model, there | self._broken["placed"])
        singles = self._singles()
        for entry in self._model.placed.values():
            if self._made_of(entry) is not Found.GOOD:
                self._broken["placed"].add(entry.name)
        self._index(singles)
        self._crossed(singles)
        for entry in self._model.placed.values():
            if entry.name not in self._broken["placed"] and not self._entry_stands(entry):
                self._broken["placed"].add(entry.name)
        self._index(singles)
        self._spread(singles)
        self._index(singles)

    def _singles(self) -> dict[str, tuple[str, ...]]:
        """Return entry -> the names it makes; note names that are made twice."""
        made: dict[str, Name] = {}
        base = self._model.base
        if base is not None:
            part = self._model.parts.get(base.text)
            made[base.text] = Name(text="the base", at=part.at if part else base.at)
        singles = {}
        for entry in self._model.placed.values():
            singles[entry.name] = self._made(entry)
            for name in singles[entry.name]:
                if name in made:
                    self._reading.duplicate(f"The placed part `{name}`", entry.at, made[name].at)
                    self._broken["placed"].add(entry.name)
                made.setdefault(name, Name(text=entry.name, at=entry.at))
        return singles

    def _made(self, entry: Placed) -> tuple[str, ...]:
        """Return the placed parts that an entry makes."""
        twins = tuple(f"{entry.name} {word}" for word in self._twin_words)
        return twins if entry.both_sides else (entry.name,)

    def _made_of(self, entry: Placed) -> Found:
        if entry.uses is not None:
            # Why it could not be read was told when it was tried.
            return Found.GOOD if entry.name in self._read.used else Found.MUTED
        if entry.stock is not None:
            return self.names.stock.look_up(self._reading, entry.stock)
        assert entry.part is not None
        return self.names.parts.look_up(self._reading, entry.part)

    def _index(self, singles: dict[str, tuple[str, ...]]) -> None:
        """Make the names of placed parts, and their rows, as far as it is known what is broken."""
        model, names = self._model, self.names
        good: set[str] = set()
        # Of an entry that could not be read it is not known whether it makes two.
        unreadable = self._broken["placed"] - set(singles)
        broken = {f"{name}{side}" for name in unreadable for side in _SIDES}
        broken |= self._perhaps_placed()
        names.rows = {}
        if model.base is not None:
            good.add(model.base.text)
            if model.base.text in model.parts and names.parts.find(model.base.text) is Found.GOOD:
                names.rows[model.base.text] = rows_of(model.parts[model.base.text], self._twin_words)
        for entry, made in singles.items():
            if entry in self._broken["placed"]:
                broken.update(made, {entry})
                continue
            good.update(made, {entry})
            rows = self._rows(model.placed[entry])
            if rows is not None:
                names.rows.update(dict.fromkeys((*made, entry), rows))
        unread = bool({"placed", "base"} & self._read.unread)
        names.placed = Scope(
            what="placed part", good=frozenset(good), broken=frozenset(broken - good), unread=unread
        )
        names.part_rows = self._part_rows
        names.twins = {entry: made for entry, made in singles.items() if len(made) > 1}
        names.templates = templates_of(model, singles)
        uses = [entry for entry in model.placed.values() if entry.uses is not None]
        names.used = frozenset(name for entry in uses for name in (entry.name, *singles[entry.name]))

    def _perhaps_placed(self) -> set[str]:
        """Return parts that a row places without an entry, and that cannot be there or might be."""
        unsure = self._broken["rows"] or "rows" in self._read.unread
        if unsure:
            return {*self._model.parts, *self._broken["parts"]}
        named = {layer.text for row in self._model.rows.values() for layer in row.named()}
        return named & self._broken["parts"]

    def rows(self) -> None:
        """Look up the layers of ``rows``, see that they name what has no other place, and add their holes."""
        model, singles = self._model, {e.name: self._made(e) for e in self._model.placed.values()}
        for row in model.rows.values():
            if layers_stand(self._reading, row, self.names, singles) is not Found.GOOD:
                self._broken["rows"].add(row.name)
        self._without_a_way(singles)
        self._spread(singles)
        self._index(singles)
        made = {name: entry for entry in model.placed.values() for name in singles[entry.name]}
        good = (row for row in model.rows.values() if row.name not in self._broken["rows"])
        with_laid_rows(self.names, good, made)
        self.names.unsure = self._scope("rows", "row", model.rows)

    def _without_a_way(self, singles: dict[str, tuple[str, ...]]) -> None:
        """Break entries of which nothing says where they lie."""
        named = {layer.text for row in self._model.rows.values() for layer in row.named()}
        for entry in self._model.placed.values():
            if entry.has_way or {*singles[entry.name]} & named or entry.name in self._broken["placed"]:
                continue
            if not self._broken["rows"] and "rows" not in self._read.unread:
                without_a_way(self._reading, entry)
            self._broken["placed"].add(entry.name)

    def _rows(self, entry: Placed) -> Rows | None:
        if entry.uses is not None:
            return self._read.used.get(entry.name)
        own = self._part_rows.get(entry.part.text) if entry.part is not None else {}
        if entry.along is None or own is None:
            return own
        beneath = self.names.rows.get(entry.along.placed, {}).get(entry.along.row)
        # Of a part of the row, and of a row that was itself taken from beneath, holes are not counted here.
        counted = beneath if entry.along.first is None else None
        return {**own, entry.along.row: counted or Holes(count=None)}

    def _crossed(self, singles: dict[str, tuple[str, ...]]) -> None:
        """Look up the parts whose walls a bolt goes through; a part with a wrong name in them is broken."""
        wrong = {part.name for part in self._model.parts.values() if not self._crossings_stand(part)}
        if wrong:
            self._broken["parts"] |= wrong
            self.names.parts = self._scope("parts", "part", self._model.parts)
            for entry in self._model.placed.values():
                if entry.part is not None and entry.part.text in wrong:
                    self._broken["placed"].add(entry.name)
            self._index(singles)

    def _crossings_stand(self, part: PartRecord) -> bool:
        found = [self._once(self.names.placed, name) for row in part.rows for name in row.crosses]
        return Found.WRONG not in found

    def _entry_stands(self, entry: Placed) -> bool:
        """Say whether all names of an entry are there; those of broken parts are, and are muted elsewhere."""
        reading, names = self._reading, self.names
        if sketch_on_holes(reading, entry, self._model.parts):
            return False
        if seats_nothing(reading, entry, names.templates):
            return False
        found = [self._target(pair.target) for pair in entry.match]
        found += [self._own_hole(entry, pair) for pair in entry.match]
        if entry.along is not None:
            found.append(self._target(entry.along))
        for name in (*entry.over, *entry.under):
            if name.text == entry.name:
                reading.bad(
                    name.at,
                    f"`{name.text}` cannot lie over itself.",
                    "Here belong other parts.",
                    "Delete it.",
                )
                found.append(Found.WRONG)
            else:
                found.append(names.placed.look_up(reading, name))
        for choice in [pair.target for pair in entry.match] + ([entry.along] if entry.along else []):
            if choice.placed == entry.name and Found.WRONG not in found:
                reading.bad(
                    choice.at,
                    f"`{entry.name}` cannot hang on itself.",
                    "A part is placed on holes of another one.",
                    "Name a hole of the part beneath.",
                )
                found.append(Found.WRONG)
        return Found.WRONG not in found

    def _target(self, choice: HoleChoice) -> Found:
        if no_place_yet(self._reading, choice, self.names, self._model.rows.values()):
            return Found.WRONG
        return self.names.holes(self._reading, choice)

    def _own_hole(self, entry: Placed, pair: Match) -> Found:
        of = entry.part.text if entry.part else entry.name
        rows = self.names.part_rows.get(of) if entry.part else self._read.used.get(entry.name)
        if rows is None:
            return Found.MUTED
        own = replace(
            pair.target,
            placed=of,
            row=pair.row,
            first=pair.number,
            last=pair.number,
            at=pair.at,
        )
        return in_rows(self._reading, own, rows)

    def _spread(self, singles: dict[str, tuple[str, ...]]) -> None:
        """Break what hangs on something broken, by its holes."""
        base_stands = self._model.base is not None and self._model.base.text in self.names.rows
        gone = set(self.names.placed.broken)
        grown = True
        while grown:
            grown = False
            for entry in self._model.placed.values():
                targets = {pair.target.placed for pair in entry.match}
                targets |= {entry.along.placed} if entry.along else set()
                if entry.name not in self._broken["placed"] and (not base_stands or targets & gone):
                    self._broken["placed"].add(entry.name)
                    gone |= {entry.name, *singles[entry.name]}
                    grown = True

    def model(self) -> Model:
        """Return the model without what is broken."""
        model, broken = self._model, self._broken
        # A placed part's name may be taken twice and still be good where it is taken first.
        names = {name for table, wrong in broken.items() if table != "placed" for name in wrong}
        names |= self.names.placed.broken
        return replace(
            model,
            sizes=_without(model.sizes, broken["sizes"]),
            parts=_without(model.parts, broken["parts"]),
            placed=_without(model.placed, broken["placed"]),
            uses=_without(model.uses, broken["placed"]),
            rows=_without(model.rows, broken["rows"]),
            later=tuple(entry for entry in model.later if self._later_stands(entry)),
            known=known_linked(self._reading, model.known, self.names),
            preparation=preparation_linked(self._reading, model.preparation, self.names),
            broken=frozenset(names),
        )

    def _later_stands(self, entry: Later) -> bool:
        found = self.names.all_holes(self._reading, entry.holes)
        if entry.part is not None:
            found.append(self.names.placed.look_up(self._reading, entry.part))
        return Found.WRONG not in found


def _without(entries: dict[str, T], broken: set[str]) -> dict[str, T]:
    return {name: entry for name, entry in entries.items() if name not in broken}


def known_linked(reading: Reading, entries: tuple[Known, ...], names: Names) -> tuple[Known, ...]:
    """Return the entries of ``known`` whose ``at`` is there."""
    return tuple(entry for entry in entries if _known_stands(reading, entry, names))


def _known_stands(reading: Reading, entry: Known, names: Names) -> bool:
    if "." not in entry.target:
        name = Name(text=" ".join(entry.target.split()), at=entry.target_at)
        if names.parts.find(name.text) is not Found.WRONG:
            return True
        return names.placed.look_up(reading, name) is not Found.WRONG
    choice = hole_choice(entry.target, entry.target_at)
    if isinstance(choice, Slip):
        reading.slip(entry.target_at, choice)
        return False
    if names.placed.find(choice.placed) is Found.WRONG and choice.placed in names.part_rows:
        return in_rows(reading, choice, names.part_rows[choice.placed]) is not Found.WRONG
    if names.placed.find(choice.placed) is Found.WRONG and names.parts.find(choice.placed) is Found.MUTED:
        return True
    return names.holes(reading, choice) is not Found.WRONG
