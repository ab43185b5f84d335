"""Neighbouring rivets are too near to each other, or farther apart than the handbooks know.

What it means: between holes that are too close the sheet tears from one to the next, and there is no room
for the tool. Holes of different rows count as well. Rivets that are very far apart let the sheets buckle
and gape between them; that is only a note, and the handbooks do not agree where it begins.

What to do: correct the row or its pitch; where two rows run into each other, leave a hole out (`none`). For
a wide pitch look at the drawing. Settle it under `known`; `figure` is what is lacking, or too much.

Found, because 3 x 3.2 is 9.6 mm:

```yaml
made by: me
parts:
  strap:
    holes:
      eye: {from: [10, 10], to: [74, 10], pitch: 8, size: small}
```

Goes through:

```yaml
made by: me
parts:
  strap:
    holes:
      eye: {from: [10, 10], to: [74, 10], pitch: 16, size: small}
```

The rule: at least 3 D from middle to middle (FAA AC 43.13-1B, paragraph 4-57c, secondary; NAVEDTRA 14018),
with countersunk heads 3.5 D (FAA-H-8083-31, chapter 4, figure 4-80, from memory); of two different
fasteners the thicker one counts. Between rows Army TM 10-5410-229-13&P is content with 2.5 D. At most 8 D
(NAVEDTRA 14018) or 10 D (FAA-H-8083-31, chapter 4, from memory; a review of rivet spacing in the trade): a
note from 8 D on, between neighbours of a row of three or more rivets with no other one between them, bolts
left out. D is the diameter of the fastener, of the hole where none is named. Asked on each flat of each
layer, between holes in which a fastener holds layers together; a rolled skin is measured on its flat
pattern. On parts `made by: kit` all such findings are told in one note, and a wide pitch alone is not told:
the maker's drawing governs. `seqviz check --rules` shows each.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.cited import asked, sources
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.neighbours import Neighbours, Pair, neighbours_of
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding
from seqviz.trade.spacing import spacing

__all__ = ["CHECK"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Apart:
    """A pair of holes, and how much is lacking or too much, mm."""

    pair: Pair
    figure: float


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row, or pair of rows, that is too close, then those that are too wide."""
    seen = neighbours_of(build)
    for group in grouped(build, "hole-pitch", _too_close(seen)):
        yield group.finding("hole-pitch", "warning", _close_words(build, group))
    for group in grouped(build, "hole-pitch", _too_wide(seen)):
        yield group.finding("hole-pitch", "note", _wide_words(build, group))


def _too_close(seen: Neighbours) -> Iterator[Sighting[_Apart]]:
    for pair in seen.close:
        figure = asked("pitch", "least", flush=pair.flush).mm(pair.shank) - pair.apart
        yield from _sightings(_Apart(pair=pair, figure=figure))


def _too_wide(seen: Neighbours) -> Iterator[Sighting[_Apart]]:
    rule = asked("pitch", "most")
    for pair in seen.wide:
        yield from _sightings(_Apart(pair=pair, figure=pair.apart - rule.mm(pair.shank)))


def _sightings(seen: _Apart) -> Iterator[Sighting[_Apart]]:
    """Yield the pair once for each of its holes, so that the finding names both."""
    pair = seen.pair
    rows = tuple(sorted(pair.at))
    for stack, hole in zip(pair.stacks, pair.names, strict=True):
        yield Sighting(
            key=rows,
            seen=seen,
            at=rows[-1],
            parts=(pair.placed,),
            stack=stack,
            hole=hole,
            figure=seen.figure,
        )


def _close_words(build: Build, group: Group[_Apart]) -> Words:
    worst = max(group.all, key=lambda one: one.figure)
    pair = worst.pair
    rule = asked("pitch", "least", flush=pair.flush)
    head = ", countersunk" if pair.flush else ""
    row = spacing("row", "least")[0]
    across = len(_rows(pair)) > 1
    between = f" Between rows {row.value:g} D: {row.citation}." if across else ""
    return Words(
        message=f"{group.named}: {length(build, pair.apart)} from middle to middle between {_both(pair)}; "
        f"{length(build, rule.mm(pair.shank))} is asked, {rule.times:g} times "
        f"{length(build, pair.shank)}{head}. "
        f"{length(build, worst.figure)} is lacking.",
        why=f"The sheet tears from one hole to the next, and the tool has no room. At least "
        f"{sources(rule)}{between}",
        fix="Correct the pitch or the rows, leave a hole out, or take thinner fasteners.",
    )


def _wide_words(build: Build, group: Group[_Apart]) -> Words:
    worst = max(group.all, key=lambda one: one.figure)
    pair = worst.pair
    rule = asked("pitch", "most")
    ends = dict.fromkeys(f"{one.value:g}" for one in spacing("pitch", "most"))
    return Words(
        message=f"{group.named}: {length(build, pair.apart)} from middle to middle between {_both(pair)}, "
        f"{pair.apart / pair.shank:.3g} times {length(build, pair.shank)}; the handbooks end at "
        f"{' or '.join(ends)} times.",
        why="Sheets can gape between rivets that are far apart. The sources disagree: "
        f"at most {sources(rule)}",
        fix="Look in the drawing whether holes are missing, or come later.",
    )


def _rows(pair: Pair) -> set[str]:
    return {name.rpartition(".")[0] for name in pair.names}


def _both(pair: Pair) -> str:
    """Return ``4 and 5`` of one row, else both whole names."""
    if len(_rows(pair)) > 1:
        return listed(sorted(pair.names))
    return listed(str(number) for number in sorted(int(name.rpartition(".")[2]) for name in pair.names))


CHECK = Check("hole-pitch", "warning", find)
