"""The entries of ``placed`` as single parts: one entry for both sides becomes two, names are looked up."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import Finding
from seqviz.records.model import HoleChoice, Model, Name, Placed

__all__ = ["Entry", "entries", "own_placed", "own_row", "placed_names"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One part to be placed.

    Attributes
    ----------
    name
        The placed part's name.
    record
        Its entry in the file; two entries share it where it says both sides.
    twin
        ``left``, ``right``, ``forward``, ``aft`` of an entry for both sides, else None.
    twin_of
        For an entry for both sides the two names, this one's first.
    """

    name: str
    record: Placed
    twin: str | None
    twin_of: tuple[str, str] | None = None


def twin_words(model: Model) -> tuple[str, str]:
    """Return what the two sides of the mirror line are called."""
    across = model.mirror_line is not None and model.mirror_line.axis == model.forward[-1]
    return ("forward", "aft") if across else ("left", "right")


def entries(model: Model) -> dict[str, Entry]:
    """Return every part to be placed by name, in file order."""
    found: dict[str, Entry] = {}
    for record in model.placed.values():
        if record.both_sides is None:
            found[record.name] = Entry(name=record.name, record=record, twin=None)
            continue
        words = twin_words(model)
        names = [f"{record.name} {word}" for word in words]
        for word, name, other in zip(words, names, reversed(names), strict=True):
            found[name] = Entry(name=name, record=record, twin=word, twin_of=(name, other))
    return found


def placed_names(name: str, known: dict[str, Entry], base: str) -> tuple[str, ...]:
    """Return the placed parts that ``name`` means: itself, both twins, or none."""
    if name in known or name == base:
        return (name,)
    return tuple(entry.name for entry in known.values() if entry.twin and entry.record.name == name)


def own_placed(name: str, entry: Entry, known: dict[str, Entry], base: str) -> tuple[str, ...]:
    """Return the placed parts that ``name`` means inside ``entry``: of twins its own side."""
    names = placed_names(name, known, base)
    if len(names) == 2 and entry.twin:
        return tuple(n for n in names if known[n].twin == entry.twin)
    return names


def own_row(row: str, entry: Entry, twins: dict[str, tuple[str, str]]) -> tuple[str, ...]:
    """Return the rows that ``row`` means inside ``entry``: of twin rows its own side."""
    if row not in twins:
        return (row,)
    if entry.twin:
        return (twins[row][0 if entry.twin in ("left", "forward") else 1],)
    return twins[row]


def two_meant(choice: HoleChoice | Name, what: tuple[str, ...]) -> Finding:
    """Return the finding for a name that means both twins where one is wanted."""
    return Finding(
        kind="unknown-name",
        severity="error",
        at=choice.at,
        message=f"One of two is meant here: {' or '.join(what)}.",
        why="A row or part entered for both sides has a name for each side; the bare name means both.",
        fix=f"Write {what[0]} or {what[1]}.",
    )
