"""A placed structure made by hand: a skin, two rails on it, a strap on one of them, a clip under the skin."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seqviz.assembly.structure import Assembly, Contact, Layer, PlacedPart, Stack
from seqviz.findings import At
from seqviz.geometry.pose import IDENTITY, frozen
from seqviz.parts.part import Part

_AT = At(file="models/tray.yaml", line=1, column=1)
_UP = frozen(np.array([0.0, 0.0, 1.0]))


def stack(index: int, layers: Sequence[tuple[str, str | None, float, float]], **says: object) -> Stack:
    """Return a stack of (part, hole, top, bottom); ``says``: size, fastener, diameter."""
    return Stack(
        index=index,
        point=frozen(np.zeros(3)),
        axis=_UP,
        layers=tuple(Layer(part=part, hole=hole, top=top, bottom=low) for part, hole, top, low in layers),
        holes=tuple(hole for _, hole, _, _ in layers if hole is not None),
        diameter=float(str(says.get("diameter", 3.3))),
        size=str(says["size"]) if "size" in says else None,
        fastener=str(says["fastener"]) if "fastener" in says else None,
        pin=3.2,
    )


def _placed(name: str, part: str, mirrored: bool = False) -> PlacedPart:
    made = Part(
        name=part,
        shape="plate",
        flats={},
        pieces=(),
        piece_flats=(),
        holes=(),
        twins={},
        at=_AT,
        mirrored=mirrored,
    )
    return PlacedPart(name=name, part=made, pose=IDENTITY, depth=0, side=_UP, free=False, at=_AT)


def tray() -> Assembly:
    """Rail left has holes 1 to 5 (1 and 5 big, 3 under the strap with a gap of 0.4), rail right one hole."""
    rail = {"size": "small", "fastener": "blind rivet 3.2"}
    big = {"size": "big", "fastener": "blind rivet 4.0", "diameter": 4.1}
    stacks = [
        stack(0, [("rail left", "rail left.foot.1", 1.6, 0), ("skin", "skin.edge left.1", 0, -0.8)], **big),
        stack(1, [("rail left", "rail left.foot.2", 1.6, 0), ("skin", "skin.edge left.2", 0, -0.8)], **rail),
        stack(
            2,
            [
                ("strap", "strap.end.1", 3.0, 2.0),
                ("rail left", "rail left.foot.3", 1.6, 0),
                ("skin", "skin.edge left.3", 0, -0.8),
            ],
            **rail,
        ),
        stack(3, [("rail left", "rail left.foot.4", 1.6, 0), ("skin", "skin.edge left.4", 0, -0.8)], **rail),
        stack(4, [("rail left", "rail left.foot.5", 1.6, 0), ("skin", "skin.edge left.5", 0, -0.8)], **big),
        stack(5, [("rail right", "rail right.foot.1", 1.6, 0), ("skin", None, 0, -0.8)], **rail),
        stack(6, [("skin", "skin.feet.1", 0, -0.8)], diameter=4.8),
        stack(7, [("skin", "skin.feet.2", 0, -0.8)], diameter=4.8),
    ]
    names = [(hole, item.index) for item in stacks for hole in item.holes]
    placed = [
        _placed("skin", "skin"),
        _placed("rail left", "rail"),
        _placed("rail right", "rail", mirrored=True),
        _placed("strap", "strap"),
        _placed("clip", "clip"),
    ]
    return Assembly(
        base="skin",
        placed={part.name: part for part in placed},
        muted=frozenset(),
        stacks=tuple(stacks),
        stack_of=dict(names),
        contacts=(
            Contact(upper="rail left", lower="skin", area=8190.4, gap=0.0),
            Contact(upper="strap", lower="rail left", area=225.0, gap=0.4),
            Contact(upper="rail right", lower="skin", area=8190.4, gap=0.0),
        ),
        up=_UP,
        forward=frozen(np.array([1.0, 0.0, 0.0])),
    )
