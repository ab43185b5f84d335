"""How text is laid out: width, colour, wrapping, and what may never reach a terminal."""

from __future__ import annotations

import textwrap
import unicodedata
from dataclasses import dataclass

from seqviz.findings import Severity

__all__ = ["PLAIN", "Style", "columns", "harmless", "wrapped"]

_CODES: dict[Severity, str] = {"error": "1;31", "warning": "1;33", "note": "1;36"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """Where text goes to: ``width`` in characters; ``colour`` only where a person looks on.

    Colour never carries anything alone: the words say it too.
    """

    width: int = 100
    colour: bool = False

    def severity(self, severity: Severity) -> str:
        """Return the word, in its colour where there is colour."""
        return f"\x1b[{_CODES[severity]}m{severity}\x1b[0m" if self.colour else severity


PLAIN = Style()


def harmless(text: str) -> str:
    """Return ``text`` with a space for every control character: names and reasons come out of files."""
    return "".join(" " if unicodedata.category(sign) in {"Cc", "Cf"} else sign for sign in text)


def columns(text: str) -> int:
    """Return how many columns of a terminal ``text`` takes: wide signs two, combining ones none."""
    wide = sum(unicodedata.east_asian_width(sign) in {"W", "F"} for sign in text)
    return len(text) + wide - sum(unicodedata.combining(sign) != 0 for sign in text)


def wrapped(label: str, text: str, width: int) -> list[str]:
    """Return ``text`` behind ``label`` as lines of at most ``width``; later ones stand under the first."""
    return textwrap.wrap(
        harmless(text),
        width=width,
        initial_indent=label,
        subsequent_indent=" " * len(label),
        break_long_words=False,
        break_on_hyphens=False,
    )
