"""Angles, channels, zeds, hats, tees, tubes: the words of long parts with one section."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from seqviz.records.kinds import Angle, Length
from seqviz.records.lists import Numbers
from seqviz.records.model import AngleShape, ChannelShape, HatShape, TeeShape, TubeShape, ZedShape
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Values

__all__ = ["LENGTH", "LONG_PARTS", "STOCK_PARTS", "THICKNESS", "Bent", "LongPart", "angles_said_twice"]

Bent = AngleShape | ChannelShape | ZedShape | HatShape
LongShape = Bent | TeeShape | TubeShape
S_co = TypeVar("S_co", bound=LongShape, covariant=True)

BEND = 1.5
"""Bend radius by thickness where none is written (project choice)."""

_LONG = Length(above=0.0)
_ANGLE = Angle(low=1.0, high=179.0)
THICKNESS = Field(word="thickness", kind=_LONG, help="Of the sheet.", required=True)
LENGTH = Field(word="length", kind=_LONG, help="Along x.", required=True)
_RADIUS = Field(
    word="bend radius",
    kind=Length(low=0.0),
    help="Of the inside of the bend; left out: 1.5 times the thickness.",
)
_BEND_ANGLE = Field(
    word="angle",
    kind=_ANGLE,
    help="Of the bend: 90 where it is left out; 83 opens the angle by 7 degrees.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LongPart(Generic[S_co]):
    """The words of one shape, but for its length.

    ``title`` has an article, ``flats`` are in their order, ``needed``: a row must say on which it lies.
    """

    title: str
    help: str
    flats: tuple[str, ...]
    fields: tuple[Field, ...]
    make: Callable[[Values], S_co]
    needed: bool = True


def angles_said_twice(reading: Reading, values: Values) -> bool:
    """Say whether bends have both `angle` and `angles`, and note it."""
    if not (values.has("angle") and values.has("angles")):
        return False
    reading.bad(
        values.keys["angles"],
        "`angles` says again what `angle` says.",
        "`angle` is one for all bends, `angles` has one for each.",
        "Delete one of them.",
    )
    return True


def _lengths(word: str, names: tuple[str, ...], help_text: str) -> Field:
    label = f"{'two' if len(names) == 2 else len(names)} lengths [{', '.join(names)}]"
    return Field(
        word=word, kind=Numbers(count=len(names), each=_LONG, label=label), help=help_text, required=True
    )


def _bends(flats: tuple[str, ...], count: int) -> tuple[Field, ...]:
    """Return the words of the bends of a section with more than one."""
    word = {2: "two", 4: "four"}[count]
    angles = Numbers(count=count, each=_ANGLE, label=f"{word} angles, from {flats[0]} to {flats[-1]}")
    return (
        _RADIUS,
        Field(
            word="angle",
            kind=_ANGLE,
            help="Of every bend: 90 where it is left out; 83 opens it by 7 degrees, 97 closes it.",
        ),
        Field(word="angles", kind=angles, help="Instead of `angle`: of each bend its own."),
    )


def _radius(values: Values) -> float:
    radius: float = values.get("bend radius", BEND * values.get("thickness"))
    return radius


def _angle(values: Values) -> AngleShape:
    return AngleShape(
        thickness=values.get("thickness"),
        length=values.get("length", 0.0),
        legs=values.get("legs"),
        bend_radius=_radius(values),
        angle=values.get("angle", 90.0),
    )


def _channel(values: Values) -> ChannelShape:
    angle = values.get("angle", 90.0)
    return ChannelShape(
        thickness=values.get("thickness"),
        length=values.get("length", 0.0),
        flanges=values.get("flanges"),
        web=values.get("web"),
        bend_radius=_radius(values),
        angles=values.get("angles", (angle, angle)),
    )


def _zed(values: Values) -> ZedShape:
    angle = values.get("angle", 90.0)
    return ZedShape(
        thickness=values.get("thickness"),
        length=values.get("length", 0.0),
        flanges=values.get("flanges"),
        web=values.get("web"),
        bend_radius=_radius(values),
        angles=values.get("angles", (angle, angle)),
    )


def _hat(values: Values) -> HatShape:
    angle = values.get("angle", 90.0)
    return HatShape(
        thickness=values.get("thickness"),
        length=values.get("length", 0.0),
        feet=values.get("feet"),
        webs=values.get("webs"),
        crown=values.get("crown"),
        bend_radius=_radius(values),
        angles=values.get("angles", (angle, angle, angle, angle)),
    )


def _tee(values: Values) -> TeeShape:
    return TeeShape(
        thickness=values.get("thickness"),
        stem_thickness=values.get("stem thickness", values.get("thickness")),
        length=values.get("length"),
        flange=values.get("flange"),
        stem=values.get("stem"),
    )


def _tube(values: Values) -> TubeShape:
    return TubeShape(length=values.get("length"), diameter=values.get("diameter"), wall=values.get("wall"))


_LEG_FLATS = ("leg 1", "leg 2")
_WEB_FLATS = ("flange 1", "web", "flange 2")
_HAT_FLATS = ("foot 1", "web 1", "crown", "web 2", "foot 2")
_FLANGES = _lengths("flanges", ("flange 1", "flange 2"), "Flange 1 and flange 2, outside dimensions.")
_WEB = Field(word="web", kind=_LONG, help="From outside to outside, measured along the web.", required=True)

_CHANNEL_HELP = (
    "Flange 1 lies in z = 0 along x, the web stands up, flange 2 lies over flange 1. On flanges y runs "
    "from the outer corner to the edge, on the web from flange 1's corner to flange 2's. The outside is "
    "the outer side of the bends."
)
_ZED_HELP = (
    "Flange 1 lies in z = 0 along x, the web stands up, flange 2 reaches the other way. y as on a "
    "channel. The outside of a flange is the outer side of its bend, so that it looks away from the other "
    "flange; that of the web looks away from where flange 1 is."
)
_HAT_HELP = (
    "Foot 1 lies in z = 0 along x, web 1 stands up, the crown reaches to -y, web 2 comes down, foot 2 "
    "reaches out. On feet y runs from the outer corner to the edge, on the others from the corner with "
    "the flat before. The outside of crown and webs looks away from the hollow, that of the feet is the "
    "face that they stand on."
)
_TEE_HELP = (
    "The flange lies in z = 0 along x, y from its middle; the stem stands up on its middle, its y up from "
    "the flange's outside. The outside of the flange looks away from the stem, that of the stem to -y."
)
_TUBE_HELP = (
    "Its middle line is the x axis. On the wall x runs along the tube, y around its outside from the top "
    "(z = diameter / 2), positive towards +y; once round is pi x diameter, -y goes the other way."
)

STOCK_PARTS: dict[str, LongPart[Bent]] = {
    "angle": LongPart(
        title="an angle",
        help="Leg 1 lies in z = 0 along x, y from the outer corner, leg 2 stands up.",
        flats=_LEG_FLATS,
        fields=(
            THICKNESS,
            _lengths("legs", _LEG_FLATS, "Leg 1 and leg 2, outside dimensions."),
            _RADIUS,
            _BEND_ANGLE,
        ),
        make=_angle,
    ),
    "channel": LongPart(
        title="a channel",
        help=_CHANNEL_HELP,
        flats=_WEB_FLATS,
        fields=(THICKNESS, _FLANGES, _WEB, *_bends(_WEB_FLATS, 2)),
        make=_channel,
    ),
    "zed": LongPart(
        title="a zed",
        help=_ZED_HELP,
        flats=_WEB_FLATS,
        fields=(THICKNESS, _FLANGES, _WEB, *_bends(_WEB_FLATS, 2)),
        make=_zed,
    ),
    "hat": LongPart(
        title="a hat",
        help=_HAT_HELP,
        flats=_HAT_FLATS,
        fields=(
            THICKNESS,
            _lengths("feet", ("foot 1", "foot 2"), "Foot 1 and foot 2, outside dimensions."),
            _lengths(
                "webs", ("web 1", "web 2"), "From the feet's face to the crown's, measured along the webs."
            ),
            Field(word="crown", kind=_LONG, help="From outside to outside.", required=True),
            *_bends(_HAT_FLATS, 4),
        ),
        make=_hat,
    ),
}
"""Shape -> its words: those bent from one sheet, which may be stock."""

LONG_PARTS: dict[str, LongPart[LongShape]] = {
    **STOCK_PARTS,
    "tee": LongPart(
        title="a tee",
        help=_TEE_HELP,
        flats=("flange", "stem"),
        fields=(
            Field(word="thickness", kind=_LONG, help="Of the flange.", required=True),
            Field(word="stem thickness", kind=_LONG, help="Of the stem; left out: that of the flange."),
            Field(word="flange", kind=_LONG, help="The whole width.", required=True),
            Field(word="stem", kind=_LONG, help="The whole height, the flange with it.", required=True),
        ),
        make=_tee,
    ),
    "tube": LongPart(
        title="a tube",
        help=_TUBE_HELP,
        flats=("wall",),
        fields=(
            Field(word="diameter", kind=_LONG, help="Of the outside.", required=True),
            Field(word="wall", kind=_LONG, help="How thick it is.", required=True),
        ),
        make=_tube,
        needed=False,
    ),
}
"""Shape -> its words; every part with one section along x."""
