"""Names in ``rows``: the parts that they place without an entry, and the holes that they make."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from seqviz.records.model import HoleChoice, LaidRow, Model, Name, PartRecord, Placed, SketchShape
from seqviz.records.names import Found, Holes, Names, absent_numbers
from seqviz.records.reading import Reading

__all__ = [
    "layers_stand",
    "no_place_yet",
    "sketch_on_holes",
    "with_implied",
    "with_laid_rows",
    "without_a_way",
]


def with_implied(model: Model, there: Iterable[str]) -> Model:
    """Return the model with an entry of ``placed`` for every part that a row names and that has none.

    ``there`` are the names of all placed parts that have one, of the base, and of both of twins.
    """
    known = set(there)
    added: dict[str, Placed] = {}
    for layer in (layer for row in model.rows.values() for layer in row.named()):
        part = model.parts.get(layer.text)
        if part is not None and layer.text not in known:
            added.setdefault(layer.text, _entry_of(part))
    return replace(model, placed={**model.placed, **added})


def _entry_of(part: PartRecord) -> Placed:
    return Placed(
        name=part.name,
        part=Name(text=part.name, at=part.at),
        stock=None,
        match=(),
        match_at=part.at,
        along=None,
        pose=None,
        face=None,
        side=None,
        standing_leg=None,
        over=(),
        under=(),
        both_sides=None,
        at=part.at,
    )


def layers_stand(
    reading: Reading, row: LaidRow, names: Names, singles: Mapping[str, tuple[str, ...]]
) -> Found:
    """Look up the layers and sizes of a row; a name that means two placed parts is wrong here."""
    sizes = [row.size] if row.size else []
    sizes += [Name(text=other.size, at=other.at) for other in row.exceptions if other.size is not None]
    found = [names.sizes.look_up(reading, size) for size in sizes]
    for layer in row.named():
        found.append(names.placed.look_up(reading, layer))
        twins = singles.get(layer.text, (layer.text,))
        if len(twins) > 1 and found[-1] is Found.GOOD:
            reading.report(
                "unknown-name",
                layer.at,
                f"One of two is meant here: {' or '.join(twins)}.",
                "A part entered for both sides has a name for each side; the bare name means both.",
                f"Write {twins[0]} or {twins[1]}.",
            )
            found.append(Found.WRONG)
    return next((bad for bad in (Found.WRONG, Found.MUTED) if bad in found), Found.GOOD)


def with_laid_rows(names: Names, rows: Iterable[LaidRow], made: Mapping[str, Placed]) -> None:
    """Add the holes that ``rows`` make to those that parts have of their own; ``made``: by which entry.

    A bare name of twins has them too, and a part's name, which in ``known`` means every occurrence.
    """
    for row in rows:
        gone = absent_numbers(row)
        for layer in {layer.text for layer in row.named()}:
            elsewhere = {n for n in range(1, row.count + 1) if layer not in row.layers_at(n)}
            holes = Holes(count=row.count, absent=gone | elsewhere)
            entry = made.get(layer)
            # Twins and equal parts share one table of rows, hence a new one for each.
            for name in {layer, entry.name} if entry else {layer}:
                names.rows[name] = {row.name: holes, **names.rows.get(name, {})}
            if entry is not None and entry.part is not None:
                part = entry.part.text
                names.part_rows[part] = {row.name: holes, **names.part_rows.get(part, {})}


def without_a_way(reading: Reading, entry: Placed) -> None:
    """Note an entry of which nothing says where it lies."""
    reading.report(
        "missing-word",
        entry.at,
        "`match` or `at` is missing.",
        "A part hangs on its holes (match), or stands at a point (at, x along, y along). "
        "One without dimensions is named in `rows`.",
        "Add `match` or `at`, or name it among the layers of a row.",
    )


def sketch_on_holes(reading: Reading, entry: Placed, parts: Mapping[str, PartRecord]) -> bool:
    """Say whether a part without dimensions is placed as if it had some, and note it."""
    part = parts.get(entry.part.text) if entry.part else None
    if part is None or not isinstance(part.shape, SketchShape) or not entry.has_way:
        return False
    reading.bad(
        entry.pose.at if entry.pose else entry.match_at,
        f"`{part.name}` is a sketch: it has no dimensions, so it cannot be placed by them.",
        "`match` and `at` put a part where its holes or its corners belong.",
        "Leave the words out and name it among the layers of a row in `rows`, or give it its dimensions.",
    )
    return True


def no_place_yet(reading: Reading, choice: HoleChoice, names: Names, rows: Iterable[LaidRow]) -> bool:
    """Say whether a target's holes are known by ``rows`` only, and note it."""
    if choice.row in names.rows.get(choice.placed, {choice.row: None}):
        return False
    if not any(row.name == choice.row and choice.placed in {n.text for n in row.named()} for row in rows):
        return False
    reading.bad(
        choice.at,
        f"`{choice.placed}.{choice.row}` has no place yet.",
        "A part hangs on holes whose places are known. `rows` only say what lies over what.",
        f"Give {choice.placed} its dimensions and this row of holes, or name the part in `rows` too.",
    )
    return True
