"""A structure without steps, as a film of one moment: everything in its place."""

from __future__ import annotations

import numpy as np

from seqviz.build import Build
from seqviz.geometry.pose import frozen
from seqviz.scene.film_types import Film, Moment
from seqviz.scene.picture import Item, Scene
from seqviz.scene.sides import side_up
from seqviz.scene.words import Words

__all__ = ["whole_film"]


def whole_film(build: Build) -> Film:
    """Return the film of a model alone; what has no place is left out."""
    assembly = build.assembly
    items = [
        Item(name=name, part=placed.part, pose=placed.pose, role="there", shift=frozen(np.zeros(3)))
        for name, placed in assembly.placed.items()
        if placed.located
    ]
    scene = Scene(
        number=0,
        items=tuple(items),
        fitted=(),
        marks=(),
        arrows=(),
        labels=(),
        words=Words(title=build.model.name, lines=("All parts in their places. Steps stand in a sequence.",)),
        up=assembly.up,
        forward=assembly.forward,
        up_name=side_up(assembly, assembly.up),
        turn=None,
        undrawn=tuple(name for name, placed in assembly.placed.items() if not placed.located),
    )
    return Film(moments=(Moment(scene=scene, moves=(), fixed_before=(), fixed=()),), fixed=())
