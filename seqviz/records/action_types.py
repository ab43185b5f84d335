"""What a step does, as typed records: one a kind of action."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Name

__all__ = [
    "Action",
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
    "Rivet",
    "TakeOff",
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
    """``move pins``: same holes, to another side (``to``: upper, lower, ...)."""

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
    """``turn over``: ``sideways``, ``end over end``, or the ``side`` that is then up.

    ``bench``: what the work lies on from then on (flat, trestles, blocks), None: as before.
    ``over_the_edge``: placed parts that stand out over the bench's edge then: it closes nothing at them.
    """

    how: str
    side: str | None = None
    bench: str | None = None
    over_the_edge: tuple[Name, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """``note``: words for the builder."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOff:
    """``take off``: parts or sub-assemblies that come off again, in the order written."""

    names: tuple[Name, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PutPins:
    """``pins`` as a step of its own: in the rows of the parts ``of`` (empty: of those just placed)."""

    pattern: PinPattern
    pins_from: str | None
    of: tuple[Name, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """``drill``: through every layer that is there under the hole.

    Attributes
    ----------
    holes
        The holes, or with ``template`` those that lie under the template's.
    template
        Row of a placed template (a part with ``tool: yes``) through whose holes the drill is led, or None.
    to
        ``final`` where a pilot is opened to its size, ``pilot`` where only the pilot is drilled, None: as the
        row says.
    """

    holes: tuple[HoleChoice, ...]
    narrowed: HoleFilter
    template: HoleChoice | None
    to: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepare:
    """``deburr``, ``prime`` or ``seal`` (``what``): placed parts, or holes, whichever was named.

    A surface between two parts is prepared once a step has prepared either part whole, or holes of both.
    """

    what: str
    names: tuple[Name, ...]
    holes: tuple[HoleChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt:
    """``bolt``: as ``rivet``; ``finger_tight``: the nut is run on and tightened by a later ``bolt`` step."""

    holes: tuple[HoleChoice, ...] | None
    narrowed: HoleFilter
    use: Name | None
    head: Name | None
    finger_tight: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillOut:
    """``drill out``: set fasteners that are taken out again; their holes are empty then."""

    holes: tuple[HoleChoice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldPoint:
    """``check``, ``inspect`` or ``fit`` (``what``): work stops until it is done.

    ``text``: what is looked at; ``who``: by whom; ``value``: what must come out, as written.
    """

    what: str
    text: str
    who: str | None
    value: str | None


Action = (
    Place
    | TakeOff
    | PutPins
    | PullPins
    | MovePins
    | Drill
    | Prepare
    | Rivet
    | Bolt
    | DrillOut
    | LeaveOpen
    | OpenNoLonger
    | TurnOver
    | HoldPoint
    | Note
)
