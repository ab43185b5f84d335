"""What a sequence file says, as typed records: the steps in reading order, and the builder's tools."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Known, Name

__all__ = [
    "Action",
    "BodyPiece",
    "HoleFilter",
    "LeaveOpen",
    "MovePins",
    "Note",
    "OpenNoLonger",
    "PinPattern",
    "Place",
    "PullPins",
    "Reach",
    "Rivet",
    "Sequence",
    "Step",
    "Tool",
    "TurnOver",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class PinPattern:
    """Where pins go: ``all``, ``none``, ``ends and every N`` (``every``), or the holes listed."""

    kind: str
    every: int | None
    holes: tuple[HoleChoice, ...]
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """``place``: parts in the order written, then pins. ``pins_from``: a side of the base, None: that up."""

    names: tuple[Name, ...]
    pins: PinPattern | None
    pins_from: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PullPins:
    """``pull pins``."""

    holes: tuple[HoleChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePins:
    """``move pins``: to the other side (``to``: upper, lower, ...), same holes."""

    holes: tuple[HoleChoice, ...]
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleFilter:
    """What narrows a choice of holes down; what is None or empty does not narrow.

    Attributes
    ----------
    through
        Stacks that have at least these placed parts as layers.
    size, fastener
        A name in ``sizes``; the name of a fastener (``with``).
    forward_of
        A placed part's name, or (axis, value in mm) of the base frame.
    excluded
        Holes left out.
    """

    through: tuple[Name, ...] = ()
    size: Name | None = None
    fastener: Name | None = None
    forward_of: Name | tuple[str, float] | None = None
    excluded: tuple[HoleChoice, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rivet:
    """``rivet``. ``holes`` None: everything ready. ``head``: upper, lower, outside, inside, ``on PLACED``."""

    holes: tuple[HoleChoice, ...] | None
    narrowed: HoleFilter
    use: Name | None
    head: Name | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeaveOpen:
    """``leave open``. ``reason``: a placed part's name (open until it is placed) or any text."""

    holes: tuple[HoleChoice, ...]
    reason: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenNoLonger:
    """``open no longer``."""

    holes: tuple[HoleChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnOver:
    """``turn over``: ``sideways``, ``end over end``, or the ``side`` that is then up."""

    how: str
    side: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """``note``: words for the builder."""

    text: str


Action = Place | PullPins | MovePins | Rivet | LeaveOpen | OpenNoLonger | TurnOver | Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the sequence. ``at`` is the place of the action word. ``note``: words beside the action."""

    number: int
    action: Action
    at: At
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPiece:
    """A piece of a tool's body along the fastener's axis, ``start`` to ``end`` mm above the stack.

    ``diameter`` of a cylinder, or ``box`` (width, depth) mm centred on the axis.
    """

    start: float
    end: float
    diameter: float | None = None
    box: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """The straight corridor of hand and arm from the tool's back end; ``along``: axis, across or any."""

    diameter: float = 100.0
    length: float = 600.0
    along: str = "axis"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """One of the builder's tools. ``turns``: how many angles about the axis; ``tilt``: degrees, up to 5."""

    name: str
    kind: str
    body: tuple[BodyPiece, ...]
    turns: int
    tilt: float
    reach: Reach
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """A whole sequence file.

    Attributes
    ----------
    model
        The path of the model file as reached from the path given, or None where it could not be read.
    up
        The side of the base that is up at first: upper, lower, left side, right side, forward end, aft end.
    bench
        ``flat`` or ``trestles``.
    tools
        None where the file names none: the built-in ones serve.
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
