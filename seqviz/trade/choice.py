"""Which length of a fastener goes into a grip, and what belongs to it: rivets, by range or by rule."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from seqviz.trade.bolts import Nut, Washer
from seqviz.trade.fasteners import BLIND_RIVET, SOLID_RIVET, Fastener
from seqviz.trade.formed_heads import FormedHead, formed_head_minimum, formed_head_target
from seqviz.trade.solid_rivets import allowances, dash_number, length_steps
from seqviz.trade.supply import MAKER, GripRange, Lengths, Supply, supply_of
from seqviz.trade.tables import INCH

__all__ = ["LengthChoice", "Verdict", "blind_choice", "in_range", "solid_choice", "solid_of"]

Verdict = Literal["fits", "not known", "not listed", "out of range"]
"""``not known``: nobody says which lengths there are; ``not listed``: our copy of the table ends before;
``out of range``: the lengths are known, and none is made for this grip."""

_EQUAL = 1e-6  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthChoice:
    """What to take for a grip; all lengths in mm.

    Attributes
    ----------
    kind, diameter, grip
        The fastener, and what it clamps.
    length
        Of what is taken; None where none fits, or the table gives a number only.
    number
        As the standard writes it: ``4-5`` (1/8 by 5/16 in), ``42``, ``AN3-5``; empty where it has none.
    wanted
        Of a solid rivet: grip and 1.5 D.
    taken
        The range that holds the grip.
    between
        The grip lies between two printed ranges, closer than their last digit: the longer one counts.
    below, above
        Where none holds it: the nearest ranges.
    longest
        The longest of a solid rivet's lengths, or the last grip of a table, where the grip is beyond it.
    target, minimum
        Of a solid rivet: the formed head to aim for, and the least that will do.
    bolt_grip, washers, nut
        Of a bolt: its grip, what goes under the nut in this order, and the nut.
    threads_in_hole, threads_showing
        Of a bolt, in threads.
    source
        Where the answer comes from, each source once.
    makers
        Whether it comes from the maker's data.
    """

    kind: str
    diameter: float
    grip: float
    verdict: Verdict
    length: float | None = None
    number: str = ""
    wanted: float | None = None
    taken: GripRange | None = None
    between: bool = False
    below: GripRange | None = None
    above: GripRange | None = None
    longest: float | None = None
    target: FormedHead | None = None
    minimum: FormedHead | None = None
    bolt_grip: float | None = None
    washers: tuple[Washer, ...] = ()
    nut: Nut | None = None
    threads_in_hole: float = 0.0
    threads_showing: float | None = None
    source: str = ""
    makers: bool = False


def blind_choice(diameter: float, grip: float, lengths: Lengths = ()) -> LengthChoice:
    """Return the blind rivet for a grip, mm; ``lengths``: the maker's (length, grip from, grip to).

    Without them by the published tables. Never outside a range.
    """
    return in_range(supply_of(Fastener(kind=BLIND_RIVET, diameter=diameter), tuple(lengths)), grip)


def solid_choice(
    diameter: float, grip: float, half_sizes: bool = False, lengths: Sequence[float] = ()
) -> LengthChoice:
    """Return the solid rivet for a grip, mm: grip and 1.5 D, rounded up.

    Parameters
    ----------
    half_sizes
        Round up to 1/32 in instead of 1/16.
    lengths
        mm: those that the maker lists; the next longer one is taken.
    """
    fastener = Fastener(kind=SOLID_RIVET, diameter=diameter)
    return solid_of(supply_of(fastener, (), tuple(lengths), half_sizes), grip)


@lru_cache(maxsize=4096)
def in_range(supply: Supply, grip: float) -> LengthChoice:
    """Return the shortest length whose range holds ``grip``, mm."""
    bare = _bare(supply, grip)
    if not supply.ranges:
        return bare
    fitting = [one for one in supply.ranges if one.low - _EQUAL <= grip <= one.high + _EQUAL]
    below = max((one for one in supply.ranges if one.high < grip), key=lambda one: one.high, default=None)
    above = min((one for one in supply.ranges if one.low > grip), key=lambda one: one.low, default=None)
    between = bool(not fitting and below and above and above.low - below.high <= supply.printed + _EQUAL)
    taken = min(fitting, key=lambda one: one.length or one.high, default=above if between else None)
    if taken is None:
        source = supply.ranges[0].source
        return replace(bare, verdict="out of range", below=below, above=above, source=source)
    return replace(
        bare,
        verdict="fits",
        length=taken.length,
        number=taken.number,
        taken=taken,
        between=between,
        below=below if between else None,
        source=taken.source,
    )


@lru_cache(maxsize=4096)
def solid_of(supply: Supply, grip: float) -> LengthChoice:
    """Return the solid rivet for ``grip``, mm: by the maker's grips, of the maker's lengths, or by number."""
    rule, *_ = allowances()
    diameter = supply.fastener.diameter
    wanted = grip + rule.value * diameter
    if supply.ranges:
        return replace(in_range(supply, grip), wanted=wanted)
    bare = replace(_bare(supply, grip), wanted=wanted, source=rule.citation)
    if supply.lengths:
        long_enough = [one for one in supply.lengths if one >= wanted - _EQUAL]
        if long_enough:
            return replace(bare, verdict="fits", length=long_enough[0])
        return replace(bare, verdict="out of range", longest=supply.lengths[-1])
    step = length_steps(supply.half_sizes)
    length = math.ceil(wanted / (step.value * INCH) - _EQUAL) * step.value * INCH
    number = dash_number(diameter, length)
    if number is None:
        return bare
    source = f"{rule.citation}; rounded up by {step.citation}"
    return replace(bare, verdict="fits", length=length, number=number, source=source)


def _bare(supply: Supply, grip: float) -> LengthChoice:
    """Return the choice as long as nothing is known."""
    fastener = supply.fastener
    solid = fastener.kind == SOLID_RIVET
    makers = bool(supply.lengths) or any(one.source == MAKER for one in supply.ranges)
    return LengthChoice(
        kind=fastener.kind,
        diameter=fastener.diameter,
        grip=grip,
        verdict="not known",
        target=formed_head_target(fastener.diameter) if solid else None,
        minimum=formed_head_minimum(fastener.diameter) if solid else None,
        makers=makers,
    )
