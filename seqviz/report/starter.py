"""A model and a sequence to begin with: a sheet with rails, commented, from a few answers."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass

from seqviz.units import UNITS

__all__ = ["Start", "model_text", "sequence_text", "start_mistake", "usual"]

_ROOM = 1.5
"""How much of its legs' width a rail needs at least, so that hands and tools have room beside it."""


_BAR = 13.0
"""mm: half of a usual bucking bar, which stands beside the leg."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """The answers; lengths in mm, whatever ``units`` the files are to count in.

    ``length`` runs forward; ``hole`` is the holes' diameter, ``pitch`` about how far they are apart.
    """

    name: str
    units: str
    length: float
    width: float
    thickness: float
    rails: int
    rail_thickness: float
    leg: float
    rivet: str
    hole: float
    pitch: float

    @property
    def first(self) -> float:
        """From the sheet's end to the first hole, mm."""
        return 20.0 if self.units == "mm" else 0.75 * UNITS["in"]

    @property
    def row_in(self) -> float:
        """From a rail's outer corner to its holes, mm: the middle of the leg, or beside the bucking bar."""
        beside = self.rail_thickness + _BAR if self.rivet.lower().startswith("solid") else 0.0
        return max(self.leg / 2, beside)

    @property
    def spaces(self) -> int:
        """One less than the holes of a rail."""
        return max(1, round((self.length - 2 * self.first) / self.pitch))


def usual(units: str) -> Start:
    """Return the answers of somebody who has none, for files in ``mm`` or ``in``."""
    sizes = (600.0, 300.0, 0.8, 1.0, 20.0, 3.3, 30.0)
    if units == "in":
        sizes = (24.0, 12.0, 0.032, 0.040, 0.75, 0.1285, 1.25)
    length, width, thickness, rail, leg, hole, pitch = (size * UNITS[units] for size in sizes)
    return Start(
        name="My first structure",
        units=units,
        length=length,
        width=width,
        thickness=thickness,
        rails=2,
        rail_thickness=rail,
        leg=leg,
        rivet="blind rivet 3.2" if units == "mm" else "blind rivet 1/8",
        hole=hole,
        pitch=pitch,
    )


def start_mistake(start: Start) -> str | None:
    """Return what cannot be, in words, or None."""
    if start.length < 4 * start.first:
        return f"The sheet must be longer than {_written(4 * start.first, start)} for a row of rivets."
    if start.rails * _ROOM * start.leg > start.width:
        most = int(start.width / (_ROOM * start.leg))
        return f"So many rails do not fit side by side; {most} would."
    if start.leg < start.row_in + 2 * start.hole:
        return f"A leg of {_written(start.leg, start)} is too narrow for these rivets."
    if start.leg < 8 * start.rail_thickness:
        return f"Rails so thick cannot be bent with legs of {_written(start.leg, start)}."
    return None


def model_text(start: Start) -> str:
    """Return the model's file."""

    def size(value: float) -> str:
        return _written(value, start)

    legs = f"[{size(start.leg)}, {size(start.leg)}]"
    row = f"row in: {size(start.row_in)}, ends: {size(start.first * 0.6)}"
    return f"""\
# A model: what the structure is. Change the numbers, then run `seqviz check` again.
# Every word that may stand here is in docs/file-format.md.
format: 1
name: {json.dumps(start.name, ensure_ascii=False)}
units: {start.units}                        # a length may also name its own: 1/8 in, 2.5 mm
base: sheet                      # everything else is placed on it, directly or not
forward: +x                      # so that forward, aft, left and right mean something
sizes:
  small: {{diameter: {size(start.hole)}, with: {start.rivet}}}
stock:                           # pieces that are cut to the row they lie along
  # row in: from the outer corner to the holes; ends: from the last hole to the end of the piece
  rail: {{shape: angle, thickness: {size(start.rail_thickness)}, legs: {legs}, {row}}}
parts:
  sheet:
    shape: skin
    thickness: {size(start.thickness)}
    outline: {_outline(start)}
    holes:
      # A row of holes under each rail, from its first hole to its last.
{_rows(start)}
placed:
{_placed(start)}
# What is known to come and not there yet keeps quiet with a line like this one:
# later:
#   - {{holes: sheet.row 1.1, why: the bracket comes next month}}
"""


def sequence_text(start: Start, model: str) -> str:
    """Return the sequence's file, beside which lies the file called ``model``."""
    rails = ", ".join(f"rail {number}" for number in range(1, start.rails + 1))
    driven = start.rivet.lower().startswith("solid")
    bench = "bench: trestles                  # the bucking bar comes from below\\n" if driven else ""
    return f"""\
# A sequence: in which order the structure is put together, one action a step.
format: 1
model: {json.dumps(model, ensure_ascii=False)}
up: upper                        # the side of the sheet that is up on the bench at first
{bench}finished: yes                    # at the end everything is placed and every hole is filled
steps:
  - place: [{rails}]
    pins: ends and every 4th     # temporary fasteners
  - rivet: everything ready      # every hole whose layers are all there
"""


def _outline(start: Start) -> str:
    x, y = _written(start.length, start), _written(start.width, start)
    return f"[[0, 0], [{x}, 0], [{x}, {y}], [0, {y}]]"


def _rows(start: Start) -> str:
    first, last = _written(start.first, start), _written(start.length - start.first, start)
    lines = []
    for number in range(1, start.rails + 1):
        y = _written(start.width * (number - 0.5) / start.rails, start)
        ends = f"from: [{first}, {y}], to: [{last}, {y}]"
        lines.append(f"      row {number}: {{{ends}, count: {start.spaces + 1}, size: small}}")
    return "\n".join(lines)


def _placed(start: Start) -> str:
    return "\n".join(
        f"  rail {number}: {{stock: rail, along: sheet.row {number}, standing leg: left}}"
        for number in range(1, start.rails + 1)
    )


def _written(value: float, start: Start) -> str:
    """Return a length in the file's unit, without idle zeros."""
    text = f"{value / UNITS[start.units]:.4f}"
    return re.sub(r"\.?0+$", "", text)
