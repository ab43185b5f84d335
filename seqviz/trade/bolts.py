"""AN bolts: grip and length by dash number, and the washers, nuts and threads that go with them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from seqviz.trade.rules import Rule, rule_lengths, rules
from seqviz.trade.tables import INCH, rows, same_size

__all__ = [
    "Bolt",
    "Nut",
    "Thread",
    "Washer",
    "bolt_rules",
    "bolts",
    "nuts",
    "series_of",
    "thread_of",
    "washers",
]

_TABLE = "bolt_rules"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt:
    """A bolt as the standard lists it: ``name`` (``AN3-5``), ``diameter``, ``grip`` and ``length`` in mm."""

    series: str
    dash: str
    name: str
    diameter: float
    grip: float
    length: float
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Washer:
    """A washer: ``thickness`` and ``outside`` diameter in mm; ``thin``: the half-thick one."""

    name: str
    thickness: float
    outside: float
    thin: bool
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Nut:
    """A nut and its ``height`` in mm."""

    name: str
    height: float
    citation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A thread (``10-32``) and its ``pitch``, mm."""

    name: str
    pitch: float
    citation: str


@cache
def bolts(series: str) -> tuple[Bolt, ...]:
    """Return the listed bolts of ``AN3`` to ``AN6``, the shortest first; () of another series."""
    wanted = series.replace(" ", "").upper()
    return tuple(
        Bolt(
            series=wanted,
            dash=row.text("dash"),
            name=f"{wanted}-{row.text('dash')}",
            diameter=row.mm("diameter"),
            grip=row.mm("grip"),
            length=row.mm("length"),
            citation=row.citation,
        )
        for row in rows("bolts")
        if row.text("bolt") == wanted
    )


def series_of(diameter: float) -> str | None:
    """Return the AN series of a shank of ``diameter`` mm (4.7625: ``AN3``), or None: AN3 to AN20."""
    (across,) = rule_lengths(_TABLE, "dash counts diameters in")
    dash = round(diameter / across)
    return f"AN{dash}" if 3 <= dash <= 20 and same_size(dash * across, diameter) else None


def bolt_rules(name: str) -> tuple[Rule, ...]:
    """Return what the sources say about ``name``, as in `seqviz.trade.rules.rules`."""
    return rules(_TABLE, name)


@cache
def washers(diameter: float) -> tuple[Washer, ...]:
    """Return the washers for a shank of ``diameter`` mm, the thick one first; () where none is listed."""
    return tuple(
        Washer(
            name=row.text("washer"),
            thickness=row.mm("thickness"),
            outside=row.mm("outside diameter"),
            thin=row.text("thin") == "yes",
            citation=row.citation,
        )
        for row in rows("washers")
        if same_size(row.mm("shank"), diameter)
    )


@cache
def nuts(diameter: float) -> tuple[Nut, ...]:
    """Return the nuts for a shank of ``diameter`` mm, the usual one first; () where none is listed."""
    return tuple(
        Nut(name=row.text("nut"), height=row.mm("height"), citation=row.citation)
        for row in rows("nuts")
        if same_size(row.mm("shank"), diameter)
    )


@cache
def thread_of(diameter: float) -> Thread | None:
    """Return the usual thread of an AN bolt with a shank of ``diameter`` mm, or None."""
    for row in rows("threads"):
        if same_size(row.mm("diameter"), diameter):
            pitch = INCH / row.number("threads per inch")
            return Thread(name=row.text("thread"), pitch=pitch, citation=row.citation)
    return None
