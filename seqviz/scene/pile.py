"""The pieces in the pile, as data: what each is, how many are needed, and how to know it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from seqviz.assembly.kinds import Kind, kinds_of
from seqviz.build import Build
from seqviz.parts.bulk import box_of, metal_of, single_holes
from seqviz.parts.flat_pattern import flat_pattern
from seqviz.parts.likeness import Look, look_of
from seqviz.parts.part import Hole
from seqviz.scene.look_alikes import look_alikes
from seqviz.scene.odd_holes import how_it_lies
from seqviz.trade.densities import ASSUMED, Density, density_of

__all__ = ["Piece", "Pile", "PileRow", "opening_names", "pieces_of", "pile_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PileRow:
    """A row of holes: diameter in mm -> the numbers of its holes, the most frequent diameter first."""

    name: str
    sizes: tuple[tuple[float, tuple[int, ...]], ...]

    @property
    def count(self) -> int:
        """How many holes the row has."""
        return sum(len(numbers) for _, numbers in self.sizes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One kind of piece.

    Attributes
    ----------
    name, shape
        What it is called, and the word for its shape.
    placed
        Where its pieces go: one is needed for each. Empty: not placed yet.
    other_hand
        True where it is the mirror image of what the file describes.
    size, flat
        mm: the finished piece along its own x, y and z; its flat pattern. None: not known, or there is none.
    thickness
        mm, of a sheet.
    weight
        g of one piece; None: no shape yet, or a material that is not in the table.
    density
        What the weight was reckoned with.
    holes
        How many; two names of one hole count once.
    odd
        Sentences about the odd hole.
    """

    name: str
    shape: str
    placed: tuple[str, ...]
    other_hand: bool
    size: tuple[float, float, float] | None
    flat: tuple[float, float] | None
    thickness: float | None
    material: str | None
    weight: float | None
    density: Density | None
    rows: tuple[PileRow, ...]
    holes: int
    odd: tuple[str, ...]
    how_to_tell: str | None
    number: str | None
    drawing: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pile:
    """All pieces in file order, and sentences about those that look alike."""

    pieces: tuple[Piece, ...]
    alike: tuple[str, ...]

    @property
    def weight(self) -> float:
        """g, of all pieces that are placed and have a weight."""
        return sum(piece.weight * len(piece.placed) for piece in self.pieces if piece.weight is not None)

    @property
    def unweighed(self) -> tuple[str, ...]:
        """Placed pieces without a weight."""
        return tuple(piece.name for piece in self.pieces if piece.placed and piece.weight is None)


def pile_of(build: Build) -> Pile:
    """Return the pile of a structure."""
    kinds = kinds_of(build.parts, build.assembly)
    looks = [look_of(kind.part) for kind in kinds]
    pieces = tuple(_piece(build, kind, look) for kind, look in zip(kinds, looks, strict=True))
    seen = [(kind, look) for kind, look in zip(kinds, looks, strict=True) if look is not None]
    openings = {kind.name: opening_names(build, kind) for kind in kinds}
    materials = {piece.name: piece.material for piece in pieces}
    return Pile(pieces=pieces, alike=look_alikes(seen, openings, materials, build.model.units))


def pieces_of(build: Build) -> tuple[Piece, ...]:
    """Return the pieces of a structure without a look at which of them look alike."""
    return tuple(_piece(build, kind, look_of(kind.part)) for kind in kinds_of(build.parts, build.assembly))


def opening_names(build: Build, kind: Kind) -> tuple[str, ...]:
    """Return the names of the openings of a kind, in the order of its flat."""
    record = build.model.parts.get(kind.entry)
    openings = getattr(record.shape, "openings", ()) if record else ()
    return tuple(opening.name for opening in openings)


def _piece(build: Build, kind: Kind, look: Look | None) -> Piece:
    part, units = kind.part, build.model.units
    record = build.model.parts.get(kind.entry)
    material = record.material if record else None
    pattern = flat_pattern(part)
    metal = metal_of(part)
    density = density_of(material) if material else ASSUMED
    forward = build.model.forward if build.assembly.base in kind.placed else None
    # A part without dimensions has the holes that ``rows`` say of it.
    laid = build.assembly.placed[kind.placed[0]].laid if kind.placed and not part.pieces else ()
    told = how_it_lies(kind, look, opening_names(build, kind), forward, units) if look else ()
    return Piece(
        name=kind.name,
        shape=part.shape,
        placed=kind.placed,
        other_hand=part.mirrored,
        size=box_of(part),
        flat=pattern.size if pattern else None,
        thickness=pattern.thickness if pattern else getattr(record and record.shape, "thickness", None),
        material=material,
        weight=None if metal is None or density is None else metal * density.value / 1000,
        density=density,
        rows=_rows((*part.holes, *laid)),
        holes=len(single_holes(part)) + len(laid),
        odd=told,
        how_to_tell=record.how_to_tell if record else None,
        number=record.number if record else None,
        drawing=record.drawing if record else None,
    )


def _rows(holes: Iterable[Hole]) -> tuple[PileRow, ...]:
    found: dict[str, dict[float, list[int]]] = {}
    for hole in holes:
        found.setdefault(hole.row, {}).setdefault(round(hole.diameter, 3), []).append(hole.number)
    return tuple(
        PileRow(
            name=row,
            sizes=tuple(
                (diameter, tuple(numbers))
                for diameter, numbers in sorted(sizes.items(), key=lambda pair: (-len(pair[1]), pair[0]))
            ),
        )
        for row, sizes in found.items()
    )
