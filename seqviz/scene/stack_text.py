"""Stacks in words: a line a group, a line a hole, one hole in full, one part in full."""

from __future__ import annotations

from collections.abc import Iterable

from seqviz.assembly.structure import Assembly, Contact, Layer, Stack
from seqviz.geometry.separation import GUARD, TOLERANCE
from seqviz.parts.part import Column
from seqviz.scene.lengths import area_text, length_text
from seqviz.scene.phrases import counted, ranges, sentence
from seqviz.scene.stack import Group, Shut, groups_of_part
from seqviz.trade.choice_reasons import reasons
from seqviz.trade.choice_words import named_take, short_why, take_words
from seqviz.units import length_text as with_unit

__all__ = [
    "group_line",
    "hole_line",
    "hole_text",
    "part_text",
    "stack_sentences",
    "summary_text",
    "why_lines",
    "with_why",
]


def summary_text(groups: Iterable[Group], shut: Shut, units: str, *, why: bool = False) -> str:
    """Return all groups, a line each, and how many hole stacks there are.

    Parameters
    ----------
    groups
        From ``grouped``.
    shut
        From ``drawn_shut``.
    units
        ``mm`` or ``in``.
    why
        Whether the reasons for each length stand under it.
    """
    listed = list(groups)
    stacks = sum(len(group.numbers) for group in listed)
    rows = len({group.row for group in listed})
    out = [line for group in listed for line in with_why(group, shut, units, why)]
    tail = f"{counted(stacks, 'hole stack')} in {counted(rows, 'row')}."
    if units == "mm":
        tail += " Thicknesses in mm."
    return "\n".join([*out, "", tail] if out else ["No holes."]) + "\n"


def with_why(group: Group, shut: Shut, units: str, why: bool) -> list[str]:
    """Return the line of a group, and where ``why`` is asked for the reasons under it."""
    told = why_lines(group.stack, units) if why else []
    return [group_line(group, shut, units), *(f"    {line}" for line in told)]


def why_lines(stack: Stack, units: str) -> list[str]:
    """Return the reasons for what goes in, at length, a sentence each; none where nobody knows what does."""
    return list(reasons(stack.choice, units)) if stack.choice else []


def group_line(group: Group, shut: Shut, units: str) -> str:
    """Return ``rail.foot 4-27: rail 1.6 over skin 0.8, grip 2.4; pull 3.2 length 6 (..); 24 holes``."""
    named = ranges(f"{group.row}.{number}" for number in group.numbers)
    words = _stack_words(group.stack, shut, units)
    return f"{named}: {words}; {counted(len(group.numbers), 'hole')}"


def hole_line(stack: Stack, shut: Shut, units: str, when: str = "") -> str:
    """Return one line for one stack, with all names of its holes; ``when`` it is set, in words."""
    words = f"{' = '.join(stack.holes)}: {_stack_words(stack, shut, units)}"
    return f"{words}; {when}" if when else words


def hole_text(name: str, stack: Stack, shut: Shut, units: str, when: str = "", *, why: bool = False) -> str:
    """Return one hole in full: its layers by number, gaps, grip, what goes in, and ``when``, in words."""
    others = [hole for hole in stack.holes if hole != name]
    out = [f"{name} (also {', '.join(others)})" if others else name]
    names = max(len(layer.part) for layer in stack.layers)
    for number, layer in enumerate(stack.layers, start=1):
        hole = layer.hole or "undrilled"
        hole += f"  ({_inside(layer.column, units)})" if layer.column else ""
        out.append(f"  {number}  {layer.part:{names}}  {length_text(layer.thickness, units):>8}  {hole}")
        if number < len(stack.layers) and (told := _gap_words(stack, number - 1, shut, units)):
            out.append(f"     {told}")
    if len(stack.layers) == 1:
        out.append("  nothing under it and nothing over it")
    else:
        out.append(f"  grip {length_text(stack.grip, units)}")
    out.append(f"  hole {length_text(stack.diameter, units)}{_size_words(stack)}: {_fastener(stack, units)}")
    out += [f"    {line}" for line in why_lines(stack, units)] if why else []
    if when:
        out.append(f"  {when}")
    return "\n".join(out) + "\n"


