"""A YAML text as a tree of nodes: the words as written, each with its line and column from 1.

The classes are not frozen only because tens of thousands are made while a file is read and a frozen
dataclass takes three times as long to make; nothing changes them once the tree is composed.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Items", "Mapping", "Node", "Scalar", "Spoiled"]


@dataclass(slots=True, eq=False)
class Scalar:
    """A text. ``plain``: without quotes. ``lost``: a ``#`` swallowed its end, which was told already."""

    text: str
    line: int
    column: int
    plain: bool = True
    lost: bool = False

    @property
    def empty(self) -> bool:
        """Nothing was written."""
        return self.plain and not self.text


@dataclass(slots=True, eq=False)
class Items:
    """A list."""

    items: list[Node]
    line: int
    column: int


@dataclass(slots=True, eq=False)
class Mapping:
    """Words with values, in the order written, duplicates included."""

    pairs: list[tuple[Scalar, Node]]
    line: int
    column: int


@dataclass(slots=True, eq=False)
class Spoiled:
    """Something about which a finding was made already while composing."""

    line: int
    column: int


Node = Scalar | Items | Mapping | Spoiled
