"""What is said of a section: beside each thing a few words, under the drawing a few lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seqviz.assembly.stacks import CLEAR
from seqviz.drawing.section import Section, SectionFastener, SectionLayer
from seqviz.drawing.section_levels import Untrue
from seqviz.scene.phrases import listed
from seqviz.trade.choice_words import named_take
from seqviz.trade.fasteners import BOLT, SOLID_RIVET
from seqviz.units import length_text

__all__ = ["gap_words", "layer_words", "lines_below", "side_words"]

_MORE = 4  # layers inside another model that are named


_UNTRUE = {
    "broken": "A layer with a break in it is thicker than drawn.",
    "thin": "A thin layer is drawn thicker than it is.",
    "other": "Gaps, heads and tails are not to scale in height.",
}


def layer_words(layer: SectionLayer, section: Section) -> list[str]:
    """Return the lines under a layer's name: what is special, and what it holds inside."""
    units = section.units
    told = []
    if layer.hole is None:
        told.append("not drilled")
    elif len({one.hole for one in section.layers if one.hole is not None}) > 1:
        told.append(f"hole {length_text(layer.hole, units)}")
    inside = [f"{length_text(thickness, units)} {name}" for name, thickness in layer.inside]
    if len(inside) > _MORE:
        inside[_MORE - 1 :] = [f"and {len(inside) - _MORE + 1} more"]
    return [*told, *inside]


def gap_words(layer: SectionLayer, units: str) -> str:
    """Return ``gap 0.4, drawn shut`` of the gap below a layer."""
    verdict = {True: ", drawn shut", False: ", stays open", None: ""}
    return f"gap {length_text(layer.gap, units)}{verdict[layer.shut]}"


def side_words(section: Section) -> tuple[str, str]:
    """Return what stands above and below the drawing."""
    top, bottom = section.top, section.bottom
    if section.bench == "top":
        top = f"{top}; up on the bench" if top else "up on the bench"
    if section.bench == "bottom":
        bottom = f"{bottom}; up on the bench" if bottom else "up on the bench"
    return top, bottom


def lines_below(section: Section, untrue: Iterable[Untrue]) -> Iterator[str]:
    """Yield the lines under the drawing; ``untrue``: what is not to scale in it."""
    yield _fastener_line(section)
    yield _hole_line(section)
    if section.fastener is not None and section.fastener.sunk:
        yield _flush_line(section, section.fastener)
    yield from _warnings(section)
    if section.bench == "level":
        yield "On the bench this hole lies level."
    for what in untrue:
        yield _UNTRUE[what]


def _fastener_line(section: Section) -> str:
    if section.fastener is None:
        return "Fastener not named." if section.joins else "One layer alone: there is nothing to join."
    fastener, units = section.fastener, section.units
    words = fastener.name
    if fastener.kind not in words:
        words += f" ({fastener.kind})"
    if fastener.take:
        return f"{named_take(words, fastener.take, ', ')}."
    if fastener.length is not None:
        return f"{words}, length {length_text(fastener.length, units)}."
    return f"{words}: no length fits this grip." if fastener.made and section.joins else f"{words}."


def _hole_line(section: Section) -> str:
    units = section.units
    holes = sorted({layer.hole for layer in section.layers if layer.hole is not None})
    named = f" ({section.size})" if section.size else ""
    words = f"Hole {length_text(holes[0], units)}{named}"
    if len(holes) > 1:
        words = f"Holes {length_text(holes[0], units)} to {length_text(holes[-1], units)}{named}"
    if section.fastener is None:
        return f"{words}."
    shank = length_text(section.fastener.diameter, units)
    play = section.pin - section.fastener.diameter
    room = f": {length_text(play, units)} play" if section.goes_in else ""
    if room and section.fastener.kind == SOLID_RIVET:
        room += " until it is driven"
    return f"{words}, {_called(section.fastener)} {shank}{room}."


def _flush_line(section: Section, fastener: SectionFastener) -> str:
    """Return ``The head lies flush in layer 1: 5.72 wide, 1.07 deep.``."""
    layers = section.layers if fastener.head_on_top else section.layers[::-1]
    wide, deep = (length_text(value, section.units) for value in (fastener.head[0], fastener.sunk))
    words = f"The head lies flush in layer {layers[0].number}: {wide} wide, {deep} deep"
    return f"{words}, deeper than the layer is thick." if fastener.sunk > layers[0].thickness else f"{words}."


def _called(fastener: SectionFastener) -> str:
    return "bolt" if fastener.kind == BOLT else "rivet"


def _warnings(section: Section) -> Iterator[str]:
    units, fastener = section.units, section.fastener
    bare = [str(layer.number) for layer in section.layers if layer.hole is None]
    if bare:
        which = f"Layers {listed(bare)} are" if len(bare) > 1 else f"Layer {bare[0]} is"
        yield f"{which} not drilled: nothing goes through yet."
    if section.pin <= 0:
        yield "The holes are so far off that nothing goes through all of them."
    elif section.pin < section.diameter - 0.005:
        yield f"The holes are off centre: a pin of at most {length_text(section.pin, units)} goes through."
    elif fastener and fastener.diameter > section.pin + 1e-6:
        yield f"The {_called(fastener)} is thicker than the hole."
    for layer in section.layers:
        wide = length_text(layer.gap, units)
        if layer.gap > CLEAR:
            yield f"Under layer {layer.number} only a spacer of {wide} keeps the walls apart."
        elif layer.gap and layer.shut is False:
            yield f"The gap under layer {layer.number} wants a joggle, or a shim of {wide}."
