"""Writes a big structure as YAML: boxes on one deck. Run: ``python -m tests.bench.boxes FOLDER [BOXES]``.

A box has four edge angles whose bends are not square, so that its walls lean in or out; stringers on the
walls and on the deck; a doubler under one of them, a bar, a rib with its web and two gussets, and a block.
20 boxes, the default, make 521 parts and 7,440 fasteners. The same seed writes the same files.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator
from pathlib import Path

__all__ = ["model_text", "sequence_text", "write"]

SEED = 11
PITCH = (510, 410)
"""mm from box to box, along x and y; a box covers 360 x 260."""
ACROSS = 5
"""Boxes side by side along x."""
LEAN = 6.0
"""Degrees that a wall leans at most."""
WALLS = {"aft": 15, "forward": 15, "left": 26, "right": 26}
"""Holes along the foot of each wall; left and right are the long ones, along x."""

HEAD = """\
format: 1
name: Boxes on a deck
units: mm
base: deck
forward: +x
sizes:
  small: {diameter: 3.3, with: pull 3.2}
hardware:
  pull 3.2: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.0, 3.5], 8: [3.5, 5.0]}}
stock:
  stringer: {shape: angle, thickness: 0.8, legs: [16, 14], bend radius: 1.6, row in: 9, ends: 8}
parts:
"""

SHARED = """\
  rib angle:
    shape: angle
    thickness: 0.8
    length: 200
    legs: [20, 28]
    bend radius: 1.6
    holes:
      foot: {flat: leg 1, from: [9, 12], to: [191, 12], count: 14, size: small}
      web:  {flat: leg 2, from: [10, 18], to: [190, 18], count: 13, size: small}
  rib web:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 70], [0, 70]]
    holes:
      foot:   {from: [10, 14], to: [190, 14], count: 13, size: small}
      aft:    {at: [[10, 60], [10, 42], [28, 60]], size: small}
      second: {at: [[190, 60], [190, 42], [172, 60]], size: small}
  gusset:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [36, 0], [0, 36]]
    holes:
      eye: {at: [[8, 8], [8, 26], [26, 8]], size: small}
  doubler:
    shape: plate
    thickness: 0.6
    outline: [[0, 0], [150, 0], [150, 24], [0, 24]]
    holes:
      line: {from: [11, 12], to: [139, 12], count: 9, size: small}
  flat bar:
    shape: bar
    length: 120
    width: 18
    thickness: 2
    holes:
      line: {flat: top, from: [10, 9], to: [110, 9], count: 8, size: small}
  stop block: {shape: block, length: 20, width: 12, height: 10}
"""

SEQUENCE = """\
format: 1
model: boxes_model.yaml
up: upper
bench: trestles
finished: yes
tools:
  slim puller:
    for: blind rivet
    body: [{cylinder: 10, from: 0, to: 20}, {cylinder: 24, from: 20, to: 90}]
    turns: 8
    tilt: 5
    reach: {diameter: 60, length: 300, along: any}
steps:
  - place: deck
"""


def model_text(boxes: int, seed: int = SEED) -> str:
    """Return a model with that many boxes."""
    chance = random.Random(seed)
    across, along = min(boxes, ACROSS), -(-boxes // ACROSS)
    size = (across * PITCH[0], along * PITCH[1])
    deck = [
        "  deck:",
        "    shape: skin",
        "    thickness: 1.0",
        f"    outline: [[0, 0], [{size[0]}, 0], [{size[0]}, {size[1]}], [0, {size[1]}]]",
        "    holes:",
        *(line for box in range(boxes) for line in _deck_rows(box)),
    ]
    parts = [line for box in range(boxes) for line in _box_parts(box, chance)]
    placed = [line for box in range(boxes) for line in _box_placed(box)]
    return HEAD + "\n".join([*deck, *parts, SHARED + "placed:", *placed]) + "\n"


def sequence_text(boxes: int) -> str:
    """Return the order of work: box by box, the floor of each, then wall by wall."""
    return SEQUENCE + "\n".join(line for box in range(boxes) for line in _box_steps(box)) + "\n"


def write(folder: Path, boxes: int = 20, seed: int = SEED) -> Path:
    """Write both files and return the sequence's path."""
    (folder / "boxes_model.yaml").write_text(model_text(boxes, seed), encoding="utf-8")
    sequence = folder / "boxes.yaml"
    sequence.write_text(sequence_text(boxes), encoding="utf-8")
    return sequence


def _corner(box: int) -> tuple[int, int]:
    """Return the corner of the box on the deck, mm."""
    return box % ACROSS * PITCH[0] + 75, box // ACROSS * PITCH[1] + 75


def _row(name: str, start: tuple[int, int], end: tuple[int, int], count: int) -> str:
    return f"      {name}: {{from: {list(start)}, to: {list(end)}, count: {count}, size: small}}"


def _deck_rows(box: int) -> Iterator[str]:
    """Yield the rows of one box: each edge 12 inside the box's side, then what lies on its floor."""
    x, y = _corner(box)
    yield _row(f"b{box} left", (x + 15, y + 248), (x + 345, y + 248), WALLS["left"])
    yield _row(f"b{box} right", (x + 15, y + 12), (x + 345, y + 12), WALLS["right"])
    yield _row(f"b{box} aft", (x + 12, y + 50), (x + 12, y + 210), WALLS["aft"])
    yield _row(f"b{box} forward", (x + 348, y + 50), (x + 348, y + 210), WALLS["forward"])
    yield _row(f"b{box} rib", (x + 190, y + 39), (x + 190, y + 221), 14)
    yield _row(f"b{box} strip 1", (x + 36, y + 70), (x + 164, y + 70), 9)
    yield _row(f"b{box} strip 2", (x + 36, y + 130), (x + 164, y + 130), 9)
    yield _row(f"b{box} strip 3", (x + 36, y + 190), (x + 164, y + 190), 9)
    yield _row(f"b{box} bar", (x + 222, y + 100), (x + 322, y + 100), 8)


