"""What a step picture shows, as data: nothing here knows how pixels are made. Base frame, mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from seqviz.geometry.pose import Array, Pose
from seqviz.parts.part import Part
from seqviz.scene.words import Words

__all__ = ["Arrow", "End", "Fitted", "Item", "Label", "Mark", "MarkKind", "Role", "Scene", "Turn"]

Role = Literal["there", "new"]
MarkKind = Literal["set", "pin in", "pin out", "leave open", "still open", "open again", "drill", "drill out"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Item:
    """One placed part in the picture.

    Attributes
    ----------
    name
        The placed part.
    part
        Its shape; also the key under which a renderer keeps its mesh.
    pose
        Where it belongs: the part's frame seen from the base's.
    role
        ``there`` before this step, or ``new`` with it.
    shift
        ``(3,)`` mm, how far it is drawn back from where it belongs; zeros for what is there.
    """

    name: str
    part: Part
    pose: Pose
    role: Role
    shift: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class End:
    """One end of a hole stack: the middle of the hole on the face of its outermost part.

    Attributes
    ----------
    point
        ``(3,)`` mm, where it is drawn: shifted with the part that it is on.
    outward
        ``(3,)`` unit vector out of that face.
    part
        The placed part whose face it is.
    """

    point: Array
    outward: Array
    part: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mark:
    """A hole that this step is about.

    Attributes
    ----------
    stack
        Index of its hole stack.
    kind
        What happens in it. ``still open``: nothing, it stays open through this step.
    diameter
        mm, of the hole.
    ends
        The end worked from, then the other one. A picture shows the first of them that it sees.
    """

    stack: int
    kind: MarkKind
    diameter: float
    ends: tuple[End, End]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fitted:
    """A round thing that an earlier step put on the end of a stack: a head, a tail, or a pin's body.

    Attributes
    ----------
    stack
        Index of its hole stack.
    point, outward
        ``(3,)`` mm and unit vector: where it stands and where to.
    diameter, height
        mm.
    pin
        True for a temporary fastener.
    """

    stack: int
    point: Array
    outward: Array
    diameter: float
    height: float
    pin: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Arrow:
    """The way in of a new part.

    Attributes
    ----------
    part
        The placed part.
    anchors
        ``(n, 3)`` mm, points of the part where it is drawn, from its middle outwards: the arrow leaves one.
    way
        ``(3,)`` mm, from where it is drawn to where it belongs.
    guides
        ``(n, 3)`` mm, holes of the part where it is drawn; each goes along ``way`` to its place.
    """

    part: str
    anchors: Array
    way: Array
    guides: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A placed part to be named in the picture. ``wanted``: always; otherwise where there is room."""

    part: str
    wanted: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Turn:
    """The work was turned, right-handed about ``axis`` (unit vector); ``before`` faced up until then."""

    axis: Array
    before: Array


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """One step's picture.

    Attributes
    ----------
    number
        The step's number.
    items, fitted, marks, arrows, labels
        What is drawn.
    words
        The step in plain sentences.
    up, forward
        ``(3,)`` unit vectors: what faces up on the bench, and the model's forward direction.
    up_name
        ``upper side``, ``left side``, ...: what faces up, in words.
    turn
        Where this step turned the work over.
    undrawn
        Placed parts that are there and have no dimensions yet, so that nothing can be drawn of them.
    """

    number: int
    items: tuple[Item, ...]
    fitted: tuple[Fitted, ...]
    marks: tuple[Mark, ...]
    arrows: tuple[Arrow, ...]
    labels: tuple[Label, ...]
    words: Words
    up: Array
    forward: Array
    up_name: str
    turn: Turn | None
    undrawn: tuple[str, ...] = ()

    @property
    def new(self) -> tuple[str, ...]:
        """Names of the parts that come with this step."""
        return tuple(item.name for item in self.items if item.role == "new")

    @property
    def bare(self) -> bool:
        """Say whether there is no picture, because nothing that is there has dimensions."""
        return not self.items and bool(self.undrawn)