def stack_sentences(stack: Stack, shut: Shut, units: str, when: str = "") -> list[str]:
    """Return one stack in short sentences: its layers by number, gaps, grip, what goes in, ``when``."""
    out = []
    for number, layer in enumerate(stack.layers, start=1):
        out.append(f"{number}: {_layer_words(layer, units)}")
        if number < len(stack.layers) and (told := _gap_words(stack, number - 1, shut, units)):
            out.append(sentence(told))
    if len(stack.layers) == 1:
        out.append("Nothing lies under it and nothing over it.")
    else:
        out.append(f"Grip {with_unit(stack.grip, units)}.")
    out.append(
        sentence(f"hole {with_unit(stack.diameter, units)}{_size_words(stack)}: {_fastener(stack, units)}")
    )
    return [*out, sentence(when)] if when else out


def part_text(name: str, assembly: Assembly, shut: Shut, units: str, *, why: bool = False) -> str:
    """Return one placed part in full: what it sits on, what sits on it, its stacks."""
    part = assembly.placed[name].part
    hand = ", other hand" if part.mirrored else ""
    out = [f"{name} ({part.name}{hand})" if part.name != name or hand else name]
    below = [contact for contact in assembly.contacts if contact.upper == name]
    above = [contact for contact in assembly.contacts if contact.lower == name]
    out += [f"  sits on {contact.lower}: {_region(contact, units)}" for contact in below]
    out += [f"  under {contact.upper}: {_region(contact, units)}" for contact in above]
    if not assembly.placed[name].located:
        out.append("  no dimensions: what it sits on is known at its holes only")
    elif not below and not above:
        out.append("  sits on nothing, and nothing sits on it")
    groups = groups_of_part(assembly, name)
    lines = [line for group in groups for line in with_why(group, shut, units, why)]
    out += [f"  {line}" for line in lines] or ["  no holes"]
    return "\n".join(out) + "\n"


def _stack_words(stack: Stack, shut: Shut, units: str) -> str:
    layers = [_layer_words(layer, units) for layer in stack.layers]
    if len(layers) == 1:
        return f"{layers[0]} alone; {_fastener(stack, units)}"
    gaps = [_gap_words(stack, number, shut, units) for number in range(len(stack.gaps))]
    told = "".join(f", {gap}" for gap in gaps if gap)
    return f"{' over '.join(layers)}, grip {length_text(stack.grip, units)}{told}; {_fastener(stack, units)}"


def _layer_words(layer: Layer, units: str) -> str:
    """Return ``rail 1.6``; of another model as one piece ``box 2.4 (lid 0.8 + rim 1.6)``."""
    words = f"{layer.part} {length_text(layer.thickness, units)}"
    if layer.hole is None:
        return f"{words} (undrilled)"
    return f"{words} ({_inside(layer.column, units)})" if layer.column else words


def _inside(column: Column, units: str) -> str:
    return " + ".join(f"{part} {length_text(thick, units)}" for part, thick in column.layers)


def _gap_words(stack: Stack, number: int, shut: Shut, units: str) -> str:
    """Return ``gap 0.4 drawn shut`` for the gap below a layer; nothing where the sheets touch."""
    gap = stack.gaps[number]
    if gap <= TOLERANCE + GUARD:
        return ""
    verdict = {True: " drawn shut", False: " not drawn shut", None: ""}
    return f"gap {length_text(gap, units)}{verdict[shut.get((stack.index, stack.layers[number].part))]}"


def _fastener(stack: Stack, units: str) -> str:
    """Return ``pull 3.2 length 6 (grips 1.5 to 3.5)``: what goes in, what to take of it, and why in short."""
    if stack.fastener is None:
        return "fastener not named"
    choice = stack.choice
    if choice is None:
        return stack.fastener
    take, why = take_words(choice, units), short_why(choice, units)
    words = named_take(stack.fastener, take, " " if choice.verdict == "fits" else ", ")
    return f"{words} ({why})" if why else words


def _size_words(stack: Stack) -> str:
    return f" ({stack.size})" if stack.size else ""


def _region(contact: Contact, units: str) -> str:
    gap = (
        "" if length_text(contact.gap, units) in {"0", "0 in"} else f", gap {length_text(contact.gap, units)}"
    )
    return f"{area_text(contact.area, units)}{gap}"
