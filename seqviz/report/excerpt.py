"""The line of the file in which a finding stands, and a caret under the column."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from seqviz.findings import At
from seqviz.report.style import columns, harmless

__all__ = ["Lines", "excerpt"]

Lines = Mapping[str, Sequence[str]]
"""File as named in findings -> its lines, without their ends."""

_GUTTER = "    | "
_CUT = "..."


def excerpt(at: At, lines: Lines, width: int) -> list[str]:
    """Return the line of ``at`` and a caret line, or nothing where the line is not known.

    Long lines are cut so that the caret and what follows it stay in sight.
    """
    texts = lines.get(at.file, ())
    if not 1 <= at.line <= len(texts) or not texts[at.line - 1].strip():
        return []
    text = harmless(texts[at.line - 1]).rstrip()
    place = min(at.column - 1, len(text))
    text, place = _cut(text, place, max(width - len(_GUTTER), 20))
    return [_GUTTER + text, _GUTTER + " " * columns(text[:place]) + "^"]


def _cut(text: str, place: int, room: int) -> tuple[str, int]:
    """Cut ``text`` to ``room`` characters around ``place``; return it and where the place is then."""
    if len(text) <= room:
        return text, place
    start = max(0, min(place - room // 3, len(text) - room))
    end = start + room
    head, tail = _CUT if start else "", _CUT if end < len(text) else ""
    return head + text[start + len(head) : end - len(tail)] + tail, place - start
