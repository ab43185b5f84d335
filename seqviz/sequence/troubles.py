"""Every trouble met in a replay, in the order met."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

__all__ = ["Troubles"]

T = TypeVar("T")


class Troubles:
    """Keeps the troubles of each kind apart; the kinds are the types of `seqviz.sequence.replay_types`."""

    def __init__(self) -> None:
        self._met: dict[type[Any], list[Any]] = {}

    def note(self, trouble: object) -> None:
        """Keep one more."""
        self._met.setdefault(type(trouble), []).append(trouble)

    def of(self, kind: type[T]) -> tuple[T, ...]:
        """Return all of one kind."""
        return tuple(self._met.get(kind, ()))

    def drop(self, kind: type[T], wrong: Callable[[T], bool]) -> None:
        """Forget those of one kind that are ``wrong``."""
        self._met[kind] = [one for one in self._met.get(kind, ()) if not wrong(one)]
