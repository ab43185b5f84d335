"""The other hand: words of the model that say which hand, which leg and which end, turned one by one.

Whether the part still fits is asked of its holes alone: each must land on a hole of its own size, and the leg
must stand where the words say.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.geometry.solids import solids_of
from seqviz.parts.part import Hole, Part
from tests.mutations.bench import names_of
from tests.mutations.read import Entry

__all__ = ["Hand", "fits", "hands"]

OPPOSITE = {
    "outboard": "inboard",
    "inboard": "outboard",
    "forward": "aft",
    "aft": "forward",
    "left": "right",
    "right": "left",
    "other hand": "same part",
    "same part": "other hand",
}
Array = Any


@dataclass(frozen=True)
class Hand:
    """``model``: the file with one word changed, in the entry ``name`` of ``placed``."""

    name: str
    what: str
    model: Entry


def hands(clean: Entry) -> Iterator[Hand]:
    """Yield the model with one word about hands turned round, for every such word."""
    for name, entry in clean["placed"].items():
        for word in ("both sides", "standing leg"):
            if word in entry:
                yield _changed(clean, name, word, OPPOSITE[entry[word]])
        if len(entry.get("match", ())) == 2:
            (one, there), (other, yonder) = entry["match"].items()
            yield _changed(clean, name, "match", {one: yonder, other: there})


def _changed(clean: Entry, name: str, word: str, value: Any) -> Hand:
    model = copy.deepcopy(clean)
    model["placed"][name][word] = value
    return Hand(name, f"{name}: {word}: {value}", model)


def fits(clean: Assembly, assembly: Assembly, hand: Hand) -> bool:
    """Say whether every part can lie as the words say, on the others where they lie in ``assembly``.

    Of a pair of other hands either may be the drawn one.
    """
    for name, entry in hand.model["placed"].items():
        twins = names_of(clean, name)
        pairs = [(1.0,)] if len(twins) == 1 else [(1.0, 1.0), (-1.0, -1.0)]
        if entry.get("both sides") == "other hand":
            pairs = [(1.0, -1.0), (-1.0, 1.0)]
        drawn = clean.placed[twins[0]].part
        if not any(
            all(
                _fits((clean, assembly), entry, twin, (drawn, sign))
                for twin, sign in zip(twins, signs, strict=True)
            )
            for signs in (pairs if "standing leg" in entry else pairs[:1])
        ):
            return False
    return True


def _fits(both: tuple[Assembly, Assembly], entry: Entry, twin: str, piece: tuple[Part, float]) -> bool:
    clean, assembly = both
    (part, sign), here = piece, clean.placed[twin]
    mirror = np.array([1.0, sign, 1.0])
    shared = {h.name for h in here.part.holes if _partners(clean, twin, h.name)}
    others = [
        (other.pose.points(h.centre), h.diameter)
        for name, other in assembly.placed.items()
        if name != twin
        for h in other.holes
    ]
    over = [1.0, -1.0] if part.shape == "plate" and "face" not in entry else [1.0]
    for own_row, ends in _rows(assembly, entry, here, twin):
        row = next(h for h in part.holes if h.row == own_row)
        toward = here.pose.rotation @ next(h for h in here.part.holes if h.row == own_row).axis
        spots = [spot for _, spot in ends]
        own = [next(h for h in part.holes if h.name == name).centre * mirror for name, _ in ends]
        for face in over:
            turn, shift = _pose(own, row.axis * mirror, spots, toward * face)
            # Its height is that of the clean structure: it lies on its target, not in its middle.
            known = here.pose.points(next(h for h in here.part.holes if h.row == own_row).centre)
            shift = shift + toward * ((known - spots[0]) @ toward)
            holes = [h for h in part.holes if h.name in shared]
            vertices = solids_of(part.pieces).vertices.reshape(-1, 3) * mirror
            if all(_lands(turn, shift, mirror, h, others) for h in holes) and _leg(
                clean, entry, vertices @ turn.T + shift, ends, toward
            ):
                return True
    return False


def _partners(clean: Assembly, twin: str, hole: str) -> bool:
    index = clean.stack_of.get(f"{twin}.{hole}")
    return index is not None and len(set(clean.stacks[index].parts)) > 1


def _lands(turn: Array, shift: Array, mirror: Array, hole: Hole, others: list[tuple[Array, float]]) -> bool:
    """Say whether a hole of another part, of the same size, lies on the hole's axis, close by."""
    centre, axis = turn @ (hole.centre * mirror) + shift, turn @ (hole.axis * mirror)
    return any(
        np.linalg.norm(away - (away @ axis) * axis) < 0.3
        and abs(away @ axis) < 10.0
        and abs(size - hole.diameter) < 0.05
        for away, size in ((spot - centre, size) for spot, size in others)
    )


