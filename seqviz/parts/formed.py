"""Angles, channels, zeds and hats: which chain of flats and bends each is, and what cannot be bent."""

from __future__ import annotations

from seqviz.findings import At, Finding
from seqviz.parts.body import NARROWEST, Body, too_narrow
from seqviz.parts.chain import Chain, chain_body, folds_into_itself
from seqviz.parts.mistakes import bad_value, plain
from seqviz.parts.worked import work_on
from seqviz.records.model import AngleShape, ChannelShape, HatShape, Shape, ZedShape
from seqviz.records.work_types import UNWORKED

__all__ = ["FORMED", "Formed", "chain_of", "formed_body"]

Formed = AngleShape | ChannelShape | ZedShape | HatShape

FORMED: dict[type[Shape], str] = {
    AngleShape: "angle",
    ChannelShape: "channel",
    ZedShape: "zed",
    HatShape: "hat",
}
"""The shapes that are bent from one sheet along x, and their words."""

_NAMES = {
    "angle": ("leg 1", "leg 2"),
    "channel": ("flange 1", "web", "flange 2"),
    "zed": ("flange 1", "web", "flange 2"),
    "hat": ("foot 1", "web 1", "crown", "web 2", "foot 2"),
}
_TURNS = {"angle": (1,), "channel": (1, 1), "zed": (1, -1), "hat": (1, -1, -1, 1)}
# The outer side of a bend is its flats' outside. Where two bends of a flat disagree, the web of a zed goes
# with flange 1, the webs of a hat with the crown.
_OUTSIDES = {
    "angle": (1, 1),
    "channel": (1, 1, 1),
    "zed": (1, 1, -1),
    "hat": (1, -1, -1, -1, 1),
}


def chain_of(shape: Formed) -> Chain:
    """Return the chain that ``shape`` is, from its first flat to its last."""
    word = FORMED[type(shape)]
    return Chain(
        names=_NAMES[word],
        widths=_widths(shape),
        angles=(shape.angle,) if isinstance(shape, AngleShape) else shape.angles,
        turns=_TURNS[word],
        outsides=_OUTSIDES[word],
        thickness=shape.thickness,
        radius=shape.bend_radius,
        length=shape.length,
    )


def formed_body(name: str, shape: Formed, at: At) -> Body | Finding:
    """Return the body of a part bent along x, or the first mistake in its description.

    The first flat lies in 0 <= z <= thickness, x along the part from 0 to its length, y from the outer corner
    (the mould line, where the outer faces would meet) to its edge; the next one stands up from there. y of
    that and of every later flat runs from the mould line that it shares with the flat before.

    angle
        ``leg 1`` flat, ``leg 2`` stands. The outside is that of the bend.
    channel
        ``flange 1`` flat, ``web`` stands, ``flange 2`` lies over flange 1. The outside is that of the bends.
    zed
        ``flange 1`` flat, ``web`` stands, ``flange 2`` reaches the other way. The outside of a flange looks
        away from the other flange, that of the web away from where flange 1 is.
    hat
        ``foot 1`` flat, ``web 1`` stands, ``crown`` reaches to -y, ``web 2`` comes down, ``foot 2`` reaches
        out to -y. The outside of crown and webs looks away from the hollow, that of a foot away from the
        crown.
    """
    chain = chain_of(shape)
    mistake = too_narrow(at, name, {"thickness": shape.thickness, "length": shape.length})
    mistake = mistake or _bend_mistake(name, chain, at)
    if mistake:
        return mistake
    body = chain_body(chain)
    if folds_into_itself(body):
        return _meets_itself(name, at)
    return body if shape.work == UNWORKED else work_on(name, body, chain.widths, shape.work)


def _widths(shape: Formed) -> tuple[float, ...]:
    if isinstance(shape, AngleShape):
        return shape.legs
    if isinstance(shape, HatShape):
        (foot_1, foot_2), (web_1, web_2) = shape.feet, shape.webs
        return (foot_1, web_1, shape.crown, web_2, foot_2)
    return (shape.flanges[0], shape.web, shape.flanges[1])


def _bend_mistake(name: str, chain: Chain, at: At) -> Finding | None:
    impossible = [angle for angle in chain.angles if not 0 < angle < 180]
    if impossible:
        return bad_value(
            at,
            f"{name}: a bend of {plain(impossible[0])} degrees is not possible here.",
            "The angle is that of the bend: 90 stands square, 10 is nearly flat, 180 is folded back.",
            "Write an angle between 0 and 180.",
        )
    if chain.radius < 0:
        return bad_value(
            at,
            f"{name}: the bend radius is less than 0.",
            "The bend radius is that of the inside of the bend.",
            "Write 0 for a sharp bend, or leave it out for 1.5 x thickness.",
        )
    for number, flat in enumerate(chain.names):
        taken = sum(chain.setbacks(number))
        if chain.widths[number] - taken < NARROWEST:
            return _all_bend(name, flat, chain.widths[number], taken, at)
    return None


def _all_bend(name: str, flat: str, width: float, taken: float, at: At) -> Finding:
    ends = "ends in the bend, which takes" if flat[-1].isdigit() else "ends in its bends, which take"
    return bad_value(
        at,
        f"{name}: {flat} of {plain(width)} mm {ends} {plain(taken)} mm of it.",
        "Setback = tan(angle / 2) x (bend radius + thickness), FAA AC 43.13-1B page 4-14; "
        "widths are outside dimensions.",
        "Make it wider or the bend radius smaller.",
    )


def _meets_itself(name: str, at: At) -> Finding:
    return bad_value(
        at,
        f"{name}: bent like this it would run into itself.",
        "Two of its flats lie in one place. An angle is that of the bend: 90 stands square, more closes up.",
        "Check the angles, and the widths of the flats.",
    )
