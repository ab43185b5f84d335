"""Which bolt goes into a grip: how much shank, how many washers and where, how many threads show."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import combinations_with_replacement

from seqviz.trade.bolts import (
    Bolt,
    Nut,
    Thread,
    Washer,
    bolt_rules,
    bolts,
    nuts,
    series_of,
    thread_of,
    washers,
)
from seqviz.trade.choice import LengthChoice, in_range
from seqviz.trade.fasteners import BOLT
from seqviz.trade.heads import CUSTOM, washer_height
from seqviz.trade.supply import Supply

__all__ = ["bolt_choice", "bolt_of"]

_EQUAL = 1e-6  # mm
_AS_NEAR = 3  # decimals of a mm: grips that are as far from the stack


def bolt_choice(series: str, grip: float) -> LengthChoice:
    """Return the bolt of ``AN3`` to ``AN6`` for a stack of ``grip`` mm.

    Raises
    ------
    KeyError
        The series is not in the table.
    """
    listed = bolts(series)
    if not listed:
        raise KeyError(series)
    return _by_table(listed, listed[0].diameter, grip)


@lru_cache(maxsize=4096)
def bolt_of(supply: Supply, grip: float) -> LengthChoice:
    """Return the bolt for a stack of ``grip`` mm: by its maker's grips, else the AN bolt of that shank."""
    diameter = supply.fastener.diameter
    series = series_of(diameter)
    listed = bolts(series) if series and not supply.ranges else ()
    if listed:
        return _by_table(listed, diameter, grip)
    thick = washers(diameter)[:1] or (_plain_washer(diameter),)
    return replace(in_range(supply, grip), washers=thick, nut=next(iter(nuts(diameter)), None))


def _plain_washer(diameter: float) -> Washer:
    return Washer(name="", thickness=washer_height(diameter), outside=0.0, thin=False, citation=CUSTOM)


def _by_table(listed: tuple[Bolt, ...], diameter: float, grip: float) -> LengthChoice:
    """Return the bolt whose grip is nearest, of those that show threads by both rules, else by one."""
    fitting = [one for bolt in listed if (one := _with_washers(bolt, diameter, grip))]
    one_thread, both = (rule.value for rule in bolt_rules("threads beyond the nut, at least"))
    for least in (both, one_thread):
        enough = [one for one in fitting if (one.threads_showing or 0.0) >= least - _EQUAL]
        if enough:
            return min(enough, key=_farness)
    bare = LengthChoice(kind=BOLT, diameter=diameter, grip=grip, verdict="not listed")
    return replace(bare, longest=listed[-1].grip, number=listed[-1].name, source=listed[-1].citation)


def _farness(one: LengthChoice) -> tuple[float, float]:
    """Return how far the bolt's grip is from the stack; of two as far, no threads in the hole first."""
    return round(abs((one.bolt_grip or 0.0) - one.grip), _AS_NEAR), one.threads_in_hole


def _with_washers(bolt: Bolt, diameter: float, grip: float) -> LengthChoice | None:
    """Return the bolt with the fewest washers that take up its shank; None: too short, or too long."""
    nut, thread = next(iter(nuts(diameter)), None), thread_of(diameter)
    if nut is None or thread is None:
        return None
    most_in_hole = bolt_rules("threads in the hole, at most")[0].value
    in_hole = max(0.0, grip - bolt.grip) / thread.pitch
    if in_hole > most_in_hole + _EQUAL:
        return None
    over = bolt.grip - grip
    enough = [under for under in _piles(diameter) if sum(one.thickness for one in under) >= over - _EQUAL]
    shown = [_shown(bolt, grip, under, nut, thread) for under in enough]
    # A thinner washer where the thick one would hide the threads.
    two = max(rule.value for rule in bolt_rules("threads beyond the nut, at least"))
    good = [k for k, threads in enumerate(shown) if threads >= two - _EQUAL]
    if not enough:
        return None
    k = good[0] if good else max(range(len(shown)), key=lambda place: shown[place])
    sources = dict.fromkeys([bolt.citation, *(one.citation for one in enough[k]), nut.citation])
    return LengthChoice(
        kind=BOLT,
        diameter=diameter,
        grip=grip,
        verdict="fits",
        length=bolt.length,
        number=bolt.name,
        bolt_grip=bolt.grip,
        washers=enough[k],
        nut=nut,
        threads_in_hole=in_hole,
        threads_showing=shown[k],
        source="; ".join(sources),
    )


def _piles(diameter: float) -> Iterator[tuple[Washer, ...]]:
    """Yield what may lie under a nut: one washer to as many as customary, thick ones first."""
    most = int(bolt_rules("washers, at most")[0].value)
    for count in range(1, most + 1):
        yield from combinations_with_replacement(washers(diameter), count)


def _shown(bolt: Bolt, grip: float, under: tuple[Washer, ...], nut: Nut, thread: Thread) -> float:
    beyond = bolt.length - grip - sum(one.thickness for one in under) - nut.height
    return beyond / thread.pitch
