"""Words in narrow places: wrapped, shortened in their middle, and moved apart."""

from __future__ import annotations

from collections.abc import Sequence

from seqviz.drawing.svg import text_width

__all__ = ["fitted", "moved_apart", "shortened"]

_LONGEST = 240  # letters: nobody reads on, and every trial costs time


def shortened(words: str, room: float, size: float) -> str:
    """Return ``words``, or their beginning and end about ``…``, no wider than ``room`` mm.

    The end of a name tells left from right, so it is kept.
    """
    words = " ".join(_cut(words, _LONGEST).split())
    if text_width(words, size) <= room:
        return words
    for letters in range(len(words) - 1, 0, -1):
        short = _cut(words, letters)
        if text_width(short, size) <= room:
            return short
    return "…"


def fitted(words: str, room: float, size: float, most: int) -> list[str]:
    """Return ``words`` on at most ``most`` lines of ``room`` mm, shortened where they are too many."""
    left = _cut(" ".join(words.split()), _LONGEST).split(" ")
    lines: list[str] = []
    while left and len(lines) < most - 1:
        taken = 1
        while taken < len(left) and text_width(" ".join(left[: taken + 1]), size) <= room:
            taken += 1
        lines.append(shortened(" ".join(left[:taken]), room, size))
        left = left[taken:]
    return [*lines, shortened(" ".join(left), room, size)] if left else lines


def moved_apart(middles: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Return new middles, near the old rising ones, at which things of these heights do not overlap."""
    # Each run: its members' summed wish for where its top is, how many, how high.
    runs: list[tuple[float, int, float]] = []
    for middle, height in zip(middles, heights, strict=True):
        wish, count, high = middle - height / 2, 1, height
        while runs and runs[-1][0] / runs[-1][1] + runs[-1][2] > wish / count:
            before, number, deep = runs.pop()
            # What is added wants its place less what now stands above it.
            wish, count, high = before + wish - count * deep, number + count, deep + high
        runs.append((wish, count, high))
    found: list[float] = []
    left = list(heights)
    for wish, count, _ in runs:
        top = wish / count
        for height in left[:count]:
            found.append(top + height / 2)
            top += height
        left = left[count:]
    return found


def _cut(words: str, letters: int) -> str:
    if len(words) <= letters:
        return words
    last = (letters - 1) // 2
    return f"{words[: letters - 1 - last]}…{words[len(words) - last :]}"
