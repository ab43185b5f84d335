"""A long bent part as it is after the work on it: cut, kinked and joggled."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely

from seqviz.findings import Finding
from seqviz.geometry.polygons import anticlockwise, convex_pieces
from seqviz.geometry.pose import Array, Pose, frozen
from seqviz.geometry.prism import Piece, Prism, Prismoid
from seqviz.parts.blank import Blank, polygons_of, split_at
from seqviz.parts.blanking import blank_of
from seqviz.parts.body import Body
from seqviz.parts.kinking import spine_of
from seqviz.parts.misplaced import in_the_way
from seqviz.parts.mistakes import plain
from seqviz.parts.part import Flat, Hole, Part, Worked
from seqviz.parts.spine import Spine, Stretch
from seqviz.records.work_types import Work

__all__ = ["work_on", "worked_part"]

_SAME = 1e-6  # mm


def work_on(name: str, body: Body, widths: tuple[float, ...], work: Work) -> Body | Finding:
    """Return the straight ``body`` with the work that is to be done on it, or the first mistake.

    Its flats are those on which rows are written: as long as the tabs reach, nothing cut off.
    """
    spine = spine_of(name, body, work)
    if isinstance(spine, Finding):
        return spine
    blank = blank_of(name, body.flats, widths, work)
    if isinstance(blank, Finding):
        return blank
    wrong = in_the_way(name, blank, spine, work)
    return wrong or replace(
        body,
        flats={flat.name: _as_written(flat, blank) for flat in body.flats.values()},
        blank=blank,
        spine=spine,
    )


def worked_part(straight: Part, blank: Blank, spine: Spine) -> Part:
    """Return ``straight``, drilled and of the hand written, as it is after the work on it.

    A flat that is in several pieces afterwards keeps its name where it lies as written; the others are called
    after where they are: ``leg 1 from 300 to 600``.
    """
    sites = list(_sites(straight, blank, spine))
    pieces = [made for site in sites for made in _pieces_of_flat(site, spine)]
    pieces += [(None, piece) for piece in _pieces_of_bends(straight, blank, spine)]
    lasting = [site for site in sites if not site.stretch.ramp]
    flats = {site.name: _flat_at(site) for site in lasting}
    by_name = {name: flats[name] for name in straight.flats if name in flats}
    return replace(
        straight,
        flats={**by_name, **flats},
        pieces=tuple(piece for _, piece in pieces),
        piece_flats=tuple(name for name, _ in pieces),
        holes=tuple(_carried(hole, straight, lasting) for hole in straight.holes),
        worked=Worked(straight=straight, blank=blank, spine=spine),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Site:
    """A connected piece of a flat on one stretch: ``name`` it has, ``region`` in the flat's x and y, mm."""

    name: str
    flat: Flat
    stretch: Stretch
    region: shapely.Polygon


def _sites(straight: Part, blank: Blank, spine: Spine) -> Iterator[_Site]:
    stretches = spine.stretches(*blank.reach)
    # The stretch that lies as written keeps the names.
    own = next(one for one in stretches if not one.ramp and np.array_equal(one.pose.translation, np.zeros(3)))
    for flat in straight.flats.values():
        found = [(one, region) for one in stretches for region in _on_stretch(blank.flats[flat.name], one)]
        names = [f"{flat.name} from {plain(r.bounds[0])} to {plain(r.bounds[2])}" for _, r in found]
        kept = next((k for k, (one, _) in enumerate(found) if one is own), 0)
        for k, (stretch, region) in enumerate(found):
            yield _Site(name=flat.name if k == kept else names[k], flat=flat, stretch=stretch, region=region)


def _on_stretch(region: shapely.Geometry, stretch: Stretch) -> list[shapely.Polygon]:
    _, low, _, high = region.bounds
    return polygons_of(shapely.intersection(region, shapely.box(stretch.start, low, stretch.stop, high)))


def _flat_at(site: _Site) -> Flat:
    rings = [np.asarray(ring.coords)[:-1, :2] for ring in (site.region.exterior, *site.region.interiors)]
    outline, *openings = [frozen(anticlockwise(_mitred(site, ring))) for ring in rings]
    return replace(
        site.flat,
        name=site.name,
        frame=site.stretch.pose.after(site.flat.frame),
        outline=outline,
        openings=tuple(openings),
        stretch_of=None if site.name == site.flat.name else site.flat.name,
    )


def _mitred(site: _Site, ring: Array) -> Array:
    """Return the corners of a region with those on kinks where the middle of the sheet is folded."""
    middle = np.column_stack([ring, np.full(len(ring), site.flat.thickness / 2)])
    points = site.flat.frame.points(middle)
    moved = ring.copy()
    for crease, way in ((site.stretch.before, -1.0), (site.stretch.after, 1.0)):
        if crease is not None:
            on_it = np.abs(ring[:, 0] - crease.x) < _SAME
            moved[on_it, 0] = crease.x + way * (crease.mitre(points[on_it]) - crease.x)
    return moved


