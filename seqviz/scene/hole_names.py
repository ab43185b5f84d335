"""Names of holes."""

from __future__ import annotations

__all__ = ["split_hole"]


def split_hole(name: str) -> tuple[str, int]:
    """Return ``PLACED.ROW`` and the number of the hole ``PLACED.ROW.N``."""
    row, _, number = name.rpartition(".")
    return row, int(number)
