"""What was chosen, in a few words: what to take, why, and between which grips nothing is made."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from seqviz.trade.bolts import Washer
from seqviz.trade.choice import LengthChoice
from seqviz.trade.fasteners import BOLT, SOLID_RIVET
from seqviz.trade.solid_rivets import allowances
from seqviz.trade.supply import GripRange
from seqviz.trade.tables import INCH
from seqviz.units import length_text

__all__ = [
    "allowance",
    "named_take",
    "nearest_words",
    "plain",
    "range_name",
    "short_why",
    "span",
    "take_words",
    "washer_words",
]

_FINEST = 64  # of an inch: what people write as a fraction
_EQUAL = 1e-6


def take_words(choice: LengthChoice, units: str) -> str:
    """Return ``length 6``, ``length 5/16 in (4-5)``, ``number 42``, ``AN3-5, 1 washer``, or nothing."""
    if choice.verdict == "out of range":
        return "no length fits"
    if choice.verdict != "fits":
        return ""
    if choice.kind == BOLT and choice.number:
        return f"{choice.number}, {washer_words(choice.washers)}"
    if choice.kind == SOLID_RIVET and choice.number:
        return f"length {_inches(choice.length or 0.0)} ({choice.number})"
    return f"number {choice.number}" if choice.number else f"length {plain(choice.length or 0.0, units)}"


def named_take(name: str, take: str, joint: str = " ") -> str:
    """Return ``pull 3.2 length 6``; ``bolt AN3-5, 1 washer`` and not ``bolt AN3 AN3-5, 1 washer``."""
    head, _, last = name.rpartition(" ")
    if last and take.casefold().startswith(f"{last.casefold()}-"):
        return f"{head} {take}".strip()
    return f"{name}{joint}{take}" if take else name


def short_why(choice: LengthChoice, units: str) -> str:
    """Return why in a few words: ``grips 1.5 to 3.5``, ``grip + 1.5 D = 7.2``; nothing where nobody knows."""
    if choice.taken is not None:
        return f"grips {span(choice.taken.low, choice.taken.high, units)}"
    if choice.bolt_grip is not None:
        return f"its grip {plain(choice.bolt_grip, units)}, {choice.threads_showing or 0.0:.1f} threads show"
    if choice.verdict == "not listed":
        return f"the table ends with {choice.number}"
    if choice.longest is not None and choice.wanted is not None:
        return f"wants {plain(choice.wanted, units)}, the longest is {plain(choice.longest, units)}"
    if choice.verdict == "out of range":
        return nearest_words(choice, units)
    return f"grip + {allowance()} D = {plain(choice.wanted, units)}" if choice.wanted is not None else ""


def nearest_words(choice: LengthChoice, units: str) -> str:
    """Return ``length 6 ends at 3.5, length 8 begins at 4``: the ranges on both sides of the grip."""
    told = []
    if choice.below is not None:
        last = "" if choice.above else "the longest, "
        told.append(f"{last}{range_name(choice.below, units)}, ends at {plain(choice.below.high, units)}")
    if choice.above is not None:
        first = "" if choice.below else "the shortest, "
        told.append(f"{first}{range_name(choice.above, units)}, begins at {plain(choice.above.low, units)}")
    if len(told) == 2:
        told = [words.replace(", ends", " ends").replace(", begins", " begins") for words in told]
    return ", ".join(told)


def range_name(one: GripRange, units: str) -> str:
    """Return ``length 6`` or ``number 42``."""
    return f"number {one.number}" if one.number else f"length {plain(one.length or 0.0, units)}"


def washer_words(washers: Iterable[Washer]) -> str:
    """Return ``1 washer``, ``1 thin washer``, ``1 washer and 1 thin washer``."""
    listed = list(washers)
    told = []
    for thin in (False, True):
        count = sum(one.thin == thin for one in listed)
        if count:
            told.append(f"{count} {'thin ' if thin else ''}washer{'' if count == 1 else 's'}")
    return " and ".join(told)


def allowance() -> str:
    """Return the diameters that a solid rivet stands out before it is driven: ``1.5``."""
    return f"{allowances()[0].value:g}"


def span(low: float, high: float, units: str) -> str:
    """Return ``1.5 to 3.5``, ``0.063 to 0.125 in``: the unit once."""
    return f"{plain(low, units).removesuffix(' in')} to {plain(high, units)}"


def plain(millimetres: float, units: str) -> str:
    """Return a length: mm without a unit, inches with theirs."""
    return length_text(millimetres, units).removesuffix(" mm")


def _inches(millimetres: float) -> str:
    """Return ``5/16 in``; what is no fraction that people write, as a decimal."""
    parts = millimetres / INCH * _FINEST
    if abs(parts - round(parts)) > _EQUAL:
        return length_text(millimetres, "in")
    whole, rest = divmod(Fraction(round(parts), _FINEST), 1)
    told = [str(whole)] if whole or not rest else []
    return f"{' '.join([*told, str(rest)] if rest else told)} in"
