"""Comments: what a ``#`` swallows, and tabs; both are looked for outside of quotes."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field

from seqviz.records.nodes import Scalar, Spoiled
from seqviz.records.reading import Reading

__all__ = ["Comments", "Span", "comments_of", "tab_outside"]

Span = tuple[Scalar, int, int]
"""A scalar, and the line and column just behind its end; spans stand in the order of the text."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Comments:
    """Where comments begin.

    Attributes
    ----------
    starts
        Line -> column.
    emptied
        (line, column) of an empty value -> the ``#`` that stands in its place.
    """

    starts: dict[int, int] = field(default_factory=dict)
    emptied: dict[tuple[int, int], Spoiled] = field(default_factory=dict)


def comments_of(lines: Sequence[str], spans: Sequence[Span], reading: Reading) -> Comments:
    """Find all comments; note each that begins without a space behind or in place of a value."""
    comments = Comments()
    if not any("#" in line for line in lines):
        return comments
    starts = [(scalar.line, scalar.column) for scalar, _, _ in spans]
    for number, line in enumerate(lines, start=1):
        if "#" not in line:
            continue
        column = line.find("#") + 1
        while column and _covering(number, column, starts, spans) is not None:
            column = line.find("#", column) + 1
        if column:
            comments.starts[number] = column
            if line[: column - 1].strip():
                index = bisect_right(starts, (number, column))
                near = spans[max(index - 1, 0) : index + 1]
                _behind_something(line, Spoiled(number, column), near, comments, reading)
    return comments


def tab_outside(lines: Sequence[str], spans: Sequence[Span], comments: Comments, reading: Reading) -> None:
    """Note the first tab outside of quotes and comments."""
    starts = [(scalar.line, scalar.column) for scalar, _, _ in spans]
    places = []
    for number, line in enumerate(lines, start=1):
        column = line.find("\t") + 1
        if not column or not line.strip() or column > comments.starts.get(number, column):
            continue
        inside = _covering(number, column, starts, spans)
        if inside is None or inside.plain:
            places.append((number, column))
    if places:
        others = f", and in {len(places) - 1} more lines" if len(places) > 1 else ""
        reading.bad(
            Spoiled(*places[0]),
            f"A tab stands here{others}.",
            "How far a tab reaches differs from editor to editor, so YAML forbids it where depth matters.",
            "Put spaces in its place; most editors can do that for the whole file.",
        )


def _before(line: int, column: int, starts: list[tuple[int, int]], spans: Sequence[Span]) -> Span | None:
    index = bisect_right(starts, (line, column)) - 1
    return spans[index] if index >= 0 else None


def _covering(line: int, column: int, starts: list[tuple[int, int]], spans: Sequence[Span]) -> Scalar | None:
    span = _before(line, column, starts, spans)
    return span[0] if span is not None and (line, column) < span[1:] else None


def _behind_something(
    line: str, place: Spoiled, near: Sequence[Span], comments: Comments, reading: Reading
) -> None:
    """Look at a comment at ``place`` that is not a whole line; ``near``: the spans before and after it."""
    text = line[place.column - 1 :]
    scalar = _swallowed(line, place, near)
    if scalar is not None and scalar.empty:
        comments.emptied[scalar.line, scalar.column] = place
    rest = text.lstrip("#")
    if not rest or rest[0].isspace():
        return
    if scalar is not None:
        scalar.lost = True
    reading.report(
        "value-lost",
        place,
        f"`{text.strip()}` is lost: `#` makes the rest of the line a comment.",
        "A comment is a whole line, or begins with `# ` and a space.",
        "Put the value in quotes (a drill is `No. 30`), or a space behind the `#` of a comment.",
    )


def _swallowed(line: str, place: Spoiled, near: Sequence[Span]) -> Scalar | None:
    """Return the value whose end, or whose whole, may have been swallowed."""
    between = ""
    for scalar, end_line, end_column in near:
        if (scalar.line, scalar.column) > (place.line, place.column):
            return scalar if scalar.empty and between == ":" else None
        if end_line != place.line:
            return None
        between = line[end_column - 1 : place.column - 1].strip()
        if not between:
            return scalar
    return None
