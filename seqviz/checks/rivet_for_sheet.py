"""A rivet is thick or thin for its sheets: advice only, the sources disagree.

What it means: a rivet much thicker than its sheets crushes and tears them before it carries anything; one
thinner than a sheet shears first. The published rules draw the line in different places, and light kits use
thicker rivets than all of them, so this is a note and never more.

What to do: look in the drawing. Where you choose the rivet yourself, take one within the rules, or a doubler.

Found, because 4.8 is 9.6 times 0.5:

```yaml
made by: me
sizes: {big: {diameter: 4.9, with: solid rivet 4.8}}
parts:
  floor: {shape: sketch, thickness: 0.5}
  strap: {shape: sketch, thickness: 0.5}
```

Goes through, at 3 times:

```yaml
made by: me
sizes: {small: {diameter: 2.5, with: solid rivet 2.4}}
parts:
  floor: {shape: sketch, thickness: 0.8}
  strap: {shape: sketch, thickness: 0.8}
```

The rule: the rivet's diameter between 1 and 3 times the thickest sheet, the widest band of the sources
(NAVEDTRA 14018). Within it FAA AC 43.13-1B asks for about 3 t in a splice (paragraph 4-58g) and 2 t to 3 t
in the leg of a stringer (paragraph 4-58l), FAA-H-8083-31, chapter 4, from memory, for 2.5 t to 3 t of the
thicker sheet. FAA AC 43.13-1B, tables 4-9 to 4-11, list thicker rivets in thin sheet all the same, 1/8 in
in 0.020 in for instance; where they do, the finding says so. Sheets are skins, plates, frames, angles,
tees, channels, zeds, hats and sketches; solid pieces, tubes and meshes are not asked about, and neither are
bolts and holes of which nobody said what goes in. On parts `made by: kit` it is counted in the one note
about the kit, and raises it only where no table lists the rivet. `seqviz check --rules` shows each.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from seqviz.assembly.structure import Layer
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.flat_holes import GUARD, fillings
from seqviz.checks.grouping import Group, Sighting, Words, grouped
from seqviz.checks.places import row_of
from seqviz.checks.wording import length
from seqviz.findings import At, Finding
from seqviz.trade.fasteners import BOLT
from seqviz.trade.rivet_for_sheet import SheetRule, rivet_for_sheet
from seqviz.trade.tables import rows

__all__ = ["CHECK"]

_SHEETS = frozenset(("skin", "plate", "frame", "angle", "tee", "channel", "zed", "hat", "sketch"))
_SAME_RIVET = 0.05  # mm: a metric rivet stands for the inch size beside it, 3.2 for 1/8 in
_SAME_SHEET = 0.03  # mm: and so does a sheet, 0.5 for 0.020 in


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pairing:
    """A rivet of ``shank`` mm through sheets of which the thickest has ``sheet`` mm."""

    shank: float
    sheet: float
    listed_by: str


def find(build: Build) -> Iterator[Finding]:
    """Yield one note for each row and thickness."""
    for group in grouped(build, "rivet-for-sheet", _sightings(build)):
        yield group.finding("rivet-for-sheet", "note", _words(build, group))


def _words(build: Build, group: Group[_Pairing]) -> Words:
    one = group.first
    least, most = _band()
    thick = f"{length(build, one.sheet)}, the thickest sheet"
    all_the_same = f" Listed for that sheet all the same: {one.listed_by}." if one.listed_by else ""
    return Words(
        message=f"{group.named}: a rivet of {length(build, one.shank)} is {one.shank / one.sheet:.3g} times "
        f"{thick}; published rules go from {least:g} to {most:g} times.",
        why=f"Advice, the sources disagree: {'; '.join(_said(rule) for rule in rivet_for_sheet())}."
        f"{all_the_same}",
        fix="Look in the drawing, or choose another rivet.",
    )


def _said(rule: SheetRule) -> str:
    ends = dict.fromkeys(f"{end:g}" for end in (rule.least, rule.most) if end is not None)
    return f"{rule.where}: {' to '.join(ends)} times the {rule.of} ({rule.citation})"


def _band() -> tuple[float, float]:
    """Return the least and the most that any of the sources allows, in thicknesses."""
    rules = rivet_for_sheet()
    least = min(rule.least for rule in rules if rule.least is not None)
    return least, max(rule.most for rule in rules if rule.most is not None)


def _sightings(build: Build) -> Iterator[Sighting[_Pairing]]:
    assembly = build.assembly
    least, most = _band()
    at: dict[str, At] = {}
    known: dict[tuple[float, float], str] = {}
    for index, made in fillings(build).items():
        stack = assembly.stacks[index]
        sheet = max([_sheet(build, layer) for layer in stack.layers])
        if not sheet or made.fastener.kind == BOLT:
            continue
        if least * sheet - GUARD <= made.shank <= most * sheet + GUARD:
            continue
        key = (round(made.shank, 3), round(sheet, 3))
        if key not in known:
            known[key] = _listed(made.shank, sheet)
        row = stack.holes[0].rpartition(".")[0]
        if row not in at:
            at[row] = row_of(assembly, stack)
        over = max(made.shank - most * sheet, least * sheet - made.shank)
        yield Sighting(
            key=key,
            seen=_Pairing(shank=made.shank, sheet=sheet, listed_by=known[key]),
            at=at[row],
            parts=tuple(dict.fromkeys(stack.parts)),
            stack=stack.index,
            figure=None if known[key] else over,
        )


def _sheet(build: Build, layer: Layer) -> float:
    """Return the thickness, mm, of the thickest sheet in a layer; 0: there is none."""
    part = build.assembly.placed[layer.part].part
    if layer.column is None:
        return layer.thickness if part.shape in _SHEETS else 0.0
    inside = {member.name for member in part.members if member.part.shape in _SHEETS}
    return max((thickness for name, thickness in layer.column.layers if name in inside), default=0.0)


def _listed(shank: float, sheet: float) -> str:
    """Return which tables of rivets for every inch have such a rivet for such a sheet; empty: none has."""
    found: dict[str, list[float]] = {}
    for row in rows("rivets_per_inch"):
        if abs(row.mm("rivet") - shank) <= _SAME_RIVET:
            found.setdefault(row.citation, []).append(row.mm("sheet"))
    return "; ".join(
        name for name, t in found.items() if min(t) - _SAME_SHEET <= sheet <= max(t) + _SAME_SHEET
    )


CHECK = Check("rivet-for-sheet", "note", find)
