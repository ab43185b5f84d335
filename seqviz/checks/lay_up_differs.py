"""The rows tell another lay-up than the dimensions give.

What it means: under `rows` it was written what lies over what at these holes. By now the parts, or
some of them, have dimensions and holes of their own, and those say something else: another part lies
there too, the order is another, a hole is missing, or the holes do not meet at all.

What to do: compare both with the drawing and correct the one that is wrong. Where all parts of a row
have their dimensions and agree with it, the row may stay as a check, or go.

Found, because the strip also lies there by its dimensions:

```yaml
rows:
  foot: {layers: [rail, skin], count: 30, size: small}
placed:
  strip: {part: strip, match: {eye.1: skin.foot.1, eye.30: skin.foot.30}}
```

Agrees:

```yaml
rows:
  foot: {layers: [rail, strip, skin], count: 30, size: small}
```

The rule: at every hole of a row the layers that have a place must be the row's own, from the head
side down, and all of them on one axis (project choice). Layers without a place are taken as the row
says.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.structure import Assembly
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.places import sound
from seqviz.checks.wording import counted, listed, spans
from seqviz.findings import Finding
from seqviz.records.model import LaidRow
from seqviz.records.names import absent_numbers

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row and each way in which it differs."""
    for row in build.model.rows.values():
        different: dict[str, list[int]] = {}
        for number in range(1, row.count + 1):
            told = _difference(build.assembly, row, number)
            if told:
                different.setdefault(told, []).append(number)
        for told, numbers in different.items():
            yield _finding(row, told, numbers)
        yield from _more_holes(build.assembly, row)


def _finding(row: LaidRow, told: str, numbers: list[int]) -> Finding:
    parts = row.layers_at(numbers[0])
    named = spans(f"{row.name}.{number}" for number in numbers)
    return Finding(
        kind="lay-up-differs",
        severity="error",
        at=row.at,
        message=f"The row {named} says {' over '.join(parts)}, but {told}.",
        why="Parts that have dimensions and holes are taken where these put them, and the row must agree.",
        fix="Compare with the drawing, and correct the layers of the row, or the parts' holes and places.",
        parts=parts,
        holes=tuple(f"{parts[0]}.{row.name}.{number}" for number in numbers),
    )


def _difference(assembly: Assembly, row: LaidRow, number: int) -> str | None:
    """Say in which way the structure differs from the row at one hole, None where it does not."""
    parts = row.layers_at(number)
    if (
        number in absent_numbers(row)
        or any(part not in assembly.placed for part in parts)
        or not sound(assembly, parts)
    ):
        return None
    holes = {part: f"{part}.{row.name}.{number}" for part in parts}
    known = {f"{part}.{hole.name}" for part in parts for hole in assembly.placed[part].holes}
    lacking = [part for part in parts if holes[part] not in known]
    if lacking:
        return f"{listed(lacking)} {_has(lacking)} no such hole in a row of that name"
    at = [assembly.stack_of.get(holes[part]) for part in parts]
    stacks = [assembly.stacks[index] for index in dict.fromkeys(at) if index is not None]
    if [stack.parts for stack in stacks] == [parts]:
        return None
    standing = [stack.parts for stack in stacks if stack.located]
    if len(standing) > 1:
        return (
            f"the holes of {listed(dict.fromkeys(p for s in standing for p in s if p in parts))} do not meet"
        )
    return f"by the dimensions {' over '.join(standing[0] if standing else ())} stands there"


def _has(parts: list[str]) -> str:
    return "has" if len(parts) == 1 else "have"


def _more_holes(assembly: Assembly, row: LaidRow) -> Iterator[Finding]:
    """Yield a finding where rows of that name which parts have of their own go on beyond the count."""
    last: dict[str, int] = {}
    for name in dict.fromkeys(layer.text for layer in row.named()):
        own = assembly.placed[name].part.holes if name in assembly.placed else ()
        last[name] = max((hole.number for hole in own if hole.row == row.name), default=0)
    beyond = {name: number for name, number in last.items() if number > row.count}
    if beyond:
        told = listed(f"{name}.{row.name} goes on to {number}" for name, number in beyond.items())
        yield Finding(
            kind="lay-up-differs",
            severity="error",
            at=row.at,
            message=f"The row {row.name} counts {counted(row.count, 'hole')}, but {told}.",
            why="A row of that name which a part has of its own is the same row.",
            fix="Correct the count of one of them, or give one another name.",
            parts=tuple(beyond),
            holes=tuple(f"{name}.{row.name}.{number}" for name, number in beyond.items()),
        )


CHECK = Check("lay-up-differs", "error", find)
