"""The placed structure: parts with their poses, hole stacks, what sits on what; base frame, mm."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from seqviz.findings import At
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.solids import Solids, solids_of
from seqviz.parts.part import Column, Hole, Part
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choose import choice_for
from seqviz.trade.supply import Supply

__all__ = ["CLEAR", "Assembly", "Contact", "Layer", "PlacedPart", "Stack"]

CLEAR = 3.0
"""mm: a clear space wider than this ends a stack, unless its row says that it crosses."""


@dataclass(frozen=True, kw_only=True, eq=False)
class PlacedPart:
    """One occurrence of a part in the structure.

    Attributes
    ----------
    name
        As in the file, with `` left`` or `` right`` where one entry makes two.
    pose
        The part's frame seen from the base's.
    depth
        How many matches away from the base; the base has 0.
    side
        ``(3,)`` outward unit normal of the target's face that it lies on (the base: +z).
    free
        True where its holes left it free along ``side``, so that the height rule put it there.
    at
        Where its entry stands (the base: its part's entry).
    located
        False where nobody said where it stands: it has no pieces and no flats, and its pose means nothing.
    laid
        Holes that only ``rows`` name: their number, size and place in the file count, not their centre. No
        question of geometry looks at them.
    sheet
        mm, the thickness of its layers at those holes.
    """

    name: str
    part: Part
    pose: Pose
    depth: int
    side: Array
    free: bool
    at: At
    located: bool = True
    laid: tuple[Hole, ...] = ()
    sheet: float = 0.0

    @property
    def holes(self) -> tuple[Hole, ...]:
        """All holes that have a name: the part's own, then those of ``rows``."""
        return (*self.part.holes, *self.laid)

    @cached_property
    def by_name(self) -> dict[str, Hole]:
        """All holes, by ``ROW.N``."""
        return {hole.name: hole for hole in self.holes}

    @cached_property
    def rows(self) -> dict[str, tuple[Hole, ...]]:
        """The part's own holes, row by row."""
        rows: dict[str, list[Hole]] = {}
        for hole in self.part.holes:
            rows.setdefault(hole.row, []).append(hole)
        return {name: tuple(holes) for name, holes in rows.items()}

    @cached_property
    def solids(self) -> Solids:
        """The convex pieces where they stand in the structure."""
        return solids_of(self.part.pieces).moved(self.pose)

    @cached_property
    def box(self) -> tuple[Array, Array]:
        """The lowest and highest corner, ``(3,)`` mm, of the box around its solids."""
        return frozen(self.solids.low.min(axis=0)), frozen(self.solids.high.max(axis=0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One part's thickness in a hole stack.

    Attributes
    ----------
    part, hole
        The placed part; its hole as ``PLACED.ROW.N``, or None where the part is solid there: undrilled.
    top, bottom
        mm along the stack's axis, measured from its ``point``; top > bottom.
    column
        Of another model as one piece: what the hole goes through in it.
    """

    part: str
    hole: str | None
    top: float
    bottom: float
    column: Column | None = None

    @property
    def loose(self) -> int:
        """How many layers it counts as that nothing holds together yet."""
        return self.column.loose if self.column else 1

    @property
    def thickness(self) -> float:
        """Thickness along the axis, mm."""
        return self.top - self.bottom


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stack:
    """The holes that share an axis, with everything solid that the axis crosses there.

    Attributes
    ----------
    index
        Its place in ``Assembly.stacks``.
    point, axis
        ``(3,)`` a point on the axis, and the unit vector from the last layer towards layer 1.
    layers
        Layer 1 first: the one under the manufactured head unless a step says otherwise.
    holes
        All hole names, second names of the same hole included; the first is the farthest from the base.
    diameter
        mm, of the smallest hole.
    size
        The size's name where the holes have one and agree, else the one of the hole farthest from the base.
    fastener
        Name of the fastener that goes in, None where nobody said.
    pin
        mm, diameter of the largest round pin that goes through all layers.
    located
        False where ``rows`` say the layers and not all of them have a place: thicknesses and order count,
        ``point`` means nothing, and ``axis`` is the base's upper side.
    supply
        In which lengths the fastener is to be had; None: nobody said which fastener, or it is unknown.
    countersunk
        Whether one of the holes wants the manufactured head flush in the layer under it.
    head_end
        The end at which a row says that the head lies flush: +1 layer 1's, -1 the other; None: not said.
    """

    index: int
    point: Array
    axis: Array
    layers: tuple[Layer, ...]
    holes: tuple[str, ...]
    diameter: float
    size: str | None
    fastener: str | None
    pin: float
    located: bool = True
    supply: Supply | None = None
    countersunk: bool = False
    head_end: int | None = None

    @property
    def choice(self) -> LengthChoice | None:
        """What is taken of the fastener for this grip; None: it is unknown, or there is nothing to join."""
        return choice_for(self.supply, self.clamped) if self.supply and self.joins else None

    @property
    def length(self) -> float | None:
        """The length of fastener, mm, that fits the grip; None: none does, nobody knows, or no joint."""
        return self.choice.length if self.choice else None

    @property
    def joins(self) -> bool:
        """Say whether a fastener holds anything together there: two layers or more."""
        return sum(layer.loose for layer in self.layers) > 1

    @property
    def parts(self) -> tuple[str, ...]:
        """Placed parts, layer 1 first."""
        return tuple(layer.part for layer in self.layers)

    @property
    def grip(self) -> float:
        """Sum of the layers, mm; gaps add nothing."""
        return sum(layer.thickness for layer in self.layers)

    @property
    def clamped(self) -> float:
        """What the fastener must reach through, mm: the grip, and the room between walls that it crosses."""
        return self.grip + sum(gap for gap in self.gaps if gap > CLEAR)

    @property
    def gaps(self) -> tuple[float, ...]:
        """Clear space below each layer but the last, mm."""
        return tuple(a.bottom - b.top for a, b in zip(self.layers, self.layers[1:], strict=False))


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """One region in which ``upper`` sits on ``lower``: area in mm2, gap in mm."""

    upper: str
    lower: str
    area: float
    gap: float


@dataclass(frozen=True, kw_only=True, eq=False)
class Assembly:
    """The placed structure.

    Attributes
    ----------
    placed
        By name, the base first; parts that could not be placed are not in it.
    muted
        Placed parts about which a finding has been made that spoils what depends on them.
    stacks, stack_of
        All hole stacks; hole name -> index, second names included.
    contacts
        Sits-on regions.
    up, forward
        ``(3,)`` the base's upper side (+z) and the forward direction.
    """

    base: str
    placed: dict[str, PlacedPart]
    muted: frozenset[str]
    stacks: tuple[Stack, ...]
    stack_of: dict[str, int]
    contacts: tuple[Contact, ...]
    up: Array
    forward: Array

    @cached_property
    def unmeasured(self) -> tuple[str, ...]:
        """Placed parts that have no place, or holes without one: no geometry is checked there."""
        return tuple(
            name
            for name, part in self.placed.items()
            if not part.located or any(not self._stands(part, hole) for hole in part.laid)
        )

    def _stands(self, part: PlacedPart, hole: Hole) -> bool:
        """Say whether a hole of ``rows`` is another name of one that the part has of its own."""
        index = self.stack_of.get(f"{part.name}.{hole.name}")
        own = {f"{part.name}.{mine.name}" for mine in part.part.holes}
        return index is not None and not own.isdisjoint(self.stacks[index].holes)

    def measured_to(self, parts: Iterable[str]) -> float:
        """Return how far the loosest measured of the placed ``parts`` may be off, mm."""
        return max((self.placed[name].part.measured_to for name in parts), default=0.0)

    @cached_property
    def stacks_of_part(self) -> dict[str, tuple[int, ...]]:
        """Placed part -> indices of the stacks in which it is a layer."""
        found: dict[str, list[int]] = {name: [] for name in self.placed}
        for stack in self.stacks:
            for part in dict.fromkeys(stack.parts):
                found[part].append(stack.index)
        return {name: tuple(indices) for name, indices in found.items()}
