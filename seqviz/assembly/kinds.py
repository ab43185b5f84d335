"""The pieces in the pile: each kind of part, in each hand that is needed, and where its pieces go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.parts.part import Part

__all__ = ["OTHER_HAND", "Kind", "kinds_of"]

OTHER_HAND = "other hand"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Kind:
    """One kind of piece, in one hand.

    Attributes
    ----------
    name
        What it is called: the part, or the placed part where only that tells its hand.
    entry
        The part's entry in the file, or the placed part that is cut from stock.
    part
        The piece as it is: the mirror image already where it is the other hand.
    placed
        The placed parts that are such pieces, in file order; empty: not placed yet.
    """

    name: str
    entry: str
    part: Part
    placed: tuple[str, ...]


def kinds_of(parts: Mapping[str, Part], assembly: Assembly) -> tuple[Kind, ...]:
    """Return all kinds of pieces: ``parts`` in file order, each in the hands that are needed, then stock."""
    found: dict[tuple[str, bool], list[PlacedPart]] = {(name, False): [] for name in parts}
    for placed in assembly.placed.values():
        entry = placed.part.name if _written(placed, parts) else placed.name
        found.setdefault((entry, placed.part.mirrored), []).append(placed)
    kinds = []
    for entry in dict.fromkeys(entry for entry, _ in found):
        hands = {mirrored: found[entry, mirrored] for mirrored in (False, True) if (entry, mirrored) in found}
        needed = {mirrored: pieces for mirrored, pieces in hands.items() if pieces} or {False: []}
        for mirrored, pieces in needed.items():
            name = entry if len(needed) == 1 else _of_hand(entry, mirrored, pieces)
            part = pieces[0].part if pieces else parts[entry]
            names = tuple(one.name for one in pieces)
            kinds.append(Kind(name=name, entry=entry, part=part, placed=names))
    return tuple(kinds)


def _written(placed: PlacedPart, parts: Mapping[str, Part]) -> bool:
    """Say whether its part has an entry of its own; a piece of stock has not."""
    part = parts.get(placed.part.name)
    return part is not None and part.at == placed.part.at


def _of_hand(entry: str, mirrored: bool, pieces: list[PlacedPart]) -> str:
    if len(pieces) == 1:
        return pieces[0].name
    return f"{entry} {OTHER_HAND}" if mirrored else entry
