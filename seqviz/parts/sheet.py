"""Skins and plates: one flat of any outline, with openings."""

from __future__ import annotations

import numpy as np
import shapely

from seqviz.findings import At, Finding
from seqviz.geometry.polygons import anticlockwise, circle, convex_pieces, is_anticlockwise
from seqviz.geometry.pose import IDENTITY, Array, frozen
from seqviz.geometry.prism import Prism
from seqviz.parts.body import NARROWEST, Body, too_narrow
from seqviz.parts.mistakes import bad_value, missing_word
from seqviz.parts.part import Flat
from seqviz.parts.rolled import rolled_body
from seqviz.records.model import Opening, PlateShape, SkinShape

__all__ = ["opening_ring", "outline_mistake", "ring_of", "sheet_body"]

_SAME = 1e-9  # mm


def sheet_body(name: str, shape: SkinShape | PlateShape, at: At) -> Body | Finding:
    """Return the body of a skin or plate, or the first mistake in its description.

    The part's frame is the one in which the outline is written; the sheet fills 0 <= z <= thickness. Its only
    flat is ``face``. The outside is +z where the outline is written anticlockwise, else -z. A rolled sheet
    leaves its frame to both sides of the line that it is rolled about; see `seqviz.parts.rolled`.
    """
    outline = ring_of(shape.outline)
    mistake = too_narrow(at, name, {"thickness": shape.thickness}) or outline_mistake(outline, at, name)
    if mistake:
        return mistake
    openings = []
    for opening in shape.openings:
        cut = opening_ring(opening)
        if isinstance(cut, Finding):
            return cut
        openings.append(cut)
    mistake = _openings_mistake(outline, openings, shape.openings)
    if mistake:
        return mistake
    flat = Flat(
        name="face",
        frame=IDENTITY,
        thickness=shape.thickness,
        outside=1 if is_anticlockwise(outline) else -1,
        outline=frozen(anticlockwise(outline)),
        openings=tuple(frozen(cut) for cut in openings),
    )
    if shape.rolled:
        return rolled_body(name, flat, shape.rolled)
    pieces = tuple(
        Prism(polygon=frozen(piece), height=shape.thickness, frame=IDENTITY)
        for piece in convex_pieces(flat.outline, flat.openings)
    )
    return Body(flats={"face": flat}, pieces=pieces, piece_flats=("face",) * len(pieces))


def ring_of(points: tuple[tuple[float, float], ...]) -> Array:
    """Return the corners without those written twice in a row, the last one equal to the first among them."""
    ring = np.array(points, dtype=np.float64).reshape(-1, 2)
    fresh = np.abs(ring - np.roll(ring, -1, axis=0)).max(axis=1, initial=0.0) > _SAME
    return np.asarray(ring[fresh])


def outline_mistake(outline: Array, at: At, name: str) -> Finding | None:
    """Return what is wrong with an outline ``(n, 2)`` mm, or None."""
    if len(outline) < 3:
        return bad_value(
            at,
            f"{name}: the outline has fewer than three corners.",
            "An outline is a closed line round the part; the last corner joins the first by itself.",
            "Write at least three corners that are not the same point.",
        )
    polygon = shapely.Polygon(outline)
    if not polygon.is_valid:
        return bad_value(
            at,
            f"{name}: the outline crosses or touches itself ({shapely.is_valid_reason(polygon)}).",
            "The corners are joined in the order in which they are written.",
            "Put the corners in order, once round the part.",
        )
    if polygon.buffer(-NARROWEST / 2 + 1e-6).is_empty:
        return too_narrow(at, name, {"the outline's width of less than": 0.0})
    return None


def opening_ring(opening: Opening) -> Array | Finding:
    """Return the opening as an anticlockwise ring, or its mistake."""
    if opening.outline:
        ring = ring_of(opening.outline)
        mistake = outline_mistake(ring, opening.at, f"opening {opening.name}")
        return mistake or anticlockwise(ring)
    if opening.center is None or opening.diameter is None:
        return missing_word(
            opening.at,
            f"Opening {opening.name} has no size.",
            "An opening is round (center and diameter) or has an outline.",
            "Write center and diameter, or outline.",
        )
    mistake = too_narrow(opening.at, f"opening {opening.name}", {"diameter": opening.diameter})
    return mistake or circle(np.array(opening.center), opening.diameter)


def _openings_mistake(outline: Array, openings: list[Array], records: tuple[Opening, ...]) -> Finding | None:
    sheet = shapely.Polygon(outline)
    cuts = [shapely.Polygon(opening) for opening in openings]
    for index, (cut, record) in enumerate(zip(cuts, records, strict=True)):
        if not sheet.contains_properly(cut):
            return bad_value(
                record.at,
                f"Opening {record.name} reaches the edge of the outline or lies outside it.",
                "An opening has material all round; a notch belongs to the outline.",
                "Move it or make it smaller, or write the notch into the outline.",
            )
        for other, earlier in zip(cuts[:index], records[:index], strict=True):
            if cut.intersects(other):
                return bad_value(
                    record.at,
                    f"Opening {record.name} overlaps opening {earlier.name}.",
                    "Each opening has material all round.",
                    "Move one of them, or write both as one outline.",
                )
    return None
