"""The words above a picture and the key to its marks below: set in lines that fit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from PIL import ImageDraw

from seqviz.render.ink import BLACK, QUIET, SCALE, font
from seqviz.scene.words import Words

__all__ = ["TEXT_CAP", "TITLE_CAP", "Caption", "caption_of", "draw_caption", "room_for", "wrapped"]

TITLE_CAP, TEXT_CAP = 36.0, 30.0
_LINE, _TITLE_LINE = 52, 62
_EDGE = 40
_MOST, _MOST_WITH_HOLES = 6, 5
"""Lines: what must be said has more room than the names of holes, which the marks show as well."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """Lines as they stand: those of the title, then those of the text."""

    title: tuple[str, ...]
    text: tuple[str, ...]

    @property
    def height(self) -> int:
        """Pixels needed, the edge above included."""
        return _EDGE // 2 + _TITLE_LINE * len(self.title) + _LINE * len(self.text)


def wrapped(text: str, cap: float, width: float, *, bold: bool = False) -> list[str]:
    """Break ``text`` between words into lines at most ``width`` pixels long."""
    face, lines = font(cap, bold=bold), [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if face.getlength(longer) <= width or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def caption_of(words: Words, width: int) -> Caption:
    """Return the caption of a picture ``width`` pixels wide.

    The names of the holes are left out where they do not fit. Longer text is cut off with dots.
    """
    title = wrapped(words.title, TITLE_CAP, width - 2 * _EDGE, bold=True)
    text: list[str] = []
    for line in words.lines:
        text += wrapped(line, TEXT_CAP, width - 2 * _EDGE)
    most = max(_MOST - len(title), 1)
    if len(text) > most:
        text = [*text[: most - 1], f"{text[most - 1].rstrip('.,')} ..."]
    holes = wrapped(words.holes, TEXT_CAP, width - 2 * _EDGE) if words.holes else []
    if len(title) + len(text) + len(holes) <= _MOST_WITH_HOLES:
        text += holes
    return Caption(title=tuple(title), text=tuple(text))


def room_for(captions: Iterable[Caption]) -> int:
    """Return the pixels that the highest of the captions needs."""
    return max((caption.height for caption in captions), default=0)


def draw_caption(draw: ImageDraw.ImageDraw, caption: Caption) -> None:
    """Write a caption at the top left of a picture drawn at `SCALE`."""
    y = float(_EDGE // 2)
    for line in caption.title:
        _line(draw, line, y + _TITLE_LINE / 2, TITLE_CAP, bold=True)
        y += _TITLE_LINE
    for line in caption.text:
        _line(draw, line, y + _LINE / 2, TEXT_CAP, bold=False)
        y += _LINE


def _line(draw: ImageDraw.ImageDraw, text: str, middle: float, cap: float, *, bold: bool) -> None:
    place = (_EDGE * SCALE, middle * SCALE)
    draw.text(place, text, fill=BLACK if bold else QUIET, font=font(cap * SCALE, bold=bold), anchor="lm")
