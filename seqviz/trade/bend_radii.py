"""How small the inside radius of a bend may be, by alloy, temper and thickness."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache

from seqviz.trade.tables import INCH, Row, rows

__all__ = ["RadiusAdvice", "bend_radius", "bend_radius_advice", "listed_alloy"]

_SAME = 0.001  # in: a sheet this much over a column is still that column
_ALLOY = re.compile(r"(?<![0-9.])([0-9]{4})[ -]*(o|t[0-9]+|h[0-9]+)(?![a-z0-9])")


@dataclass(frozen=True, slots=True, kw_only=True)
class RadiusAdvice:
    """The least and the largest inside radius that a table recommends, in the unit of the thickness.

    ``exact``: the table has a column for that thickness; else the next thicker one counted.
    """

    least: float
    most: float
    source: str
    exact: bool = True


@cache
def bend_radius(material: str, thickness: float) -> RadiusAdvice | None:
    """Return the radii, mm, for a 90 degree bend in a sheet of ``thickness`` mm of ``material``.

    ``material`` as people write it (``6061-T6``, ``2024 T3 clad``). None where its alloy and temper are not
    listed, or the sheet is thicker than the last column. Clad sheet may be bent slightly tighter.
    """
    alloy = listed_alloy(material)
    advice = bend_radius_advice(alloy, thickness / INCH) if alloy else None
    if advice is None:
        return None
    return replace(advice, least=advice.least * INCH, most=advice.most * INCH)


def bend_radius_advice(alloy: str, thickness: float) -> RadiusAdvice | None:
    """Return the radius recommended for a 90 degree bend in a sheet of ``thickness`` in; None if not listed.

    The table has no rule between its columns: the column of the next thicker sheet counts (project choice).
    """
    found = [
        row
        for row in rows("bend_radii")
        if row.text("alloy") == alloy and thickness <= row.number("sheet in") + _SAME
    ]
    return _advice(found[0], thickness) if found else None


@cache
def listed_alloy(material: str) -> str | None:
    """Return the alloy and temper that ``material`` names, as the table writes it; None: not listed.

    Nothing is guessed from a similar temper: 6061-T651 is not listed.
    """
    listed = {row.text("alloy") for row in rows("bend_radii")}
    for number, temper in _ALLOY.findall(material.casefold()):
        alloy = f"{number}-{temper.upper()}"
        if alloy in listed:
            return alloy
    return None


def _advice(row: Row, thickness: float) -> RadiusAdvice:
    source = f"{row.citation}, column {row.number('sheet in'):.3f}"
    return RadiusAdvice(
        least=row.number("least t") * thickness,
        most=row.number("most t") * thickness,
        source=f"{source} ({row.text('doubt')})" if row.has("doubt") else source,
        exact=abs(row.number("sheet in") - thickness) <= _SAME,
    )
