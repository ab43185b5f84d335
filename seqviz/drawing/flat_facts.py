"""What stands on the sheet of a flat pattern, before it is laid out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seqviz.assembly.kinds import Kind
from seqviz.build import Build
from seqviz.geometry.pose import Array
from seqviz.parts.flat_pattern import BendLine, FlatPattern, PatternHole, flat_pattern
from seqviz.parts.part import ANOTHER_MODEL
from seqviz.scene.phrases import counted, listed, sentence
from seqviz.scene.pile import opening_names
from seqviz.trade.bends import FORMULAS
from seqviz.units import length_text

__all__ = ["FlatFacts", "HoleGroup", "bend_words", "flat_facts", "why_not_flat"]

GOVERNS = "The designer's drawing governs."
_TRY = "Brakes and sheets differ: bend a strip of the same sheet first, and measure it."
_ROUND = "Half way up lies the line at the top of the tube (y = 0); both long edges meet below."
_TRUE = "Print it at 100 percent, and measure the line that says how long it is."


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HoleGroup:
    """Holes of one diameter in mm; ``sizes``: how they are called; holes at one place count once."""

    diameter: float
    sizes: tuple[str, ...]
    holes: tuple[PatternHole, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FlatFacts:
    """The pattern, its words and groups.

    Attributes
    ----------
    name, lines
        The title, and the lines under it.
    groups
        The most frequent diameter first.
    openings
        What stands at each opening of the pattern.
    bends
        Of each bend line the short words beside it.
    notes
        The lines under the drawing.
    """

    name: str
    pattern: FlatPattern
    units: str
    lines: tuple[str, ...]
    groups: tuple[HoleGroup, ...]
    openings: tuple[str, ...]
    bends: tuple[str, ...]
    notes: tuple[str, ...]


def flat_facts(build: Build, kind: Kind) -> FlatFacts | None:
    """Return what the sheet of a kind says; None where it has no flat pattern (see `why_not_flat`)."""
    pattern = flat_pattern(kind.part)
    if pattern is None:
        return None
    units = build.model.units
    return FlatFacts(
        name=kind.name,
        pattern=pattern,
        units=units,
        lines=tuple(_title_lines(build, kind, pattern)),
        groups=_groups(kind, pattern),
        openings=_opening_words(opening_names(build, kind), pattern, units),
        bends=tuple(
            f"B{number} {_bent(bend, units)}" for number, bend in enumerate(pattern.bend_lines, start=1)
        ),
        notes=tuple(_notes(pattern, units)),
    )


def why_not_flat(kind: Kind) -> str:
    """Return why a kind has no flat pattern, as a sentence."""
    part = kind.part
    if not part.pieces and not part.flats:
        return f"{kind.name} has no dimensions yet."
    what = part.shape if part.shape == ANOTHER_MODEL else f"a {part.shape}"
    return f"{kind.name} is {what}, and not one sheet that is cut out flat."


def bend_words(bend: BendLine, units: str) -> str:
    """Return ``up 90 degrees, inside radius 2.4 mm``."""
    way = "up" if bend.up else "down"
    return f"{way} {_plain(bend.angle)} degrees, inside radius {length_text(bend.radius, units)}"


def _bent(bend: BendLine, units: str) -> str:
    return f"{'up' if bend.up else 'down'} {_plain(bend.angle)}°, R {length_text(bend.radius, units)}"


def _title_lines(build: Build, kind: Kind, pattern: FlatPattern) -> list[str]:
    units = build.model.units
    record = build.model.parts.get(kind.entry)
    long, wide = (length_text(value, units) for value in pattern.size)
    material = f", {record.material}" if record and record.material else ""
    sheet = f"{kind.part.shape.capitalize()} of {length_text(pattern.thickness, units)} sheet{material}"
    flat = "Laid round its outside" if kind.part.shape == "tube" else "Cut out flat"
    lines = [f"{sheet}. {flat}: {long} by {wide}."]
    known = [("number", record.number), ("drawing", record.drawing)] if record else []
    if told := [f"{word} {value}" for word, value in known if value]:
        lines.append(sentence(", ".join(told)))
    pieces = (
        f"{counted(len(kind.placed), 'piece')}: {listed(kind.placed)}" if kind.placed else "Not placed yet"
    )
    hand = f", the other hand of {kind.entry} as written" if kind.part.mirrored else ""
    lines.append(f"{pieces}{hand}.")
    flat = pattern.seen_flat
    face = "" if flat == "face" else f" of {flat}" if flat[-1].isdigit() else f" of the {flat}"
    lines.append(f"Seen from the {pattern.seen_from}{face}.")
    return lines


def _groups(kind: Kind, pattern: FlatPattern) -> tuple[HoleGroup, ...]:
    found: dict[float, list[PatternHole]] = {}
    sizes: dict[float, dict[str, None]] = {}
    for hole, drawn in zip(kind.part.holes, pattern.holes, strict=True):
        diameter = round(hole.diameter, 3)
        found.setdefault(diameter, []).append(drawn)
        if hole.size:
            sizes.setdefault(diameter, {})[hole.size] = None
    groups = [
        HoleGroup(diameter=diameter, sizes=tuple(sizes.get(diameter, ())), holes=_once(holes))
        for diameter, holes in found.items()
    ]
    return tuple(sorted(groups, key=lambda group: (-len(group.holes), group.diameter)))


def _once(holes: list[PatternHole]) -> tuple[PatternHole, ...]:
    """Return one hole for every place: two names may belong to one."""
    return tuple({tuple(np.round(hole.centre, 3).tolist()): hole for hole in reversed(holes)}.values())[::-1]


def _opening_words(names: tuple[str, ...], pattern: FlatPattern, units: str) -> tuple[str, ...]:
    named = names if len(names) == len(pattern.openings) else ("opening",) * len(pattern.openings)
    return tuple(
        f"{name}, {_opening_size(ring, units)}" for name, ring in zip(named, pattern.openings, strict=True)
    )


def _opening_size(ring: Array, units: str) -> str:
    middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
    reach = np.linalg.norm(ring - middle, axis=1)
    wide, high = (ring.max(axis=0) - ring.min(axis=0)).tolist()
    if len(ring) > 8 and float(np.ptp(reach)) < 0.02:
        return f"diameter {length_text(2 * float(reach.max()), units)}"
    return f"{length_text(wide, units)} by {length_text(high, units)}"


def _notes(pattern: FlatPattern, units: str) -> list[str]:
    notes = []
    for number, bend in enumerate(pattern.bend_lines, start=1):
        one, other = bend.between
        done = f"{one} to {other}: bend" if one != other else f"{one}: roll"
        notes.append(f"B{number}, {done} {bend_words(bend, units)}.{_where(bend, pattern, units)}")
    if notes:
        notes.append("Up is towards you, down away from you. Dashed: the middle of a bend; dotted: its ends.")
        notes.append(f"Bend allowance by the neutral axis formula, {FORMULAS['neutral axis']}.")
        notes.append(_TRY)
    if pattern.seen_flat == "wall":
        notes.append(_ROUND)
    return [*notes, *pattern.notes, GOVERNS, _TRUE]


def _where(bend: BendLine, pattern: FlatPattern, units: str) -> str:
    """Return where a level or upright bend line lies, and what the bend takes."""
    for axis, edge in ((1, "lower"), (0, "left")):
        if abs(bend.end[axis] - bend.start[axis]) < 1e-6:
            middle = float(bend.start[axis] - pattern.outline[:, axis].min())
            ends = (middle - bend.allowance / 2, middle + bend.allowance / 2)
            low, high = (length_text(end, units) for end in ends)
            return (
                f" Its middle is {length_text(middle, units)} from the {edge} edge; the bend takes "
                f"{length_text(bend.allowance, units)}, from {low} to {high}."
            )
    return f" The bend takes {length_text(bend.allowance, units)}."


def _plain(number: float) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".")
