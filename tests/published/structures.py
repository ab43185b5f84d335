"""Structures of plain blocks, plates and hats whose orders of work can be counted by hand."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import shapely

from seqviz.build import build
from seqviz.checks.run import run

__all__ = ["Cell", "Outline", "Trial", "bricks", "cells", "on_posts", "place", "take_off"]

Cell = tuple[int, int, int]
Outline = Sequence[tuple[float, float]]
SIDE = 20.0
"""mm, of a cell."""

HEAD = """\
format: 1
name: Trial
base: anchor
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
"""


@dataclass(kw_only=True)
class Trial:
    """A model and the steps of its elements; each question is a run of the whole program.

    Attributes
    ----------
    do, undo
        Element -> the line of the sequence that does it, and the one that takes it back.
    first
        Lines before them.
    bench
        ``flat`` or ``trestles``.
    """

    folder: Path
    model: str
    do: dict[str, str]
    undo: dict[str, str]
    first: tuple[str, ...] = ()
    bench: str = "trestles"

    def found(self, lines: Sequence[str]) -> dict[int, list[str]]:
        """Return step -> kinds of errors and warnings of a sequence; those after `first` count from 1."""
        (self.folder / "model.yaml").write_text(self.model, encoding="utf-8")
        text = f"format: 1\nmodel: model.yaml\nbench: {self.bench}\nsteps:\n"
        text += "".join(f"  - {line}\n" for line in (*self.first, *lines))
        (self.folder / "sequence.yaml").write_text(text, encoding="utf-8")
        kinds: dict[int, list[str]] = {}
        for finding in run(build(str(self.folder / "sequence.yaml"))):
            if finding.severity != "note":
                assert finding.at.file.endswith("sequence.yaml"), finding
                step = finding.at.line - 4 - len(self.first)
                kinds.setdefault(step, []).append(finding.kind)
        return kinds

    def kinds(self, order: Sequence[str]) -> list[str]:
        """Return the kinds found when the elements are done in that order."""
        found = self.found([self.do[element] for element in order])
        return [kind for step in sorted(found) for kind in found[step]]

    def orders(self) -> int:
        """Return how many orders of all elements have no finding.

        Whether a step can be done depends on what is there, not on how it came there: so orders are counted
        set by set. One sequence goes through all sets of a size: it makes each by an order that was right,
        tries every other element on it, and takes everything off again. What does not go in never will once
        more is there, so that no order goes on from such a set.
        """
        sets: dict[frozenset[str], tuple[int, tuple[str, ...]]] = {frozenset(): (1, ())}
        for _ in self.do:
            lines: list[str] = []
            tries: dict[int, tuple[frozenset[str], str]] = {}
            for there, (_, order) in sets.items():
                lines += [self.do[element] for element in order]
                for element in sorted(self.do.keys() - there):
                    lines += [self.do[element], self.undo[element]]
                    tries[len(lines) - 1] = (there, element)
                lines += [self.undo[element] for element in reversed(order)]
            wrong = self.found(lines)
            shut = {tries[step][0] for step, kinds in wrong.items() if step in tries and "no-way-in" in kinds}
            longer: dict[frozenset[str], tuple[int, tuple[str, ...]]] = {}
            for step, (there, element) in tries.items():
                if step not in wrong and there not in shut:
                    count, order = sets[there]
                    known, witness = longer.get(there | {element}, (0, (*order, element)))
                    longer[there | {element}] = (known + count, witness)
            sets = longer
        return sum(count for count, _ in sets.values())


def place(names: Iterable[str]) -> dict[str, str]:
    """Return the lines that place each of ``names``."""
    return {name: f"place: {name}" for name in names}


def take_off(names: Iterable[str]) -> dict[str, str]:
    """Return the lines that take each of ``names`` off."""
    return {name: f"take off: {name}" for name in names}


def bricks(plates: Mapping[str, tuple[int, int]]) -> tuple[str, str]:
    """Return a model of plates ``{name: (middle, level)}``, and the step that places its posts.

    Plates whose middles are 1 apart lie over each other, 2 apart side by side. A fixed post goes through the
    middle of each, so that a plate moves only up and down, and down is closed by the floor: one plate must
    come before another exactly where it lies under it.
    """
    middles = sorted({middle for middle, _ in plates.values()})
    half, top = 0.9 * SIDE, 5.0 * (1 + max(level for _, level in plates.values())) + 10.0
    parts = [
        "  anchor: {shape: block, length: 1, width: 1, height: 1}",
        f"  floor: {{shape: block, length: {(middles[-1] + 2) * SIDE}, width: {SIDE}, height: 5}}",
        f"  post: {{shape: block, length: 2, width: 2, height: {top}}}",
        f"  plate: {{shape: plate, thickness: 5, outline: [[-{half}, 0], [{half}, 0], [{half}, {SIDE}], "
        f"[-{half}, {SIDE}]], openings: {{post: {{outline: [[-2, 8], [2, 8], [2, 12], [-2, 12]]}}}}}}",
    ]
    placed = [_at("floor", "floor", (-SIDE, 0, -5))]
    placed += [_at(f"post {k}", "post", (SIDE * k - 1, 9, 0)) for k in middles]
    placed += [
        _at(name, "plate", (SIDE * middle, 0, 5.0 * level)) for name, (middle, level) in plates.items()
    ]
    fixed = ", ".join(["floor", *(f"post {k}" for k in middles)])
    return _model(parts, placed), f"place: [{fixed}]"


def on_posts(
    plates: Mapping[str, tuple[Outline, int]], posts: Sequence[tuple[float, float]]
) -> tuple[str, str]:
    """Return a model of plates ``{name: (outline, level)}`` on posts, and the step that places the posts.

    As `bricks`, for outlines of any form in mm. Every post in a plate goes through it; each plate needs one.
    """
    top = 5.0 * (1 + max(level for _, level in plates.values())) + 10.0
    everywhere = [corner for outline, _ in plates.values() for corner in outline]
    long, wide = (max(corner[k] for corner in everywhere) for k in (0, 1))
    parts = [
        "  anchor: {shape: block, length: 1, width: 1, height: 1}",
        f"  floor: {{shape: block, length: {long}, width: {wide}, height: 5}}",
        f"  post: {{shape: block, length: 2, width: 2, height: {top}}}",
    ]
    placed = [_at("floor", "floor", (0, 0, -5))]
    placed += [_at(f"post {k}", "post", (x - 1, y - 1, 0)) for k, (x, y) in enumerate(posts)]
    for name, (outline, level) in plates.items():
        inside = [k for k, post in enumerate(posts) if shapely.Polygon(outline).contains(shapely.Point(post))]
        assert inside, f"nothing holds {name}"
        holes = ", ".join(f"post {k}: {{outline: {_square(posts[k])}}}" for k in inside)
        corners = [list(corner) for corner in outline]
        parts.append(
            f"  {name}: {{shape: plate, thickness: 5, outline: {corners}, openings: {{{holes}}}}}",
        )
        placed.append(_at(name, name, (0, 0, 5.0 * level)))
    fixed = ", ".join(["floor", *(f"post {k}" for k in range(len(posts)))])
    return _model(parts, placed), f"place: [{fixed}]"


def _square(middle: tuple[float, float]) -> list[list[float]]:
    x, y = middle
    return [[x - 2, y - 2], [x + 2, y - 2], [x + 2, y + 2], [x - 2, y + 2]]


def cells(blocks: Mapping[str, Iterable[Cell]]) -> str:
    """Return a model of named blocks, each of one or more cells of 20 mm, at ``(x, y, z)`` cells.

    A block of several cells is placed as as many parts ``NAME K``; one of one cell is called as given.
    """
    parts = [
        "  anchor: {shape: block, length: 1, width: 1, height: 1}",
        f"  cell: {{shape: block, length: {SIDE}, width: {SIDE}, height: {SIDE}}}",
    ]
    placed = []
    for name, filled in blocks.items():
        spots = list(filled)
        for number, spot in enumerate(spots):
            x, y, z = (SIDE * one for one in spot)
            placed.append(_at(name if len(spots) == 1 else f"{name} {number}", "cell", (x, y, z)))
    return _model(parts, placed)


def _model(parts: Sequence[str], placed: Sequence[str]) -> str:
    return HEAD + "parts:\n" + "\n".join(parts) + "\nplaced:\n" + "\n".join(placed) + "\n"


def _at(name: str, part: str, spot: tuple[float, float, float]) -> str:
    # The anchor, which carries the frame, stands well aside.
    x, y, z = spot
    return f"  {name}: {{part: {part}, at: [{x + 5000}, {y + 5000}, {z}], x along: forward, y along: left}}"
