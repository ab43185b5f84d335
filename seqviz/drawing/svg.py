"""A small writer of SVG: lines, rings, circles and texts in mm, the same bytes every time.

x runs to the right and y down, as on the page. Text is escaped, and numbers have at most three decimals. The
ink is said once, of the whole: black in a file, the colour of the text around it in a page.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape, quoteattr

__all__ = [
    "Point",
    "circle",
    "document",
    "group",
    "inset",
    "line",
    "number",
    "path",
    "polygon",
    "strokes",
    "text",
    "text_width",
]

_FONT = "Helvetica, Arial, sans-serif"
_WIDEST = 0.58  # of the size: what a letter takes on the average in the widest of the fonts above
_UNSEEN = {"Cc", "Cf", "Cn", "Cs", "Zl", "Zp"}
Point = Sequence[float]


def number(value: float) -> str:
    """Return a number with at most three decimals, never ``-0``."""
    plain = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if plain == "-0" else plain


def text_width(words: str, size: float) -> float:
    """Return how wide ``words`` come out at most, mm; ``size`` is the height of the letters' line."""
    wide = sum(unicodedata.east_asian_width(sign) in {"W", "F"} for sign in words)
    return (len(words) * _WIDEST + wide * (1 - _WIDEST)) * size


def line(start: Point, end: Point, width: float = 0.25, dash: str = "", part: str = "") -> str:
    """Return a line; ``dash`` as in SVG, mm; ``part`` is its class, for whoever reads the file again."""
    ends = zip(("x1", "y1", "x2", "y2"), (*start[:2], *end[:2]), strict=True)
    places = " ".join(f'{name}="{number(value)}"' for name, value in ends)
    return f"<line {_class(part)}{places} {_stroke(width, dash)}/>"


def polygon(points: Iterable[Point], width: float = 0.25, part: str = "", dash: str = "") -> str:
    """Return a closed ring, not filled."""
    places = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return f'<polygon {_class(part)}points="{places}" fill="none" {_stroke(width, dash)}/>'


def path(points: Iterable[Point], width: float = 0.25, part: str = "") -> str:
    """Return an open line through points."""
    places = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return f'<polyline {_class(part)}points="{places}" fill="none" {_stroke(width)}/>'


def strokes(lines: Iterable[tuple[Point, Point]], width: float = 0.25, part: str = "") -> str:
    """Return many separate straight lines as one element; places to 0.01 mm: there may be many of them."""
    places = "".join(
        f"M{_short(a[0])} {_short(a[1])}l{_short(b[0] - a[0])} {_short(b[1] - a[1])}" for a, b in lines
    )
    return f'<path {_class(part)}d="{places}" fill="none" {_stroke(width)}/>'


def circle(centre: Point, diameter: float, width: float = 0.25, part: str = "") -> str:
    """Return a circle."""
    x, y = (number(value) for value in centre)
    return (
        f'<circle {_class(part)}cx="{x}" cy="{y}" r="{number(diameter / 2)}" fill="none" {_stroke(width)}/>'
    )


def text(words: str, place: Point, size: float, anchor: str = "start", bold: bool = False) -> str:
    """Return one line of text; ``place`` is its base line's start, middle or end, as ``anchor`` says."""
    x, y = (number(value) for value in place)
    weight = ' font-weight="bold"' if bold else ""
    shift = "" if anchor == "start" else f' text-anchor="{anchor}"'
    shape = f'font-size="{number(size)}" stroke="none"{weight}{shift}'
    return f'<text x="{x}" y="{y}" {shape}>{_clean(words)}</text>'


def group(title: str, elements: Iterable[str]) -> str:
    """Return elements that belong together; a pointer that rests on them is told ``title``."""
    return "\n".join((f"<g><title>{_clean(title)}</title>", *elements, "</g>"))


def document(size: tuple[float, float], title: str, elements: Iterable[str]) -> str:
    """Return the whole file: ``size`` mm wide and high, one unit of it 1 mm, black on white."""
    wide, high = (number(value) for value in size)
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
            f'viewBox={quoteattr(f"0 0 {wide} {high}")} font-family={quoteattr(_FONT)} fill="black">',
            f"<title>{_clean(title)}</title>",
            f'<rect width="{wide}" height="{high}" fill="white"/>',
            '<g stroke="black">',
            *elements,
            "</g>",
            "</svg>",
            "",
        )
    )


def inset(size: tuple[float, float], title: str, elements: Iterable[str]) -> str:
    """Return a drawing to stand within a page of HTML, in the colour of the page's text, on its ground."""
    wide, high = (number(value) for value in size)
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox={quoteattr(f"0 0 {wide} {high}")} role="img" '
            f'font-family={quoteattr(_FONT)} fill="currentColor">',
            f"<title>{_clean(title)}</title>",
            '<g stroke="currentColor">',
            *elements,
            "</g>",
            "</svg>",
        )
    )


def _short(value: float) -> str:
    return number(round(value, 2))


def _clean(words: str) -> str:
    """Return ``words`` escaped; what XML does not allow, or what turns text round, becomes a space."""
    return escape("".join(" " if unicodedata.category(sign) in _UNSEEN else sign for sign in words))


def _class(part: str) -> str:
    return f"class={quoteattr(part)} " if part else ""


def _stroke(width: float, dash: str = "") -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f'stroke-width="{number(width)}"{dashes}'
