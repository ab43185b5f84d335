"""A whole sequence to be played forth and back, as data: for the page, the window and moving pictures."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.geometry.pose import Array
from seqviz.geometry.prism import Piece
from seqviz.scene.picture import Scene

__all__ = ["Conflict", "Film", "Fixed", "Moment", "Move"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Move:
    """A part on its way in or out.

    Attributes
    ----------
    part
        The placed part.
    piece
        What it moves as: itself, or the sub-assembly that it is a member of.
    path
        ``(n, 3)`` mm, base frame: how far it is off its place, from outside (first) to zeros (last). Straight
        between; two points, or three of a way in two moves. Zeros alone where no way is known, and of the
        first part on an empty bench.
    leaves
        True where it is taken off: it goes along ``path`` from the last point to the first.
    """

    part: str
    piece: str
    path: Array
    leaves: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fixed:
    """A head, a tail or a pin's body in its final place; it moves with the part that it is on.

    Attributes
    ----------
    stack
        Index of its hole stack.
    part
        The placed part on whose face it stands.
    kind
        ``head``, ``tail`` or ``pin``.
    point, outward
        ``(3,)`` mm and unit vector, base frame: where it stands and where to.
    diameter, height
        mm.
    """

    stack: int
    part: str
    kind: str
    point: Array
    outward: Array
    diameter: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moment:
    """One step of a film.

    Attributes
    ----------
    scene
        Its still picture; items are what is there in its work.
    moves
        What comes or goes, in the order in which it does.
    fixed_before, fixed
        Indices into `Film.fixed`, rising: what stands in the holes of that work before and after the step.
    """

    scene: Scene
    moves: tuple[Move, ...]
    fixed_before: tuple[int, ...]
    fixed: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Film:
    """All steps; everything round that is ever in a hole stands in ``fixed`` once."""

    moments: tuple[Moment, ...]
    fixed: tuple[Fixed, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Conflict:
    """Where a finding is, and what to show of it.

    Attributes
    ----------
    spot
        ``(3,)`` mm, base frame: where to look.
    step
        The step after whose placings it is looked at; 0: the whole structure, without a sequence.
    parts
        Placed parts that are concerned.
    blockers
        Those of them that are in the way.
    tool
        Convex pieces, base frame: the tool, with its reach, where it would have to be; empty: it is not
        about a tool.
    path
        As of `Move`: the way that is barred; None: it is not about a way.
    """

    spot: Array
    step: int
    parts: tuple[str, ...]
    blockers: tuple[str, ...]
    tool: tuple[Piece, ...]
    path: Array | None
