"""Tools that serve where the file names none: typical sizes, measure your own.

A file that names its tools replaces all of these. Tools for bolts are for small ones, up to 8 mm.
"""

from __future__ import annotations

from seqviz.findings import At
from seqviz.records.steps import BodyPiece, Reach, Tool
from seqviz.trade.fasteners import BLIND_RIVET, BOLT, SOLID_RIVET

__all__ = ["BUILT_IN_TOOLS", "TYPICAL"]

TYPICAL = "typical, measure your own; common practice, no source"

_HERE = At(file="built-in tools", line=1, column=1)


def _round(diameter: float, start: float, end: float, offset: float = 0.0) -> BodyPiece:
    return BodyPiece(start=start, end=end, diameter=diameter, offset=offset)


def _square(width: float, depth: float, start: float, end: float, offset: float = 0.0) -> BodyPiece:
    return BodyPiece(start=start, end=end, box=(width, depth), offset=offset)


def _tool(name: str, kind: str, *body: BodyPiece, along: str = "axis", tilt: float = 0.0) -> Tool:
    reach = Reach(along=along)
    return Tool(name=name, kind=kind, body=body, turns=8, tilt=tilt, reach=reach, note=TYPICAL, at=_HERE)


def _at_end(end: str, name: str, *body: BodyPiece, along: str = "axis") -> Tool:
    reach = Reach(along=along)
    return Tool(
        name=name,
        kind=SOLID_RIVET,
        body=body,
        turns=8,
        tilt=0.0,
        reach=reach,
        end=end,
        note=TYPICAL,
        at=_HERE,
    )


def _wrench(name: str, swing: float, *body: BodyPiece) -> Tool:
    reach = Reach(along="any")
    return Tool(
        name=name, kind=BOLT, body=body, turns=12, tilt=0.0, reach=reach, swing=swing, note=TYPICAL, at=_HERE
    )


# Which fits is asked in this order. Diameter, or width and depth, from, to, offset: mm.
BUILT_IN_TOOLS: tuple[Tool, ...] = (
    _tool(
        "hand puller",
        BLIND_RIVET,
        _round(10.0, 0.0, 25.0),
        _round(16.0, 25.0, 50.0),
        _round(24.0, 50.0, 90.0),
        _square(40.0, 60.0, 90.0, 250.0),
        tilt=5.0,
    ),
    _tool(
        "lever puller",
        BLIND_RIVET,
        _round(12.0, 0.0, 30.0),
        _round(28.0, 30.0, 120.0),
        _square(60.0, 300.0, 120.0, 450.0),
        tilt=5.0,
    ),
    _tool(
        "pneumatic puller",
        BLIND_RIVET,
        _round(12.0, 0.0, 25.0),
        _round(22.0, 25.0, 60.0),
        _round(50.0, 60.0, 190.0),
        _square(100.0, 45.0, 130.0, 190.0, 75.0),
        along="any",
        tilt=5.0,
    ),
    _at_end("head", "rivet hammer with straight set", _round(12.0, 0.0, 60.0), _round(45.0, 60.0, 220.0)),
    _at_end(
        "head",
        "rivet hammer with offset set",
        _round(12.0, 0.0, 30.0),
        _round(16.0, 20.0, 90.0, 12.0),
        _round(45.0, 90.0, 250.0, 20.0),
    ),
    _at_end("tail", "block bucking bar", _square(25.0, 25.0, 0.0, 50.0), along="any"),
    _at_end("tail", "flat bucking bar", _square(150.0, 20.0, 0.0, 16.0, 60.0), along="any"),
    # 12 points, or an open end that is flipped, take hold again after 30 degrees: NAVEDTRA 14001.
    _wrench("box-end wrench", 30.0, _round(20.0, 0.0, 10.0), _square(150.0, 12.0, 10.0, 18.0, 85.0)),
    _wrench("open-end wrench", 30.0, _round(24.0, 0.0, 8.0), _square(140.0, 14.0, 2.0, 8.0, 80.0)),
    _wrench(
        "socket with ratchet",
        15.0,
        _round(17.0, 0.0, 30.0),
        _round(34.0, 30.0, 62.0),
        _square(170.0, 24.0, 36.0, 56.0, 90.0),
    ),
)
