"""How heavy sheet and bar are, by the material's name as people write it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from seqviz.trade.tables import rows

__all__ = ["ASSUMED", "Density", "density_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """A density in g/cm3, the row it was found under, and where the figure comes from."""

    value: float
    called: str
    source: str


ASSUMED = Density(value=2.70, called="aluminium", source="nobody said the material; nominal, from memory")
"""For parts without a material: riveted sheet structures are of aluminium unless somebody says else."""


@cache
def density_of(material: str) -> Density | None:
    """Return the density of ``material`` (``6061-T6``, ``2024-T3 clad``, ``steel 4130``); None: not listed.

    The name of an alloy counts before that of a metal. Nothing is guessed from a similar number.
    """
    plain = material.casefold()
    numbers = re.findall(r"(?<![0-9.])[0-9]{4}(?![0-9])", plain)
    words = set(re.findall(r"[a-z]+", plain))
    listed = {row.text("name"): row for row in rows("densities")}
    # The longer name stands first in the table: stainless steel is not steel.
    metals = (name for name, row in listed.items() if row.text("is") == "metal" and name in words)
    for called in (*numbers, *metals):
        if row := listed.get(called):
            return Density(value=row.number("density g/cm3"), called=called, source=row.citation)
    return None
