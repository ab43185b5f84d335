"""The hole stacks of a page, and the sections through them, each drawing once."""

from __future__ import annotations

from collections.abc import Mapping

from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.drawing.section import Section, section_of
from seqviz.drawing.section_svg import section_svg
from seqviz.page.contract import Point, StackData
from seqviz.page.numbers import direction, millimetres
from seqviz.scene.setting import settings, settings_text
from seqviz.scene.stack import drawn_shut
from seqviz.scene.stack_text import stack_sentences

__all__ = ["stacks_data"]


def stacks_data(build: Build, index: Mapping[str, int]) -> tuple[list[StackData], list[str]]:
    """Return the stacks, in the structure's order, and the drawings to which their ``section`` points.

    Parameters
    ----------
    index
        Placed part -> its place in the page's list.
    """
    shut, when = drawn_shut(build.assembly), settings(build.replay)
    drawings: dict[Section, int] = {}
    told: list[StackData] = []
    for stack in build.assembly.stacks:
        lines = stack_sentences(stack, shut, build.model.units, settings_text(when, stack.index))
        told.append(
            {
                "name": stack.holes[0],
                "names": list(stack.holes),
                "at": _outer_face(stack),
                "axis": direction(stack.axis),
                "diameter": millimetres([stack.diameter])[0],
                "lines": lines,
                "layers": _layers(stack, lines, index),
                "section": _drawing(build, stack, drawings),
            }
        )
    return told, [section_svg(section, standalone=False) for section in drawings]


def _layers(stack: Stack, lines: list[str], index: Mapping[str, int]) -> list[list[int]]:
    """Return ``[line, part]`` of each layer: the lines that begin with its number, in their order."""
    told: list[list[int]] = []
    for number, layer in enumerate(stack.layers, start=1):
        after = told[-1][0] + 1 if told else 0
        line = next(k for k in range(after, len(lines)) if lines[k].startswith(f"{number}: "))
        told.append([line, index[layer.part]])
    return told


def _outer_face(stack: Stack) -> Point | None:
    return millimetres(stack.point + stack.axis * stack.layers[0].top) if stack.located else None


def _drawing(build: Build, stack: Stack, drawings: dict[Section, int]) -> int | None:
    """Return the number of the stack's drawing, which is drawn where there is none like it yet."""
    if len(stack.layers) < 2:
        return None
    return drawings.setdefault(section_of(build, stack.index), len(drawings))
