"""Which holes of a row there are, and how wide: the row's size, its exceptions, and the numbers it skips."""

from __future__ import annotations

from dataclasses import dataclass

from seqviz.findings import At, Finding
from seqviz.parts.mistakes import bad_value, missing_word, numbers_text, unknown_name
from seqviz.records.model import LaidRow, Row, Size

__all__ = ["HoleSize", "SizesRead", "hole_sizes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleSize:
    """``diameter`` in mm, the name of the size where one was given, and whether heads lie flush in it."""

    diameter: float
    name: str | None
    countersunk: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SizesRead:
    """What was read of a row's sizes.

    ``holes``: number -> size, numbers without a hole left out. ``muted``: a size was reported already.
    """

    holes: dict[int, HoleSize]
    findings: tuple[Finding, ...]
    muted: bool = False


def hole_sizes(row: Row | LaidRow, count: int, sizes: dict[str, Size], broken: frozenset[str]) -> SizesRead:
    """Return the size of every hole of a row with ``count`` places.

    ``sizes`` are the model's; names in ``broken`` could not be read and have their finding already.
    """
    findings = [f for f in (_numbers_mistake(row, count), _no_size(row)) if f]
    holes: dict[int, HoleSize] = {}
    muted = False
    for numbers, size, at in _spans(row, count):
        if size is None or isinstance(size, HoleSize):
            found = size
        elif size in sizes:
            known = sizes[size]
            sunk = known.countersunk if row.countersunk is None else row.countersunk
            found = HoleSize(diameter=known.diameter, name=size, countersunk=sunk)
        else:
            muted = muted or size in broken
            findings += [] if size in broken else [unknown_name(at, "size", size, list(sizes))]
            continue
        for number in numbers:
            if found is None:
                holes.pop(number, None)
            else:
                holes[number] = found
    return SizesRead(holes=holes, findings=tuple(findings), muted=muted)


def _spans(row: Row | LaidRow, count: int) -> list[tuple[range | tuple[int, ...], str | HoleSize | None, At]]:
    """Return what was said of which numbers, in the order in which it applies; None: no hole."""
    own: str | HoleSize | None = row.size.text if row.size else None
    if own is None and row.diameter is not None:
        own = HoleSize(diameter=row.diameter, name=None, countersunk=bool(row.countersunk))
    said: list[tuple[range | tuple[int, ...], str | HoleSize | None, At]] = []
    said.append((range(1, count + 1), own, row.size.at if row.size else row.at))
    said += [(range(e.first, e.last + 1), e.size, e.at) for e in row.exceptions]
    said.append((row.skip, None, row.at))
    return said


def _no_size(row: Row | LaidRow) -> Finding | None:
    if row.size is not None or (row.diameter is not None and row.diameter > 0):
        return None
    if row.diameter is not None:
        return bad_value(
            row.at, f"Row {row.name}: a hole has a diameter above 0.", "It is drilled.", "Check the number."
        )
    return missing_word(
        row.at,
        f"Row {row.name} has no size.",
        "A row says how wide its holes are, by a name in sizes or by a diameter.",
        "Write size: or diameter:.",
    )


def _numbers_mistake(row: Row | LaidRow, count: int) -> Finding | None:
    """Return a finding for exceptions or skipped numbers that the row does not reach."""
    for other in row.exceptions:
        if not 1 <= other.first <= other.last <= count:
            return _beyond(row, other.at, (other.first, other.last), count)
    beyond = [number for number in row.skip if not 1 <= number <= count]
    return _beyond(row, row.at, beyond, count) if beyond else None


def _beyond(row: Row | LaidRow, at: At, numbers: list[int] | tuple[int, ...], count: int) -> Finding:
    first, last = numbers[0], numbers[-1]
    said = f"{first}-{last}" if len(numbers) == 2 and last != first else numbers_text(numbers)
    return bad_value(
        at,
        f"Row {row.name} has {count} holes; {said} is not among them.",
        "Holes are numbered from 1; skipped ones keep their number.",
        "Check the number, or the count of the row.",
    )
