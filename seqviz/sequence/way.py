"""A way out of a final place, as the tables and the troubles speak of it."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.sequence.bench import Direction

__all__ = ["Way"]


@dataclass(frozen=True, slots=True)
class Way:
    """A way OUT of the final place: one straight move without end, or a short one before it.

    Attributes
    ----------
    out
        Unit vector, base frame, of the move without end.
    first, length
        Unit vector and mm of the short move before it; None: there is none.
    """

    out: Direction
    first: Direction | None = None
    length: float = 0.0

    @property
    def directions(self) -> tuple[Direction, ...]:
        """Where its moves go."""
        return (self.out,) if self.first is None else (self.first, self.out)
