"""Lips formed round the openings of a frame: short rings of convex pieces."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from seqviz.findings import Finding
from seqviz.geometry.polygons import circle
from seqviz.geometry.pose import Array, frozen
from seqviz.geometry.prism import Prismoid
from seqviz.parts.body import NARROWEST
from seqviz.parts.frame_section import Section, section_of
from seqviz.parts.mistakes import bad_value, plain
from seqviz.records.model import FrameShape, Lip, Opening

__all__ = ["Ring", "ring_round"]

SAGITTA = 0.05
"""mm: lips are round in both ways; facets within the tolerance of touching keep their number bearable."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ring:
    """A lip: where the web ends, ``(n, 2)`` mm anticlockwise, its bend's pieces, and those of its wall."""

    opening: Array
    bend: tuple[Prismoid, ...]
    wall: tuple[Prismoid, ...]


def ring_round(name: str, shape: FrameShape, opening: Opening, outside: int) -> Ring | Finding:
    """Return the lip of a round ``opening``; ``outside`` is +1 where the web's outside looks to +z."""
    lip, center, diameter = opening.lip, opening.center, opening.diameter
    assert lip is not None
    assert center is not None
    assert diameter is not None
    section = section_of((shape.thickness, shape.bend_radius), lip.height, lip.angle, SAGITTA)
    mistake = _mistake(name, (opening, lip), section, diameter / 2)
    if mistake:
        return mistake
    web_edge = circle(np.array(center), diameter + 2 * section.setback, SAGITTA)
    spokes = (web_edge - center) / (diameter / 2 + section.setback)
    up = outside if lip.side == "outside" else -outside
    level = 0.0 if up > 0 else shape.thickness
    turned = [_turned(section, center, spoke, (diameter / 2, up, level)) for spoke in spokes]
    around = [
        [Prismoid(bottom=frozen(one), top=frozen(other)) for one, other in zip(here, there, strict=True)]
        for here, there in pairwise([*turned, turned[0]])
    ]
    return Ring(
        opening=web_edge,
        bend=tuple(piece for pieces in around for piece in pieces[:-1]),
        wall=tuple(pieces[-1] for pieces in around),
    )


def _turned(
    section: Section, center: tuple[float, float], spoke: Array, place: tuple[float, int, float]
) -> list[Array]:
    """Return the quads of the section, ``(4, 3)`` each, where they stand on a spoke of the opening."""
    radius, up, level = place
    return [
        np.column_stack([np.array(center) + (radius - quad[:, :1]) * spoke, level + up * quad[:, 1]])
        for quad in section.quads
    ]


def _mistake(name: str, written: tuple[Opening, Lip], section: Section, radius: float) -> Finding | None:
    opening, lip = written
    what = f"{name}: the lip of {plain(lip.height)} mm round opening {opening.name}"
    if lip.height - section.setback < NARROWEST:
        return bad_value(
            lip.at,
            f"{what} ends in its bend, which takes {plain(section.setback)} mm of it.",
            "Setback = tan(angle / 2) x (bend radius + thickness), FAA AC 43.13-1B page 4-14; "
            "the height is an outside dimension.",
            "Make it higher or the bend radius smaller.",
        )
    # The sheet that is formed up comes from inside the opening.
    blank = radius + section.setback - section.developed
    clear = radius - float(section.outer[:, 0].max())
    if min(blank, clear) < NARROWEST / 2:
        most = math.floor((lip.height + min(blank, clear) - NARROWEST / 2) * 10 + 1e-6) / 10
        return bad_value(
            lip.at,
            f"{what} is higher than its {plain(2 * radius)} mm allow.",
            "A lip is formed from the metal inside the opening; a hole must be left to form it from.",
            f"Make the lip at most {plain(most)} high, or the opening larger.",
        )
    return None
