"""Tools that serve where the file names none: typical sizes, measure your own.

The figures are common practice, no source. A file that names its tools replaces all of these.
"""

from __future__ import annotations

from seqviz.findings import At
from seqviz.records.steps import BodyPiece, Reach, Tool

__all__ = ["BUILT_IN_TOOLS"]

_HERE = At(file="built-in tools", line=1, column=1)

_HAND_PULLER = Tool(
    name="hand puller",
    kind="blind rivet",
    body=(
        BodyPiece(start=0.0, end=20.0, diameter=10.0),
        BodyPiece(start=20.0, end=90.0, diameter=24.0),
        BodyPiece(start=90.0, end=250.0, box=(40.0, 60.0)),
    ),
    turns=8,
    tilt=5.0,
    reach=Reach(),
    at=_HERE,
)
_RIVET_HAMMER = Tool(
    name="rivet hammer",
    kind="solid rivet",
    body=(
        BodyPiece(start=0.0, end=60.0, diameter=12.0),
        BodyPiece(start=60.0, end=220.0, diameter=45.0),
    ),
    turns=8,
    tilt=0.0,
    reach=Reach(),
    at=_HERE,
)
_BUCKING_BAR = Tool(
    name="bucking bar",
    kind="solid rivet",
    body=(BodyPiece(start=0.0, end=50.0, box=(25.0, 25.0)),),
    turns=8,
    tilt=0.0,
    reach=Reach(along="any"),
    at=_HERE,
)

BUILT_IN_TOOLS: tuple[Tool, ...] = (_HAND_PULLER, _RIVET_HAMMER, _BUCKING_BAR)
