"""What a model file says of the work on a long bent part: kinks, joggles, cut ends, end tabs, notches."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At

__all__ = ["UNWORKED", "Corner", "EndCut", "EndTab", "Joggle", "Kink", "Notch", "Work"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kink:
    """At ``x`` mm ``flat`` is folded about a line square to x, ``angle`` degrees ``towards`` a face of it."""

    x: float
    angle: float
    flat: str | None
    towards: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Joggle:
    """A stretch of the part is offset square to ``flat`` by ``depth`` mm ``towards`` a face of it.

    ``end`` is ``start`` or ``end`` and ``length`` how much of it is offset in full, mm; or the stretch
    reaches from ``start`` to ``stop`` on x. ``run`` is the length of each ramp, which comes on top.
    """

    end: str | None
    length: float | None
    start: float | None
    stop: float | None
    depth: float
    run: float
    flat: str | None
    towards: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A corner cut off: ``along`` x and ``across`` from the flat's edge, mm."""

    along: float
    across: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCut:
    """How the ``end`` (``start``, ``end``) of a flat is cut: degrees off square, or a corner cut off.

    ``flat`` None: every flat with a free edge. Above 0 the part is shorter where the flat's y is greater.
    """

    end: str
    flat: str | None
    cut: float | Corner
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class EndTab:
    """``flat`` reaches ``length`` mm beyond its ``end``, over ``width`` of it from y = ``across`` on, mm."""

    end: str
    flat: str
    length: float
    width: float | None
    across: float | None
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """What is cut away between ``start`` and ``stop`` on x, mm.

    One of ``flats``: from its free edge inward, ``depth`` deep; without a depth all of it and its bend. Two:
    through the bend between them, as deep on each as ``depth`` says, from the outer corner.
    """

    flats: tuple[str, ...]
    start: float
    stop: float
    depth: tuple[float, ...]
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """All the work on one part."""

    kinks: tuple[Kink, ...] = ()
    joggles: tuple[Joggle, ...] = ()
    cuts: tuple[EndCut, ...] = ()
    tabs: tuple[EndTab, ...] = ()
    notches: tuple[Notch, ...] = ()


UNWORKED = Work()
"""A part as it comes from the brake."""