def _pieces_of_flat(site: _Site, spine: Spine) -> Iterator[tuple[str | None, Piece]]:
    name, thickness = None if site.stretch.ramp else site.name, site.flat.thickness
    for cell in split_at(site.region, _clear_of_kinks(site)):
        left, low, right, high = cell.bounds
        if _is_box(cell):
            ring = np.array([[low, 0], [high, 0], [high, thickness], [low, thickness]])
            if _square(site.stretch, left, right):
                yield name, _slab(site, np.array([[left, low], [right, low], [right, high], [left, high]]))
            else:
                yield name, _led(spine, *(site.flat.frame.points(_at(x, ring)) for x in (left, right)))
        else:
            ring = np.asarray(cell.exterior.coords)[:-1, :2]
            holes = [np.asarray(one.coords)[:-1, :2] for one in cell.interiors]
            for polygon in convex_pieces(ring, holes):
                yield name, _slab(site, polygon)


def _clear_of_kinks(site: _Site) -> list[float]:
    """Return the x beyond which a region is a plain strip as far as its kinks, mm."""
    left, _, right, _ = site.region.bounds
    xs = np.asarray(site.region.exterior.coords)[:, 0]
    inner = xs[(xs > left + _SAME) & (xs < right - _SAME)]
    ends = (site.stretch.before, inner.min(initial=np.inf)), (site.stretch.after, inner.max(initial=-np.inf))
    return [float(x) for crease, x in ends if crease is not None and np.isfinite(x)]


def _slab(site: _Site, polygon: Array) -> Prism:
    return Prism(
        polygon=frozen(polygon),
        height=site.flat.thickness,
        frame=site.stretch.pose.after(site.flat.frame),
    )


def _pieces_of_bends(straight: Part, blank: Blank, spine: Spine) -> Iterator[Piece]:
    names = list(straight.flats)
    places = [straight.piece_flats.index(name) for name in names]
    for spans, first, last in zip(blank.bends, places, places[1:], strict=False):
        facets = [piece for piece in straight.pieces[first + 1 : last] if isinstance(piece, Prism)]
        for stretch in spine.stretches(*blank.reach):
            for low, high in spans:
                left, right = max(low, stretch.start), min(high, stretch.stop)
                for facet in facets if right - left > _SAME else ():
                    yield _facet(facet, (left, right), stretch, spine)


def _facet(facet: Prism, ends: tuple[float, float], stretch: Stretch, spine: Spine) -> Piece:
    left, right = ends
    if _square(stretch, left, right):
        along = Pose(rotation=facet.frame.rotation, translation=frozen([left, 0.0, 0.0]))
        return Prism(polygon=facet.polygon, height=right - left, frame=stretch.pose.after(along))
    return _led(spine, _at(left, facet.polygon), _at(right, facet.polygon))


def _at(x: float, ring: Array) -> Array:
    """Return the corners ``(n, 3)`` of a section ``(n, 2)`` at ``x``."""
    return np.column_stack([np.full(len(ring), x), ring])


def _led(spine: Spine, bottom: Array, top: Array) -> Prismoid:
    return Prismoid(bottom=frozen(spine.carried(bottom)), top=frozen(spine.carried(top)))


def _square(stretch: Stretch, left: float, right: float) -> bool:
    """Say whether what lies between two x of a stretch is moved as one and cut square."""
    on_kink = (stretch.before is not None and left < stretch.start + _SAME) or (
        stretch.after is not None and right > stretch.stop - _SAME
    )
    return not stretch.ramp and not on_kink


def _is_box(region: shapely.Polygon) -> bool:
    left, low, right, high = region.bounds
    return bool(abs(region.area - (right - left) * (high - low)) < _SAME)


def _carried(hole: Hole, straight: Part, sites: list[_Site]) -> Hole:
    """Return a hole where its stretch takes it; one that is misplaced stays on the nearest."""
    flat = straight.flats[hole.flat]
    place = shapely.Point(flat.frame.inverse().points(hole.centre)[:2])
    site = min((one for one in sites if one.flat is flat), key=lambda one: one.region.distance(place))
    pose = site.stretch.pose
    return replace(
        hole,
        flat=site.name,
        centre=frozen(pose.points(hole.centre)),
        axis=frozen(pose.vectors(hole.axis)),
    )


def _as_written(flat: Flat, blank: Blank) -> Flat:
    low, _, high, _ = blank.flats[flat.name].bounds
    y = flat.outline[:, 1]
    low, high = min(low, 0.0), max(high, float(flat.outline[:, 0].max()))
    return replace(flat, outline=frozen([[low, y.min()], [high, y.min()], [high, y.max()], [low, y.max()]]))
