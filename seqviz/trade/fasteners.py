"""Fasteners by their names (``blind rivet 3.2``, ``bolt AN3``), and how far they stand out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from seqviz.trade.heads import INCH, tail_size, unset_shank

__all__ = [
    "BLIND_RIVET",
    "BOLT",
    "KINDS",
    "SOLID_RIVET",
    "Fastener",
    "length_for",
    "parse_fastener",
    "protrusion",
]

BLIND_RIVET = "blind rivet"
SOLID_RIVET = "solid rivet"
BOLT = "bolt"
KINDS = (BLIND_RIVET, SOLID_RIVET, BOLT)

_NUMBER = r"\d+(?:\.\d+)?"
_NAME = re.compile(rf"({'|'.join(KINDS)})\s+(.+)")
_SIZE = re.compile(rf"(?:(?P<whole>\d+)[ -])?(?P<top>\d+)/(?P<under>\d+)|(?P<number>{_NUMBER})")
_UNIT = re.compile(r"(?P<size>.*?)\s*(?P<unit>mm|in|inch|\")?")
_AN = re.compile(r"an\s?(?P<dash>\d{1,2})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """``kind`` (one of `KINDS`) and nominal shank ``diameter`` in mm."""

    kind: str
    diameter: float


def parse_fastener(text: str) -> Fastener | None:
    """Read a fastener's name, or return None where ``text`` is no such name.

    Fractions are inches, plain numbers are mm; ``mm``, ``in`` or ``"`` may follow. ``bolt AN3`` is a bolt of
    3/16 in: the number after AN counts sixteenths (AN3 to AN20, secondary).
    """
    found = _NAME.fullmatch(" ".join(text.lower().replace("_", " ").split()))
    if found is None:
        return None
    kind, size = found.groups()
    bolt = _AN.fullmatch(size) if kind == BOLT else None
    diameter = _an_diameter(int(bolt["dash"])) if bolt else _diameter(size)
    return Fastener(kind=kind, diameter=diameter) if diameter else None


def length_for(lengths: Sequence[tuple[float, float, float]], grip: float) -> float | None:
    """Return the smallest length, mm, whose grip range holds ``grip``, or None.

    ``lengths`` holds (length, grip from, grip to), mm, as in ``hardware``; both ends of a range belong to it.
    """
    fitting = [length for length, low, high in lengths if low - 1e-9 <= grip <= high + 1e-9]
    return min(fitting, default=None)


def protrusion(
    kind: str,
    diameter: float,
    lengths: Sequence[tuple[float, float, float]],
    grip: float,
    *,
    unset: bool = False,
) -> float:
    """Return how far a fastener stands out on the far side of a stack, mm.

    Parameters
    ----------
    kind, diameter
        As in `Fastener`.
    lengths
        The maker's lengths with their grip ranges, mm; may be empty.
    grip
        mm, of the stack.
    unset
        A solid rivet that is not driven yet: 1.5 D (FAA-H-8083-31, figure 4-76) instead of the formed 0.5 D.

    Notes
    -----
    A blind rivet stands out by its length less the grip; where no length is known by 1.5 D (common practice,
    no source). It draws up a little when it is set; that is left out, so the figure is on the safe side.
    """
    if kind == SOLID_RIVET and unset:
        return unset_shank(diameter).height
    length = length_for(lengths, grip) if kind not in (SOLID_RIVET, BOLT) else None
    return length - grip if length is not None else tail_size(kind, diameter).height


def _an_diameter(dash: int) -> float | None:
    return dash / 16 * INCH if 3 <= dash <= 20 else None


def _diameter(text: str) -> float | None:
    split = _UNIT.fullmatch(text)
    size = _SIZE.fullmatch(split["size"]) if split else None
    if split is None or size is None:
        return None
    if size["number"]:
        value = float(size["number"])
        return value * (INCH if split["unit"] in ("in", "inch", '"') else 1.0)
    if split["unit"] == "mm" or int(size["under"]) == 0:
        return None
    return (int(size["whole"] or 0) + int(size["top"]) / int(size["under"])) * INCH
