"""What is said of woven parts: they lie over each other in a circle, and one must be slid in."""

from __future__ import annotations

from collections.abc import Mapping

from seqviz.assembly.entries import Entry, own_placed
from seqviz.assembly.lay_up import LayUp, Statement, Woven
from seqviz.findings import At, Finding, Related

__all__ = ["woven_overlaps"]


def woven_overlaps(lay: LayUp, known: Mapping[str, Entry], base: str) -> list[Finding]:
    """Return a finding for each circle of statements, at the word that the heights take no notice of."""
    return [_woven(one, dict(known), base) for one in lay.woven]


def _woven(one: Woven, known: dict[str, Entry], base: str) -> Finding:
    ignored = one.left_out[0]
    circle = _from(one.circle, ignored.lower)
    pairs = ", ".join(f"{a} over {b}" for a, b in zip(circle, (*circle[1:], circle[0]), strict=True))
    last = ", ".join(f"{s.lower} must be slid in under {s.upper}" for s in one.left_out)
    return Finding(
        kind="woven-overlap",
        severity="warning",
        at=_said_at(ignored, known, base),
        message=f"The lay-up goes round in a circle: {pairs}. "
        f"These parts cannot be laid one after the other; {last}.",
        why="Of parts that are laid down one by one the first lies under all the others. "
        f"The heights are computed without {ignored.upper} over {ignored.lower}.",
        fix="Correct the over or under that is wrong. If they really are woven, leave that end unpinned and "
        "slide the part in, and settle this under known.",
        parts=tuple(dict.fromkeys((ignored.upper, ignored.lower, *circle))),
        related=tuple(Related(at=known[name].record.at, message=name) for name in circle if name in known),
    )


def _from(circle: tuple[str, ...], first: str) -> tuple[str, ...]:
    """Return the circle, begun at ``first``."""
    start = circle.index(first)
    return circle[start:] + circle[:start]


def _said_at(statement: Statement, known: dict[str, Entry], base: str) -> At:
    """Return where the word stands that makes the statement."""
    entry = known[statement.by]
    words, other = (
        (entry.record.over, statement.lower)
        if statement.upper == statement.by
        else (entry.record.under, statement.upper)
    )
    return next((w.at for w in words if other in own_placed(w.text, entry, known, base)), entry.record.at)
