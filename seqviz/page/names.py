"""What people have written, made fit for a page: no signs that turn the text round them, no endless names."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from typing import TypeVar, cast

from seqviz.page.contract import Work
from seqviz.records.model import Model

__all__ = ["in_page", "plain", "shorter"]

T = TypeVar("T")

_HOLDS_TEXT = (str, dict, list)
_LONGEST = 80  # signs of a name in a sentence
_KEPT = 30  # of its beginning and of its end
_TURNING = dict.fromkeys(map(ord, "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"))


def in_page(work: Work, model: Model) -> Work:
    """Return ``work`` with all its texts plain, and long names short everywhere but in ``parts``."""
    names = [name for name in _names(work, model) if len(name) > _LONGEST]
    if names:
        longest_first = sorted(set(names), key=len, reverse=True)
        pattern = re.compile("|".join(map(re.escape, longest_first)))
        full = [part["name"] for part in work["parts"]]
        work = _everywhere(work, lambda text: pattern.sub(lambda found: shorter(found[0]), text))
        for part, name in zip(work["parts"], full, strict=True):
            part["name"] = name
    return _everywhere(work, plain)


def plain(text: str) -> str:
    """Return ``text`` with a space for every control sign but the end of a line, and without signs that turn
    the way in which it is read: what a name holds must not reach beyond it.
    """
    if text.isascii() and text.isprintable():
        return text
    kept = text.translate(_TURNING)
    return "".join(
        " " if sign != "\n" and unicodedata.category(sign) in {"Cc", "Cs"} else sign for sign in kept
    )


def shorter(name: str) -> str:
    """Return a long name as its beginning and its end."""
    return f"{name[:_KEPT].rstrip()} … {name[-_KEPT:].lstrip()}" if len(name) > _LONGEST else name


def _names(work: Work, model: Model) -> Iterable[str]:
    """Yield the names that stand in the page's sentences."""
    yield from (part["name"] for part in work["parts"])
    yield from (name.rpartition(".")[0].partition(".")[2] for one in work["stacks"] for name in one["names"])
    yield from (*model.parts, *model.sizes, *model.hardware)
    yield from {step["work"] or "" for step in work["steps"]}


def _everywhere(thing: T, change: Callable[[str], str]) -> T:
    """Return ``thing`` with every text in it changed."""
    if isinstance(thing, str):
        return cast("T", change(thing))
    if isinstance(thing, dict):
        return cast("T", {word: _everywhere(one, change) for word, one in thing.items()})
    # Most lists are of numbers, and there are many.
    if isinstance(thing, list) and thing and isinstance(thing[0], _HOLDS_TEXT):
        return cast("T", [_everywhere(one, change) for one in thing])
    return thing
