"""The placed parts of a page, and in plain words how to know each of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from seqviz.assembly.structure import Assembly
from seqviz.build import Build
from seqviz.page.contract import PartData
from seqviz.page.numbers import pose_numbers
from seqviz.parts.part import Part
from seqviz.scene.lengths import sizes_text, weight_text
from seqviz.scene.phrases import counted, sentence
from seqviz.scene.pile import Piece, pieces_of
from seqviz.sequence.replay_types import Replay
from seqviz.units import length_text

__all__ = ["numbered", "parts_data"]


def numbered(build: Build) -> dict[str, int]:
    """Return every placed part and its place in the page's list: as they are placed, then the others."""
    order: dict[str, None] = {}
    if build.replay is not None:
        there = [name for name, step in build.replay.placed_at.items() if step == 0]
        order |= dict.fromkeys(name for name in there if name in build.assembly.placed)
        for state in build.replay.states:
            order |= dict.fromkeys(name for name in state.placed if name in build.assembly.placed)
    order |= dict.fromkeys(build.assembly.placed)
    return {name: index for index, name in enumerate(order)}


def parts_data(build: Build, index: Mapping[str, int], shapes: Mapping[Part, int]) -> list[PartData]:
    """Return the parts in the order of ``index``; ``shapes``: part -> its shape, where it has one."""
    assembly, units = build.assembly, build.model.units
    pieces = {name: piece for piece in pieces_of(build) for name in piece.placed}
    facts = {piece.name: list(_facts(piece, units)) for piece in pieces.values()}
    on, under = _neighbours(assembly, index)
    layers = _usual_layers(assembly)
    told: list[PartData] = []
    for name, k in index.items():
        placed, piece = assembly.placed[name], pieces.get(name)
        thickness = (piece.thickness if piece else None) or placed.sheet
        told.append(
            {
                "name": name,
                "no": k + 1,
                "shape": shapes.get(placed.part) if placed.located else None,
                "pose": pose_numbers(placed.pose),
                "layer": layers.get(name),
                "thickness": length_text(thickness, units) if thickness else "",
                "facts": facts[piece.name] if piece else [],
                "first": _first(build.replay, name),
                "on": on[k],
                "under": under[k],
                "stacks": list(assembly.stacks_of_part.get(name, ())),
                "tool": placed.part.tool,
            }
        )
    return told


def _first(replay: Replay | None, name: str) -> int | None:
    return replay.placed_at.get(name) if replay else None


def _neighbours(assembly: Assembly, index: Mapping[str, int]) -> tuple[list[list[int]], list[list[int]]]:
    """Return for each part those that it sits on, and those that sit on it, each once."""
    on: list[dict[int, None]] = [{} for _ in index]
    under: list[dict[int, None]] = [{} for _ in index]
    for contact in assembly.contacts:
        upper, lower = index[contact.upper], index[contact.lower]
        on[upper][lower] = under[lower][upper] = None
    return [sorted(some) for some in on], [sorted(some) for some in under]


def _usual_layers(assembly: Assembly) -> dict[str, int]:
    """Return for each part its number in most of its joints; of two that are as frequent the lower."""
    counts: dict[str, Counter[int]] = {}
    for stack in assembly.stacks:
        if len(stack.layers) > 1:
            for number, part in enumerate(stack.parts, start=1):
                counts.setdefault(part, Counter())[number] += 1
    return {part: min(seen, key=lambda n: (-seen[n], n)) for part, seen in counts.items()}


def _facts(piece: Piece, units: str) -> Iterator[str]:
    """Yield sentences: what it is, how big, what of, and which hole tells how it lies."""
    size = f", {sizes_text(piece.size, units)}{' mm' if units == 'mm' else ''}" if piece.size else ""
    yield sentence(f"{piece.shape}{', other hand' if piece.other_hand else ''}{size}")
    if len(piece.placed) > 1:
        yield sentence(f"one of {counted(len(piece.placed), 'piece')} called {piece.name}")
    if piece.material:
        yield sentence(f"of {piece.material}")
    if piece.weight is not None:
        yield sentence(f"it weighs about {weight_text(piece.weight, units)}")
    if piece.number or piece.drawing:
        told = (("number", piece.number), ("drawing", piece.drawing))
        yield sentence(", ".join(f"{word} {value}" for word, value in told if value))
    yield from piece.odd
    if piece.how_to_tell:
        yield sentence(f"how to tell: {piece.how_to_tell}")
