"""The findings that making a part can end in, and how numbers stand in their sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from seqviz.findings import At, Finding

__all__ = ["bad_value", "duplicate_name", "missing_word", "numbers_text", "plain", "unknown_name"]


def plain(value: float) -> str:
    """Return a number with up to three decimals and no idle zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def numbers_text(numbers: Iterable[int]) -> str:
    """Return hole numbers as ``3, 5-7``."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(str(low) if low == high else f"{low}-{high}" for low, high in runs)


def bad_value(at: At, message: str, why: str, fix: str) -> Finding:
    """Return a ``bad-value`` finding."""
    return _error("bad-value", at, message, why, fix)


def missing_word(at: At, message: str, why: str, fix: str) -> Finding:
    """Return a ``missing-word`` finding."""
    return _error("missing-word", at, message, why, fix)


def duplicate_name(at: At, message: str, why: str, fix: str) -> Finding:
    """Return a ``duplicate-name`` finding."""
    return _error("duplicate-name", at, message, why, fix)


def unknown_name(at: At, what: str, name: str, known: Sequence[str]) -> Finding:
    """Return an ``unknown-name`` finding: ``name`` is no ``what`` (such as ``size``), those are ``known``."""
    near = get_close_matches(name, known, n=1)
    there = f"There is {', '.join(known)}." if known else f"No {what} is written here yet."
    return _error(
        "unknown-name",
        at,
        f"There is no {what} {name}.",
        there,
        f"Did you mean {near[0]}?" if near else f"Write one of these, or add the {what}.",
    )


def _error(kind: str, at: At, message: str, why: str, fix: str) -> Finding:
    return Finding(kind=kind, severity="error", at=at, message=message, why=why, fix=fix)
