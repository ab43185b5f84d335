"""No length of the fastener is made for what it has to clamp.

What it means: a blind rivet sets only within the grips that its maker gives; shorter, and it does not
form, or does not reach through; longer, and it does not draw the sheets together. These holes lie between
two of its lengths, or beyond the shortest or the longest.

What to do: where a longer one comes next, a washer or a shim under the tail brings the grip into its
range; the finding says how thick. Or take another fastener. Where the maker has more lengths than the
file says, or than the table lists, write them under `hardware`: they go before any table. A solid rivet
can be cut.

Found, because 0.8 and 2.9 make 3.7:

```yaml
hardware:
  pull 3.2: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.5, 3.5], 8: [4.0, 5.0]}}
parts:
  skin: {shape: sketch, thickness: 0.8}
  block: {shape: sketch, thickness: 2.9}
rows:
  foot: {layers: [skin, block], count: 4, size: small}
```

Goes through, because length 8 is said to begin at 3.5:

```yaml
hardware:
  pull 3.2: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.5, 3.5], 8: [3.5, 5.0]}}
```

The rule: a grip on either end of a range is within it; beyond it nothing is guessed. The maker's lengths in
the model go first, then for blind rivets Army TM 10-5410-221-14/1, table 4-3 (sizes in inches), and ISO
15981 (metric sizes). Where nobody says which lengths there are nothing is found: solid rivets by number go
up in steps of 1/16 in without end, and of AN bolts the table lists a part only. A gap that does not draw
shut, a hole that is not drilled and two fasteners for one hole are told by their own findings first.
"""

from __future__ import annotations

from collections.abc import Iterator

from seqviz.assembly.gaps import gaps
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.ending import drilled_through
from seqviz.checks.fastened import used_at
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import row_of, sound_stacks
from seqviz.checks.two_fasteners_named import told_there
from seqviz.checks.wording import length
from seqviz.findings import Finding
from seqviz.scene.fasteners import choice_in
from seqviz.trade.choice import LengthChoice
from seqviz.trade.choice_reasons import way_out
from seqviz.trade.choice_words import short_why

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each row, fastener and grip."""
    for group in grouped(build, "grip-out-of-range", _sightings(build)):
        yield group.finding("grip-out-of-range", "error", _words(build, group))


def _words(build: Build, group: Group[tuple[str, LengthChoice]]) -> Words:
    name, choice = group.first
    units = build.model.units
    return Words(
        message=f"{group.named}: no length of {name} is made for a grip of {length(build, choice.grip)}.",
        why=f"{_capital(short_why(choice, units))} ({choice.source}).",
        fix=way_out(choice, units),
    )


def _sightings(build: Build) -> Iterator[Sighting[tuple[str, LengthChoice]]]:
    used, told = used_at(build), told_there(build)
    open_gaps = {gap.stack for gap in gaps(build.assembly) if not gap.shut}
    for stack in sound_stacks(build.assembly):
        use = used.get(stack.index)
        choice = choice_in(build.model, stack, use.text if use else None)
        if choice is None or choice.verdict != "out of range":
            continue
        if stack.index in told or stack.index in open_gaps or not drilled_through(build, stack):
            continue
        name = (use.text if use else stack.fastener) or ""
        yield Sighting(
            key=(name, round(choice.grip, 3)),
            seen=(name, choice),
            at=use.at if use else row_of(build.assembly, stack),
            parts=tuple(dict.fromkeys(stack.parts)),
            stack=stack.index,
            figure=_missing(choice),
        )


def _missing(choice: LengthChoice) -> float:
    """Return how far the nearest range is, mm."""
    if choice.longest is not None:
        return (choice.wanted or 0.0) - choice.longest
    ends = [choice.grip - choice.below.high] if choice.below else []
    ends += [choice.above.low - choice.grip] if choice.above else []
    return min(ends)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


CHECK = Check("grip-out-of-range", "error", find)
