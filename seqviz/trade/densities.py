"""How heavy sheet and bar are, by the material's name as people write it."""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["ASSUMED", "Density", "density_of"]

_NOMINAL = "nominal density, Aluminum Association alloys, table 4.3 of an aluminium design manual (secondary)"
_MEMORY = "nominal density, from memory"

# g/cm3 at room temperature. Tempers and cladding make no difference that matters here.
_ALLOYS: dict[str, tuple[float, str]] = {
    "1050": (2.71, _MEMORY),
    "1100": (2.71, _NOMINAL),
    "2014": (2.80, _NOMINAL),
    "2017": (2.79, _MEMORY),
    "2024": (2.78, _NOMINAL),
    "2117": (2.75, _MEMORY),
    "3003": (2.73, _NOMINAL),
    "3105": (2.72, _NOMINAL),
    "5005": (2.70, _NOMINAL),
    "5052": (2.68, _NOMINAL),
    "5083": (2.66, _NOMINAL),
    "5086": (2.66, _NOMINAL),
    "5251": (2.69, _MEMORY),
    "5754": (2.67, _MEMORY),
    "6005": (2.70, _NOMINAL),
    "6061": (2.70, _NOMINAL),
    "6063": (2.70, _NOMINAL),
    "6082": (2.70, _MEMORY),
    "7075": (2.81, _NOMINAL),
    "4130": (7.85, _MEMORY),
    "4340": (7.85, _MEMORY),
}
# Whole words, the longer name first: stainless steel is not steel.
_WORDS: dict[str, tuple[float, str]] = {
    "stainless": (7.9, _MEMORY),
    "steel": (7.85, _MEMORY),
    "titanium": (4.43, _MEMORY),
    "brass": (8.5, _MEMORY),
    "copper": (8.9, _MEMORY),
    "magnesium": (1.77, _MEMORY),
    "aluminium": (2.70, _MEMORY),
    "aluminum": (2.70, _MEMORY),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """A density in g/cm3, the row it was found under, and where the figure comes from."""

    value: float
    called: str
    source: str


ASSUMED = Density(value=2.70, called="aluminium", source="nobody said the material; nominal, from memory")
"""For parts without a material: riveted sheet structures are of aluminium unless somebody says else."""


def density_of(material: str) -> Density | None:
    """Return the density of ``material`` (``6061-T6``, ``2024-T3 clad``, ``steel 4130``); None: not listed.

    The name of an alloy counts before that of a metal. Nothing is guessed from a similar number.
    """
    plain = material.casefold()
    numbers = re.findall(r"(?<![0-9.])[0-9]{4}(?![0-9])", plain)
    words = set(re.findall(r"[a-z]+", plain))
    for called in (*numbers, *(word for word in _WORDS if word in words)):
        found = _ALLOYS.get(called) or _WORDS.get(called)
        if found:
            return Density(value=found[0], called=called, source=found[1])
    return None
