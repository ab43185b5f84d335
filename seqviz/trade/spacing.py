"""How far holes stay from edges and from each other, in shank diameters; each source has its own row."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from seqviz.trade.tables import INCH, rows

__all__ = ["Bound", "Distance", "HeadStyle", "SpacingRule", "spacing", "strictest"]

Distance = Literal["edge", "pitch", "row", "transverse"]
Bound = Literal["least", "usual least", "usual", "recommended", "usual most", "most", "preferred extra"]
HeadStyle = Literal["protruding", "countersunk"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SpacingRule:
    """``value`` in ``unit``: ``D`` (shank diameters), ``in``, or ``pitch`` (of the pitch).

    ``head`` and ``rows`` are what the source says it for: ``any`` where it makes no difference.
    """

    value: float
    unit: str
    head: str
    rows: str
    citation: str

    def mm(self, diameter: float) -> float:
        """Return the distance for a shank of ``diameter`` mm; only of a rule in D or inches."""
        if self.unit not in ("D", "in"):
            raise ValueError(f"a rule in {self.unit} has no length of its own")
        return self.value * (diameter if self.unit == "D" else INCH)


@cache
def spacing(
    distance: Distance, bound: Bound, *, head: HeadStyle = "protruding", row_count: int = 1
) -> tuple[SpacingRule, ...]:
    """Return the rules of all sources, in the order of the table; () where none says it.

    Parameters
    ----------
    distance
        ``edge``: hole to edge; ``pitch``: along a row; ``row``: between rows; ``transverse``: across them.
    bound
        Which end: ``least`` is a limit, ``usual least`` ("seldom less") is not.
    head
        Of the rivets.
    row_count
        Rows of the seam beside each other; more than 3 count as 3.
    """
    return tuple(
        SpacingRule(
            value=row.number("value"),
            unit=row.text("unit"),
            head=row.text("head"),
            rows=row.text("rows"),
            citation=row.citation,
        )
        for row in rows("spacing")
        if (row.text("distance"), row.text("bound")) == (distance, bound)
        and row.text("head") in ("any", head)
        and row.text("rows") in ("any", str(min(row_count, 3)))
    )


def strictest(found: tuple[SpacingRule, ...], bound: Bound) -> SpacingRule | None:
    """Return the rule that allows least: the largest least, the smallest most; the first of equals."""
    if not found:
        return None
    pick = min if "most" in bound else max
    return pick(found, key=lambda rule: rule.value)
