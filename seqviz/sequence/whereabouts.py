"""Which part is in which work while the steps go by: parts come and go, sub-assemblies move as one piece."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

__all__ = ["Bits", "Piece", "Whereabouts", "WorkName", "span"]

WorkName = str | None
"""A sub-assembly that is joined apart, or None: the main work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What moves at once: a placed part, or a sub-assembly with the parts that are joined in it."""

    name: str
    parts: tuple[str, ...]

    @property
    def members(self) -> tuple[str, ...]:
        """Parts of a sub-assembly; none of a part that moves alone."""
        return () if self.parts == (self.name,) else self.parts


class Whereabouts:
    """Where each placed part is now.

    Attributes
    ----------
    work_of
        Part -> the work that it is in, in the order in which they came; a part that is nowhere is missing.
    since
        Part or sub-assembly that is there -> the step that placed it.
    came
        Part -> the step that brought it to where it is, or was last; one that was there at first is missing.
    """

    def __init__(self, apart: Iterable[str], begin: Iterable[str] = ()) -> None:
        self._apart = frozenset(apart)
        self._members: dict[str, tuple[str, ...]] = {}
        self.work_of: dict[str, WorkName] = dict.fromkeys(begin)
        self.since: dict[str, int] = dict.fromkeys(begin, 0)
        self.came: dict[str, int] = {}

    def there(self, work: WorkName) -> set[str]:
        """Return the parts that are in ``work``."""
        return {part for part, name in self.work_of.items() if name == work}

    def to_place(self, name: str, parts: Iterable[str], work: WorkName) -> list[Piece]:
        """Return what ``name`` brings into ``work``: parts that are nowhere yet, or a sub-assembly as one.

        ``parts`` are the placed parts of that name: one, both twins, or none of a sub-assembly.
        """
        if name in self._apart:
            joined = tuple(part for part, its in self.work_of.items() if its == name)
            return [Piece(name=name, parts=joined)] if joined and work != name else []
        return [Piece(name=part, parts=(part,)) for part in parts if part not in self.work_of]

    def there_already(self, name: str, parts: Iterable[str]) -> list[str]:
        """Return what ``name`` means and is there already: parts, or the sub-assembly."""
        if name in self._apart:
            return [name] if name in self._members else []
        return [part for part in parts if part in self.work_of]

    def to_take_off(self, name: str, parts: Iterable[str], work: WorkName) -> list[Piece]:
        """Return what ``name`` takes off ``work``; nothing of what is not in it."""
        if name in self._apart:
            joined = tuple(part for part in self._members.get(name, ()) if self.work_of.get(part) == work)
            return [Piece(name=name, parts=joined)] if joined and work != name else []
        there = (part for part in parts if part in self.work_of and self.work_of[part] == work)
        return [Piece(name=part, parts=(part,)) for part in there]

    def place(self, piece: Piece, work: WorkName, step: int) -> None:
        """Let ``piece`` be in ``work``."""
        if piece.name in self._apart:
            self._members[piece.name] = (*self._members.get(piece.name, ()), *piece.parts)
        self.since[piece.name] = step
        for part in piece.parts:
            # Those that come last stand last.
            self.work_of.pop(part, None)
            self.work_of[part] = work
            self.came[part] = step

    def take_off(self, piece: Piece) -> None:
        """Let a part be nowhere; a sub-assembly is back in its own work, in one piece."""
        self.since.pop(piece.name, None)
        if piece.name in self._apart:
            self._members.pop(piece.name, None)
            for part in piece.parts:
                self.work_of.pop(part)
                self.work_of[part] = piece.name
            return
        for part in piece.parts:
            del self.work_of[part]
            self._members = {
                name: tuple(one for one in parts if one != part) for name, parts in self._members.items()
            }


class Bits:
    """Collects, for each part, the steps after which it is in which work, as bit sets."""

    def __init__(self, now: Mapping[str, WorkName]) -> None:
        self.where: dict[str, dict[WorkName, int]] = {}
        self._since: dict[str, tuple[WorkName, int]] = {part: (work, 0) for part, work in now.items()}

    def move(self, part: str, work: WorkName, step: int) -> None:
        """From ``step`` on ``part`` is in ``work``."""
        self.leave(part, step)
        self._since[part] = (work, step)

    def leave(self, part: str, step: int) -> None:
        """From ``step`` on ``part`` is nowhere."""
        if part in self._since:
            work, first = self._since.pop(part)
            if step > first:
                of_part = self.where.setdefault(part, {})
                of_part[work] = of_part.get(work, 0) | span(first, step - 1)

    def finished(self, steps: int) -> dict[str, dict[WorkName, int]]:
        """Return the bit sets of a sequence of ``steps`` steps."""
        for part in tuple(self._since):
            self.leave(part, steps + 1)
        return self.where


def span(first: int, last: int) -> int:
    """Return the bit set of the steps from ``first`` to ``last``, both included."""
    return ((1 << (last - first + 1)) - 1) << first if last >= first else 0
