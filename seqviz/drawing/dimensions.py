"""Dimensions on a drawing: how long, how wide, where the bends lie, which way x runs, a line to measure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from seqviz.drawing.svg import line, path, text

__all__ = ["ACROSS", "across", "along", "scale_line", "upright", "x_arrow"]

ACROSS = 50.0
"""mm that `across` needs to the left of the pattern."""

_LETTERS = 3.2
_ARROWS = 5.0  # mm: nearer than this two arrows would meet
_APART = 4.0  # mm between two numbers, one above the other
_THIN = 0.15
_MEASURED = 50.0  # mm, the line to measure


def along(reach: tuple[float, float], level: float, words: str) -> Iterator[str]:
    """Yield a level dimension between two x, ``level`` the y of its line."""
    left, right = reach
    for x in reach:
        yield line((x, level - 7.0), (x, level + 1.5), _THIN)
    yield line((left, level), (right, level), _THIN, part="dimension")
    for x, way in ((left, 1.0), (right, -1.0)):
        yield path(((x + way * 2.0, level - 0.7), (x, level), (x + way * 2.0, level + 0.7)), _THIN)
    yield text(words, ((left + right) / 2, level + _LETTERS + 0.8), _LETTERS, "middle")


def across(
    reach: tuple[float, float], edge: float, words: str, levels: Sequence[tuple[float, str]]
) -> Iterator[str]:
    """Yield an upright dimension to the left of x = ``edge``, and nearer to it the heights of ``levels``.

    ``reach`` is the top and the bottom; of each level its y and the distance from the bottom, as words.
    """
    top, bottom = reach
    x = edge - ACROSS + 21.0
    yield from upright(reach, (x, edge))
    yield text(words, (x - 1.5, (top + bottom) / 2 + _LETTERS / 3), _LETTERS, "end")
    last = float("inf")
    for y, told in sorted(levels, key=lambda level: -level[0]):
        # Numbers of bends close together make room for each other upwards.
        last = min(y, last - _APART)
        far = edge - 5.0
        yield path(((far, last), (edge - 3.0, last), (edge - 0.5, y)), _THIN)
        yield text(told, (far - 0.6, last + _LETTERS / 3), _LETTERS * 0.85, "end")


def upright(reach: tuple[float, float], span: tuple[float, float]) -> Iterator[str]:
    """Yield an upright dimension without its words.

    ``reach`` is the top and the bottom, ``span`` the x of its line and of the edge that it measures.
    """
    top, bottom = reach
    x, edge = span
    for y in reach:
        yield line((x - 1.5, y), (edge - 1.0, y), _THIN)
    yield line((x, top), (x, bottom), _THIN, part="dimension")
    # Where there is no room between them the arrows come from outside.
    inward = 1.0 if bottom - top >= _ARROWS else -1.0
    for y, way in ((top, inward), (bottom, -inward)):
        yield path(((x - 0.7, y + way * 2.0), (x, y), (x + 0.7, y + way * 2.0)), _THIN)
        if inward < 0:
            yield line((x, y), (x, y + way * 4.0), _THIN)


def x_arrow(place: tuple[float, float]) -> Iterator[str]:
    """Yield an arrow that says which way x runs."""
    x, y = place
    yield line((x, y), (x + 15.0, y), 0.3)
    yield path(((x + 12.5, y - 1.2), (x + 15.0, y), (x + 12.5, y + 1.2)), 0.3)
    yield text("x", (x + 17.0, y + 1.0), _LETTERS)


def scale_line(place: tuple[float, float]) -> Iterator[str]:
    """Yield a line of a known length, for checking a print."""
    x, y = place
    yield line((x, y), (x + _MEASURED, y), 0.3, part="scale")
    for end in (x, x + _MEASURED):
        yield line((end, y - 1.5), (end, y + 1.5), 0.3)
    yield text(f"{_MEASURED:.0f} mm", (x + _MEASURED / 2, y - 1.0), _LETTERS * 0.85, "middle")
