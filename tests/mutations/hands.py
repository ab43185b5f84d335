"""The other hand: words of the model file that say which hand, which leg and which end, turned round one by one.

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


def fits(assembly: Assembly, hand: Hand) -> bool:
    """Say whether every part of the entry can lie as its words say; ``assembly`` is the clean structure."""
    entry = hand.model["placed"][hand.name]
    twins = names_of(assembly, hand.name)
    return all(_fits(assembly, entry, twin, assembly.placed[twins[0]], len(twins) > 1) for twin in twins)


def _fits(assembly: Assembly, entry: Entry, twin: str, first: PlacedPart, twins: bool) -> bool:
    part, here = assembly.placed[twin].part, assembly.placed[twin]
    mirror = np.ones(3)
    if twins and twin != first.name:
        part = first.part
        mirror = np.array([1.0, -1.0 if entry["both sides"] == "other hand" else 1.0, 1.0])
    # The face that lies down does not change with the hand.
    rows = _rows(assembly, entry, here, twin)
    for own_row, ends, target in rows:
        holes = {
            h.name: (h.centre * mirror, h.axis * mirror, h.diameter) for h in part.holes if h.row == own_row
        }
        clean = next(h for h in here.part.holes if h.row == own_row)
        toward = here.pose.rotation @ clean.axis
        axis = next(iter(holes.values()))[1]
        if mirror[1] < 0:
            axis = next(h for h in part.holes if h.row == own_row).axis * mirror
        turn, shift = _pose([holes[own][0] for own, _ in ends], axis, [spot for _, spot in ends], toward)
        landed = all(
            any(
                np.linalg.norm(turn @ c + shift - spot) < 0.3 and abs(d - size) < 0.05
                for spot, size in target
            )
            for c, _, d in holes.values()
        )
        vertices = np.concatenate([piece.vertices for piece in part.pieces]) * mirror
        if landed and _leg(assembly, entry, vertices @ turn.T + shift, ends, toward):
            return True
    return False


def _rows(
    assembly: Assembly, entry: Entry, here: PlacedPart, twin: str
) -> list[tuple[str, list[tuple[str, Array]], list[tuple[Array, float]]]]:
    """Return the own row, the two pairs (own hole, spot), and all holes beneath; of ``along`` both ways round."""
    if "along" in entry:
        placed, row = _target(assembly, entry["along"], twin)
        own = here.part.holes[0].row
        target = [h for h in placed.holes if h.row == row]
        names = [h.name for h in here.part.holes if h.row == own]
        spots = [placed.pose.points(h.centre) for h in (target[0], target[-1])]
        sizes = _sized(placed, row)
        return [
            (own, [(names[0], spots[0]), (names[-1], spots[1])], sizes),
            (own, [(names[0], spots[1]), (names[-1], spots[0])], sizes),
        ]
    ends = []
    for own, there in entry["match"].items():
        name, _, number = there.rpartition(".")
        placed, row = _target(assembly, name, twin)
        spot = placed.pose.points(next(h for h in placed.holes if h.name == f"{row}.{number}").centre)
        ends.append((own, spot))
    own = next(iter(entry["match"])).rpartition(".")[0]
    return [(own, ends, _sized(placed, row))]


def _target(assembly: Assembly, name: str, twin: str) -> tuple[PlacedPart, str]:
    placed, _, row = name.partition(".")
    side = twin.rsplit(" ", 1)[-1]
    found = assembly.placed[placed if placed in assembly.placed else f"{placed} {side}"]
    return found, row if any(h.row == row for h in found.holes) else f"{row} {side}"


def _sized(placed: PlacedPart, row: str) -> list[tuple[Array, float]]:
    del row
    return [(placed.pose.points(h.centre), h.diameter) for h in placed.holes]


def _pose(own: list[Array], axis: Array, spots: list[Array], toward: Array) -> tuple[Array, Array]:
    """Return the rotation and shift that lay the line of two own holes on the line of two spots."""
    mine, yours = own[1] - own[0], spots[1] - spots[0]
    mine, yours = mine / np.linalg.norm(mine), yours / np.linalg.norm(yours)
    before = np.column_stack([mine, axis, np.cross(mine, axis)])
    after = np.column_stack([yours, toward, np.cross(yours, toward)])
    turn = after @ before.T
    level = (np.mean(spots, axis=0) - turn @ np.mean(own, axis=0)) @ toward
    del level
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
