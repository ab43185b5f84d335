"""Published rules of spacing in words: the one that counts, and every source beside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from seqviz.trade.spacing import Bound, Distance, SpacingRule, spacing, strictest

__all__ = ["Asked", "asked", "sources"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The strictest rule, ``times`` the shank's diameter, and the sources of it and of the others."""

    times: float
    said_by: str
    others: str

    def mm(self, shank: float) -> float:
        """Return the distance for a shank of ``shank`` mm."""
        return self.times * shank


def asked(distance: Distance, bound: Bound, *, flush: bool = False) -> Asked:
    """Return the strictest published rule; ``flush``: for countersunk heads."""
    rules = spacing(distance, bound, head="countersunk" if flush else "protruding")
    counted = [rule for rule in rules if rule.unit == "D"]
    first = strictest(tuple(counted), bound)
    assert first is not None
    same = [rule for rule in counted if rule.value == first.value]
    rest = [rule for rule in counted if rule.value != first.value]
    values = dict.fromkeys(rule.value for rule in rest)
    others = [f"{value:g} D: {_named(r for r in rest if r.value == value)}" for value in values]
    return Asked(times=first.value, said_by=_named(same), others="; ".join(others))


def sources(rule: Asked) -> str:
    """Return the sources as a sentence: the strictest first, then what others say."""
    return f"{rule.times:g} D: {rule.said_by}{f'; {rule.others}' if rule.others else ''}."


def _named(rules: Iterable[SpacingRule]) -> str:
    return "; ".join(dict.fromkeys(rule.citation for rule in rules))
