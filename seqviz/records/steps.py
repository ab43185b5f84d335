"""What a sequence file says, as typed records: the steps in reading order, and the builder's tools."""

from __future__ import annotations

from dataclasses import dataclass, field

from seqviz.findings import At
from seqviz.records.action_types import (
    Action,
    Bolt,
    Drill,
    DrillOut,
    HoldPoint,
    HoleFilter,
    LeaveOpen,
    MovePins,
    Note,
    OpenNoLonger,
    PinPattern,
    Place,
    Prepare,
    PullPins,
    PutPins,
    Rivet,
    TakeOff,
    TurnOver,
)
from seqviz.records.model import Known, Name

__all__ = [
    "Action",
    "Apart",
    "BodyPiece",
    "Bolt",
    "Drill",
    "DrillOut",
    "HoldPoint",
    "HoleFilter",
    "LeaveOpen",
    "MovePins",
    "Note",
    "OpenNoLonger",
    "PinPattern",
    "Place",
    "Prepare",
    "PullPins",
    "PutPins",
    "Reach",
    "Rivet",
    "Sequence",
    "Step",
    "TakeOff",
    "Tool",
    "TurnOver",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the sequence.

    ``at`` is the place of the action word. ``note``: words beside the action. ``work``: the sub-assembly on
    which it is done, None: the main work.
    """

    number: int
    action: Action
    at: At
    note: str | None = None
    work: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """``apart``: a sub-assembly that is joined for itself and then placed as one piece, by its name.

    Attributes
    ----------
    inside
        The sub-assembly within which it is joined, None: the main work.
    up
        The flat of a placed part that faces up at first, and which of its faces; None: see ``up_side``.
    up_side
        The side of the base that faces up at first, as the parts stand in the structure; None as well: as in
        the main work.
    bench
        ``flat``, ``trestles`` or ``blocks``; None: as the main work.
    over_the_edge
        Placed parts that stand out over the bench's edge at first.
    first, last
        Numbers of its first and last step, those of sub-assemblies within it included; first > last: none.
    at, name_at
        Places of the word ``apart`` and of the name behind it.
    finished_at
        Where ``finished: yes`` stands in a file of its own, else None.
    note
        Words beside it.
    """

    name: str
    inside: str | None
    up: tuple[Name, str, str] | None
    bench: str | None
    first: int
    last: int
    at: At
    name_at: At | None = None
    finished_at: At | None = None
    up_side: str | None = None
    over_the_edge: tuple[Name, ...] = ()
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPiece:
    """A piece of a tool's body along the fastener's axis, ``start`` to ``end`` mm above the stack.

    ``diameter`` of a cylinder, or ``box`` (width, depth) mm. Its middle stands ``offset`` mm beside the axis,
    in the direction of the tool's turn; the width of a box lies in that direction too.
    """

    start: float
    end: float
    diameter: float | None = None
    box: tuple[float, float] | None = None
    offset: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """The straight corridor of hand and arm from the tool's back end; ``along``: axis, across or any."""

    diameter: float = 100.0
    length: float = 600.0
    along: str = "axis"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """One of the builder's tools. ``turns``: how many angles about the axis; ``tilt``: degrees, up to 5.

    ``kind``: what it sets: ``blind rivet``, ``solid rivet`` or ``bolt``. ``end``: where it works on a solid
    rivet or bolt: ``head``, ``tail`` or ``either``. ``swing``: degrees that a wrench must have to turn in,
    0: none. ``note``: words such as "typical, measure your own".
    """

    name: str
    kind: str
    body: tuple[BodyPiece, ...]
    turns: int
    tilt: float
    reach: Reach
    at: At
    end: str = "either"
    swing: float = 0.0
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """A whole sequence file.

    Attributes
    ----------
    model
        The path of the model file as reached from the path given, or None where it could not be read.
    up
        The side of the base that is up at first: upper, lower, left side, right side, forward end, aft end.
    up_flat
        Instead of a side: the flat of a placed part that faces up at first, and which of its faces (of a file
        that is a sub-assembly); ``up`` is ``upper`` then.
    bench
        ``flat``, ``trestles`` or ``blocks``; only a flat one closes what faces it.
    tools
        None where the file names none: the built-in ones serve.
    apart
        The sub-assemblies, in reading order.
    pins_owned
        How many pins there are, by the size of the hole.
    over_the_edge
        Placed parts that stand out over the bench's edge at first.
    broken
        Numbers of steps that could not be read and are left out; the others keep their numbers.
        0: the words above the steps (up, bench, tools) could not be read.
    """

    path: str
    model: str | None
    up: str
    bench: str
    finished: bool
    finished_at: At | None
    tools: tuple[Tool, ...] | None
    steps: tuple[Step, ...]
    known: tuple[Known, ...]
    at: At
    broken: tuple[int, ...] = ()
    apart: tuple[Apart, ...] = ()
    pins_owned: dict[str, int] = field(default_factory=dict)
    over_the_edge: tuple[Name, ...] = ()
    up_flat: tuple[Name, str, str] | None = None
