"""What names given on the command line mean: placed parts, rows of holes, single holes."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from seqviz.assembly.structure import Assembly
from seqviz.scene.hole_names import split_hole

__all__ = ["Choice", "choose", "near_names"]

_HOLES = re.compile(r"(?P<row>.+)\.(?P<first>[0-9]+)(?:-(?P<last>[0-9]+))?")
_SIDES = (" left", " right", " forward", " aft")


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What the names mean.

    Attributes
    ----------
    parts
        Placed parts.
    rows
        Indices of the stacks of whole rows, in the order of ``Assembly.stack_of``.
    holes
        Single holes, ``PLACED.ROW.N``.
    unknown
        Names that mean nothing here.
    """

    parts: tuple[str, ...]
    rows: tuple[int, ...]
    holes: tuple[str, ...]
    unknown: tuple[str, ...]


def choose(assembly: Assembly, names: Iterable[str]) -> Choice:
    """Find out what names mean: a placed part, ``PLACED.ROW``, ``PLACED.ROW.N`` or ``PLACED.ROW.N-M``.

    Letter case counts for nothing, ``_`` reads as a space, and a name without its side means both sides.
    """
    parts: list[str] = []
    rows: list[str] = []
    holes: list[str] = []
    unknown: list[str] = []
    for name in names:
        plain = _folded(name)
        if found := _best(assembly.placed, plain, lambda part: part):
            parts += found
        elif found := _best(assembly.stack_of, plain, _row_of):
            rows += found
        elif found := _numbered(assembly, plain):
            holes += found
        else:
            unknown.append(name)
    return Choice(
        parts=tuple(dict.fromkeys(parts)),
        rows=tuple(dict.fromkeys(assembly.stack_of[hole] for hole in rows)),
        holes=tuple(dict.fromkeys(holes)),
        unknown=tuple(unknown),
    )


def near_names(assembly: Assembly, name: str) -> list[str]:
    """Return up to three names spelled like ``name``: of parts, of rows or of holes, by the points in it."""
    kinds = (list(assembly.placed), list(map(_row_of, assembly.stack_of)), list(assembly.stack_of))
    known = {_folded(text): text for text in kinds[min(name.count("."), 2)]}
    return [known[text] for text in difflib.get_close_matches(_folded(name), known, n=3, cutoff=0.7)]


def _best(things: Iterable[str], plain: str, called: Callable[[str], str]) -> list[str]:
    """Return the things that are ``called`` exactly ``plain``, else those that are but for their side."""
    listed = list(things)
    exact = [thing for thing in listed if _folded(called(thing)) == plain]
    return exact or [thing for thing in listed if plain in _without_side(_folded(called(thing)))]


def _numbered(assembly: Assembly, plain: str) -> list[str]:
    """Return the holes that ``PLACED.ROW.N`` or ``PLACED.ROW.N-M`` names; a missing number names none."""
    parsed = _HOLES.fullmatch(plain)
    if parsed is None:
        return []
    ends = sorted((int(parsed["first"]), int(parsed["last"] or parsed["first"])))
    of_row = _best(assembly.stack_of, parsed["row"], _row_of)
    return [hole for hole in of_row if ends[0] <= split_hole(hole)[1] <= ends[1]]


def _row_of(hole: str) -> str:
    return split_hole(hole)[0]


def _folded(name: str) -> str:
    return " ".join(name.replace("_", " ").split()).casefold()


def _without_side(plain: str) -> set[str]:
    """Return ``PLACED`` or ``PLACED.ROW`` with the side left out of its part, of its row, of both."""
    ways = [""]
    for word in plain.split("."):
        shorter = [word.removesuffix(side) for side in _SIDES if word.endswith(side)]
        ways = [f"{way}.{other}" for way in ways for other in (word, *shorter)]
    return {way[1:] for way in ways}
