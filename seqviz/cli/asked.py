"""Commands with many options: a dataclass of them instead of a long list of arguments."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import MISSING, fields
from typing import Any, TypeVar, get_type_hints

__all__ = ["asked_as"]

T = TypeVar("T")


def asked_as(kind: type[T]) -> Callable[[Callable[[T], int]], Callable[..., int]]:
    """Return a decorator: the command takes one ``kind``, and the command line shows its fields."""

    def decorated(command: Callable[[T], int]) -> Callable[..., int]:
        def run(**given: Any) -> int:
            return command(kind(**given))

        run.__doc__ = command.__doc__
        run.__signature__ = _signature(kind)  # type: ignore[attr-defined]
        return run

    return decorated


def _signature(kind: type[Any]) -> inspect.Signature:
    hints = get_type_hints(kind, include_extras=True)
    return inspect.Signature(
        [
            inspect.Parameter(
                field.name,
                inspect.Parameter.KEYWORD_ONLY,
                default=inspect.Parameter.empty if field.default is MISSING else field.default,
                annotation=hints[field.name],
            )
            for field in fields(kind)
        ]
    )
