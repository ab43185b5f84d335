"""What lies at which holes, as data: equal stacks of a row drawn together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from seqviz.assembly.gaps import gaps
from seqviz.assembly.structure import Assembly, Layer, Stack
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.scene.hole_names import split_hole

__all__ = ["Group", "Shut", "drawn_shut", "grouped", "groups_of_part"]

Shut = Mapping[tuple[int, str], bool]
"""(stack, the part above the gap) -> whether the fastener draws the gap shut; missing: nobody can tell."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Group:
    """Holes of one row with the same layers, gaps, size and fastener.

    Attributes
    ----------
    row
        ``PLACED.ROW``.
    numbers
        Of the holes, rising.
    stack
        The stack of the first of them; the others are like it.
    """

    row: str
    numbers: tuple[int, ...]
    stack: Stack


def _first_name(stack: Stack) -> str:
    return stack.holes[0]


def grouped(stacks: Iterable[Stack], name_of: Callable[[Stack], str] = _first_name) -> list[Group]:
    """Draw equal stacks of a row together: rows as they first appear, in a row by number.

    Parameters
    ----------
    stacks
        Any stacks.
    name_of
        Which of a stack's hole names it goes by; its first one if not said.
    """
    members: dict[tuple[object, ...], list[tuple[int, Stack]]] = {}
    for stack in stacks:
        row, number = split_hole(name_of(stack))
        members.setdefault((row, *_likeness(stack)), []).append((number, stack))
    found = []
    for key, pairs in members.items():
        pairs.sort(key=lambda pair: pair[0])
        found.append(Group(row=str(key[0]), numbers=tuple(number for number, _ in pairs), stack=pairs[0][1]))
    return found


def drawn_shut(assembly: Assembly) -> Shut:
    """Return what becomes of every gap."""
    return {(gap.stack, gap.upper): gap.shut for gap in gaps(assembly)}


def groups_of_part(assembly: Assembly, part: str) -> list[Group]:
    """Return the groups of the stacks in which ``part`` is a layer, by its own holes where it has them."""

    def own_name(stack: Stack) -> str:
        own = [layer.hole for layer in stack.layers if layer.part == part and layer.hole is not None]
        return own[0] if own else stack.holes[0]

    indices = assembly.stacks_of_part.get(part, ())
    return grouped((assembly.stacks[index] for index in indices), own_name)


def _likeness(stack: Stack) -> tuple[object, ...]:
    """Return what two stacks must share to be told in one line; lengths to 0.001 mm."""
    layers = tuple(
        (layer.part, _rounded(layer.thickness), layer.hole is None, _inside(layer)) for layer in stack.layers
    )
    # Sheets that touch are told without a gap, so what is left of one makes no second line.
    gaps = tuple(_rounded(gap) if gap > TOLERANCE + GUARD else 0.0 for gap in stack.gaps)
    return (layers, gaps, _rounded(stack.diameter), stack.size, stack.fastener)


def _inside(layer: Layer) -> tuple[tuple[str, float], ...]:
    column = layer.column
    return tuple((part, _rounded(thick)) for part, thick in column.layers) if column else ()


def _rounded(millimetres: float) -> float:
    """Return a length to 0.001 mm; with a little added, so that 1.5875 (1/16 in) falls to one side."""
    return round(millimetres + 1e-7, 3)
