"""Colours and type of the pictures. Okabe and Ito's colours, chosen so that they also differ in grey."""

from __future__ import annotations

from functools import cache
from importlib.util import find_spec
from pathlib import Path

from PIL import ImageFont

__all__ = ["AMBER", "BLACK", "BLUE", "BLUE_LINE", "FIT_GREY", "GREY", "GREY_LINE"]
__all__ += ["PAPER", "PIN_GREY", "QUIET", "SCALE", "VERMILLION", "font"]

PAPER = (255, 255, 255)
BLACK = (20, 20, 20)
QUIET = (75, 75, 75)
GREY = (255, 255, 252)
GREY_LINE = (110, 110, 110)
FIT_GREY = (190, 190, 188)
PIN_GREY = (150, 150, 148)
BLUE = (86, 166, 220)
BLUE_LINE = (0, 52, 92)
VERMILLION = (213, 94, 0)
AMBER = (240, 190, 50)

SCALE = 2
"""Everything is drawn this many times larger and brought down at the end: that smooths every edge."""

_CAP = 1493 / 2048  # height of a capital letter of DejaVu Sans, of its size


@cache
def font(cap: float, *, bold: bool = False) -> ImageFont.FreeTypeFont:
    """Return DejaVu Sans with capitals ``cap`` pixels high; it comes with a package, not with the system."""
    spec = find_spec("matplotlib")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError("matplotlib, which carries the font of the pictures, is not installed")
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    path = Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf" / name
    return ImageFont.truetype(str(path), round(cap / _CAP))
