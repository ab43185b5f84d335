"""From a build to what stands in its page."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from seqviz.build import Build
from seqviz.cautions import BRIEF, WORKSHOP
from seqviz.checks.run import run
from seqviz.page.contract import FORMAT, Point, Work
from seqviz.page.finding_data import findings_data
from seqviz.page.names import in_page
from seqviz.page.numbers import direction, millimetres
from seqviz.page.packing import packed
from seqviz.page.part_data import numbered, parts_data
from seqviz.page.shelf import Shelf
from seqviz.page.stack_data import stacks_data
from seqviz.page.step_data import fixings_data, steps_data
from seqviz.scene.film import film_of
from seqviz.scene.film_types import Film
from seqviz.scene.mixed_lengths import mixed_lengths

__all__ = ["Told", "told_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """All that a page tells: ``work`` for words and scripts, ``meshes`` as packed text."""

    work: Work
    meshes: str


def told_of(build: Build) -> Told:
    """Return what stands in the page of a build; its checks are run."""
    index, shelf = numbered(build), Shelf()
    for placed in build.assembly.placed.values():
        if placed.located:
            shelf.part(placed.part)
    film = film_of(build) if build.replay else Film(moments=(), fixed=())
    findings = findings_data(build, run(build), index, shelf)
    stacks, sections = stacks_data(build, index)
    packing = packed(shelf.bodies)
    work: Work = {
        "format": FORMAT,
        "title": build.model.name or Path(build.model.path).stem,
        "files": _files(build),
        "unit": build.model.units,
        "cautions": [BRIEF, WORKSHOP],
        "before": mixed_lengths(build.assembly, build.model.units),
        "up": direction(build.assembly.up),
        "forward": direction(build.assembly.forward),
        "box": _box(build, shelf),
        "shapes": packing.shapes,
        "meshes": packing.meshes,
        "parts": parts_data(build, index, shelf.numbers),
        "stacks": stacks,
        "sections": sections,
        "fixings": fixings_data(film, index),
        "steps": steps_data(build, film, index),
        "findings": findings,
    }
    return Told(work=in_page(work, build.model), meshes=packing.text)


def _files(build: Build) -> list[str]:
    paths = [build.sequence.path] if build.sequence else []
    return [*paths, build.model.path]


def _box(build: Build, shelf: Shelf) -> list[Point]:
    """Return the two corners of the box of all that has dimensions; of nothing a point."""
    located = [placed for placed in build.assembly.placed.values() if placed.located]
    corners = [placed.pose.points(shelf.bodies[shelf.part(placed.part)].vertices) for placed in located] or [
        np.zeros((1, 3))
    ]
    low = np.min([some.min(axis=0) for some in corners], axis=0)
    high = np.max([some.max(axis=0) for some in corners], axis=0)
    return [millimetres(low), millimetres(high)]
