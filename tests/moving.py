"""Moves steps of a sequence as a builder would: the whole entry, comments and all, to behind another one."""

from __future__ import annotations

__all__ = ["moved"]


def moved(text: str, step: str, behind: str) -> str:
    """Return the sequence with the entry whose first line begins with ``step`` behind that of ``behind``.

    The first entries that begin so are meant. Both stand in one list; that of ``steps`` or one of ``apart``.
    """
    lines = text.splitlines(keepends=True)
    first, last = _entry(lines, step)
    entry, rest = lines[first:last], lines[:first] + lines[last:]
    _, end = _entry(rest, behind)
    return "".join(rest[:end] + entry + rest[end:])


def _entry(lines: list[str], begins: str) -> tuple[int, int]:
    """Return the numbers of the first line of an entry, and of the first one after it."""
    first = next(k for k in range(len(lines)) if _begins(lines[k:], begins))
    indent = lines[first].index("-")
    after = (k for k in range(first + 1, len(lines)) if _indent(lines[k]) <= indent)
    return first, next(after, len(lines))


def _begins(lines: list[str], words: str) -> bool:
    return "".join(line.strip() + "\n" for line in lines[:3]).startswith(f"- {words}")


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())