def _rows(
    assembly: Assembly, entry: Entry, here: PlacedPart, twin: str
) -> list[tuple[str, list[tuple[str, Array]]]]:
    """Return the own row and two pairs of own hole and spot; of ``along`` both ways round."""
    if "along" in entry:
        placed, row = _target(assembly, entry["along"], twin)
        target = [h for h in placed.holes if h.row == row]
        own = [h for h in here.part.holes if h.row == here.part.holes[0].row]
        spots = [placed.pose.points(h.centre) for h in (target[0], target[-1])]
        names = (own[0].name, own[-1].name)
        return [(own[0].row, list(zip(names, some, strict=True))) for some in (spots, spots[::-1])]
    ends = []
    for name, there in entry["match"].items():
        target_name, _, number = there.rpartition(".")
        placed, row = _target(assembly, target_name, twin)
        spot = placed.pose.points(next(h for h in placed.holes if h.name == f"{row}.{number}").centre)
        ends.append((name, spot))
    return [(next(iter(entry["match"])).rpartition(".")[0], ends)]


def _target(assembly: Assembly, name: str, twin: str) -> tuple[PlacedPart, str]:
    placed, _, row = name.partition(".")
    side = twin.rsplit(" ", 1)[-1]
    found = assembly.placed[placed if placed in assembly.placed else f"{placed} {side}"]
    return found, row if any(h.row == row for h in found.holes) else f"{row} {side}"


def _pose(own: list[Array], axis: Array, spots: list[Array], toward: Array) -> tuple[Array, Array]:
    """Return the rotation and shift that lay the line of two own holes on the line of two spots."""
    mine, yours = own[1] - own[0], spots[1] - spots[0]
    mine, yours = mine / np.linalg.norm(mine), yours / np.linalg.norm(yours)
    before = np.column_stack([mine, axis, np.cross(mine, axis)])
    after = np.column_stack([yours, toward, np.cross(yours, toward)])
    turn = after @ before.T
    return turn, np.mean(spots, axis=0) - turn @ np.mean(own, axis=0)


def _leg(assembly: Assembly, entry: Entry, vertices: Array, ends: list[Any], toward: Array) -> bool:
    """Say whether what stands farthest from the sheet is on the side that the words say."""
    if "standing leg" not in entry:
        return True
    middle = np.mean([spot for _, spot in ends], axis=0)
    height = np.abs((vertices - middle) @ toward)
    leg = vertices[height > 0.7 * height.max()].mean(axis=0) - middle
    forward, up = np.array(assembly.forward), np.array(assembly.up)
    left = np.cross(up, forward)
    word = entry["standing leg"]
    if word in ("outboard", "inboard"):
        line = np.array([float(vertices[0][0]), MIRROR[assembly.base], 0.0])
        out = left * np.sign((middle - line) @ left)
        return bool(leg @ out * (1 if word == "outboard" else -1) > 0)
    known = {"forward": forward, "aft": -forward, "left": left, "right": -left}
    return bool(leg @ known[word] > 0)


MIRROR = {"bottom": 117.0, "shelf skin": 180.0}
"""y of the mirror line, by the base."""