def _box_parts(box: int, chance: random.Random) -> Iterator[str]:
    """Yield the edge angles and walls of one box; each edge has its own bend."""
    for side, count in WALLS.items():
        long = side in ("left", "right")
        length, first = (360, 15) if long else (180, 10)
        bend = round(90.0 + chance.uniform(-LEAN, LEAN), 1)
        ends = f"from: [{first}, 12], to: [{length - first}, 12], count: {count}"
        yield f"  b{box} {side} edge:"
        yield f"    {{shape: angle, thickness: 0.8, length: {length}, legs: [22, 25],"
        yield f"     bend radius: 1.6, angle: {bend},"
        yield f"     holes: {{foot: {{flat: leg 1, {ends}, size: small}},"
        yield f"             wall: {{flat: leg 2, {ends.replace(', 12]', ', 17]')}, size: small}}}}}}"
        yield f"  b{box} {side} wall:"
        yield "    shape: skin"
        yield "    thickness: 0.6"
        yield f"    outline: [[0, 0], [{length}, 0], [{length}, 120], [0, 120]]"
        yield "    holes:"
        yield f"      foot: {{{ends}, size: small}}"
        for height in (60, 95):
            fewer = f"from: [{first}, {height}], to: [{length - first}, {height}], count: {count - 3}"
            yield f"      line {height}: {{{fewer}, size: small}}"


def _box_placed(box: int) -> Iterator[str]:
    own = f"b{box}"
    for side, count in WALLS.items():
        # Seen from above the edge's foot points into the box: rows are matched backwards on two sides.
        ends = (1, count) if side in ("right", "forward") else (count, 1)
        row = f"deck.{own} {side}"
        yield f"  {own} {side} edge:"
        yield f"    part: {own} {side} edge"
        yield f"    match: {{foot.1: {row}.{ends[0]}, foot.{count}: {row}.{ends[1]}}}"
        edge = f"{own} {side} edge.wall"
        yield f"  {own} {side} wall:"
        yield f"    part: {own} {side} wall"
        yield f"    match: {{foot.1: {edge}.1, foot.{count}: {edge}.{count}}}"
        for height in (60, 95):
            line = f"{own} {side} wall.line {height}"
            yield f"  {own} {side} stringer {height}: {{stock: stringer, along: {line}}}"
    yield f"  {own} rib: {{part: rib angle, match: {{foot.1: deck.{own} rib.1, foot.14: deck.{own} rib.14}}}}"
    yield f"  {own} web: {{part: rib web, match: {{foot.1: {own} rib.web.1, foot.13: {own} rib.web.13}}}}"
    for row in ("aft", "second"):
        pairs = ", ".join(f"eye.{k}: {own} web.{row}.{k}" for k in (1, 2, 3))
        yield f"  {own} gusset {row}: {{part: gusset, match: {{{pairs}}}{FACES[row]}}}"
    line = f"deck.{own} strip 1"
    yield f"  {own} doubler: {{part: doubler, match: {{line.1: {line}.1, line.9: {line}.9}}}}"
    yield f"  {own} strip 1: {{stock: stringer, along: {line}, over: {own} doubler}}"
    yield f"  {own} strip 2: {{stock: stringer, along: deck.{own} strip 2}}"
    yield f"  {own} strip 3: {{stock: stringer, along: deck.{own} strip 3}}"
    yield f"  {own} bar: {{part: flat bar, match: {{line.1: deck.{own} bar.1, line.8: deck.{own} bar.8}}}}"
    x, y = (start + way for start, way in zip(_corner(box), (305, 190), strict=True))
    yield f"  {own} stop: {{part: stop block, at: [{x}, {y}, 1], x along: forward, y along: left}}"


FACES = {"aft": ", face: outside", "second": ""}
"""The web's first corner is the mirror of its second: there the gusset lies with its other face down."""


def _box_steps(box: int) -> Iterator[str]:
    own = f"b{box}"
    floor = [f"{own} {what}" for what in ("doubler", "strip 1", "strip 2", "strip 3", "bar", "rib", "stop")]
    edges = [f"{own} {side} edge" for side in WALLS]
    yield f"  - place: [{', '.join(floor + edges)}]"
    yield "    pins: ends and every 6th"
    yield "  - rivet: everything ready"
    yield "  - check: every head lies flat"
    yield f"  - place: [{own} web, {own} gusset aft, {own} gusset second]"
    yield "  - rivet: everything ready"
    for side, count in WALLS.items():
        yield f"  - place: [{own} {side} wall, {own} {side} stringer 60, {own} {side} stringer 95]"
        pins = [f"{own} {side} edge.wall.{number}" for number in (*range(1, count, 10), count)]
        yield f"    pins: [{', '.join(pins)}]"
        yield "  - rivet: everything ready"
        yield "  - check: every head lies flat"


def main() -> None:
    """Write the files into the folder named."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    print(write(folder, int(sys.argv[2]) if len(sys.argv) > 2 else 20))


if __name__ == "__main__":
    main()
