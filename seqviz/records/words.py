"""Words and names as written: what reads the same, and what was probably meant."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

__all__ = ["as_name", "as_word", "likely_names", "listed", "meant", "name_mistake"]

_SEPARATORS = re.compile(r"[\s_-]+")
_NOT_IN_NAMES = re.compile(r"[^\w -]|_")


@lru_cache(maxsize=8192)
def as_word(text: str) -> str:
    """Return ``text`` as a word of the file format: case, underscores and hyphens make no difference."""
    return _SEPARATORS.sub(" ", text).strip().lower()


@lru_cache(maxsize=8192)
def as_name(text: str) -> str:
    """Return ``text`` as a name: inner blanks count once, accents written in two ways are the same."""
    if not text.isascii():
        text = unicodedata.normalize("NFC", text)
    return " ".join(text.split())


def likely_names(text: str) -> set[str]:
    """Return what others may call an entry whose name holds signs that it may not hold."""
    return {as_name(text), as_name(_NOT_IN_NAMES.sub("", text)), as_name(_NOT_IN_NAMES.sub(" ", text))}


def name_mistake(name: str, allowed: str = "") -> str | None:
    """Return the first character that a name may not hold (``allowed`` holds more that it may), or None."""
    for found in _NOT_IN_NAMES.finditer(name):
        if found[0] not in allowed:
            return found[0]
    return None


def meant(written: str, words: Iterable[str]) -> str | None:
    """Return the one of ``words`` that was probably meant, or None."""
    by_form = {as_word(word): word for word in words}
    near = difflib.get_close_matches(as_word(written), list(by_form), n=1, cutoff=0.7)
    return by_form[near[0]] if near else None


def listed(words: Iterable[str], most: int = 12) -> str:
    """Return ``a, b or c``; of many only the first ``most``."""
    shown = list(words)
    if len(shown) > most:
        return f"{', '.join(shown[:most])} and {len(shown) - most} more"
    return " or ".join([", ".join(shown[:-1]), shown[-1]]) if len(shown) > 1 else "".join(shown)
