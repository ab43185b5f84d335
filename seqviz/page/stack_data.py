"""The hole stacks of a page, and the sections through them, each drawing once."""

from __future__ import annotations

from seqviz.assembly.structure import Stack
from seqviz.build import Build
from seqviz.drawing.section import section_of

try:  # INTERIM
    from seqviz.drawing.section_svg import section_svg
except ImportError:
    section_svg = None
from seqviz.page.contract import Point, Section, StackData
from seqviz.page.numbers import direction, millimetres
from seqviz.scene.setting import settings, settings_text
from seqviz.scene.stack import drawn_shut
from seqviz.scene.stack_text import stack_sentences

__all__ = ["stacks_data"]


def stacks_data(build: Build) -> tuple[list[StackData], list[Section]]:
    """Return the stacks, in the structure's order, and the drawings to which their ``section`` points."""
    shut, when = drawn_shut(build.assembly), settings(build.replay)
    drawings: dict[Section, int] = {}
    told: list[StackData] = []
    for stack in build.assembly.stacks:
        told.append(
            {
                "name": stack.holes[0],
                "names": list(stack.holes),
                "at": _outer_face(stack),
                "axis": direction(stack.axis),
                "diameter": millimetres([stack.diameter])[0],
                "lines": stack_sentences(stack, shut, build.model.units, settings_text(when, stack.index)),
                "section": _drawing(build, stack, drawings),
            }
        )
    return told, list(drawings)


def _outer_face(stack: Stack) -> Point | None:
    return millimetres(stack.point + stack.axis * stack.layers[0].top) if stack.located else None


def _drawing(build: Build, stack: Stack, drawings: dict[Section, int]) -> int | None:
    """Return the number of the stack's drawing, which is drawn where there is none like it yet."""
    if len(stack.layers) < 2 or section_svg is None:
        return None
    svg = section_svg(section_of(build, stack.index), standalone=False)
    return drawings.setdefault(svg, len(drawings))
