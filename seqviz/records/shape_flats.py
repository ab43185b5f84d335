"""The flats of a placed part, as its shape names them."""

from __future__ import annotations

from seqviz.records.model import (
    AngleShape,
    BarShape,
    BlockShape,
    ChannelShape,
    HatShape,
    Model,
    PlateShape,
    Shape,
    SketchShape,
    SkinShape,
    TeeShape,
    TubeShape,
    ZedShape,
)
from seqviz.records.names import Names
from seqviz.records.shapes import FLATS

__all__ = ["flats_of"]

_FLATS: dict[type[Shape], tuple[str, ...]] = {
    SkinShape: FLATS["skin"],
    PlateShape: FLATS["plate"],
    AngleShape: FLATS["angle"],
    ChannelShape: FLATS["channel"],
    ZedShape: FLATS["zed"],
    HatShape: FLATS["hat"],
    TeeShape: FLATS["tee"],
    TubeShape: FLATS["tube"],
    BarShape: FLATS["bar"],
    BlockShape: FLATS["block"],
    SketchShape: (),
}
"""Of a shape that is not here the flats depend on what is written; they are known once it is made."""


def flats_of(model: Model, names: Names, placed: str) -> tuple[str, ...] | None:
    """Return the flats of a placed part (one of twins, or the base); None where they are not known yet."""
    entry = next((name for name, twins in names.twins.items() if placed in twins), placed)
    if entry in model.placed:
        said = model.placed[entry]
        table = model.stock if said.stock else model.parts
        name = said.stock or said.part
        kind = table.get(name.text) if name else None
    else:
        kind = model.parts.get(entry)
    return _FLATS.get(type(kind.shape)) if kind else None
