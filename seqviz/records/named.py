"""Names as written in some place of a file, still to be looked up."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At

__all__ = ["HoleChoice", "Name"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """A name as written in some place, to be looked up."""

    text: str
    at: At


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleChoice:
    """Holes chosen by name: ``PLACED.ROW``, ``PLACED.ROW.N`` or ``PLACED.ROW.N-M``.

    Of a piece that uses another model ``row`` is ``P.R``: row R of its placed part P.
    ``first`` and ``last`` are None for the whole row, equal for one hole; ``first > last`` keeps its sense.
    """

    placed: str
    row: str
    first: int | None
    last: int | None
    at: At
