"""From records and parts to the placed structure: the story of the layer ``assembly`` from top to bottom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from seqviz.assembly import mistakes
from seqviz.assembly.axes import SharedAxes, shared_axes
from seqviz.assembly.contacts import sits_on
from seqviz.assembly.directions import UP, forward_of
from seqviz.assembly.entries import Entry, entries
from seqviz.assembly.flats import standing_flats
from seqviz.assembly.hands import are_mirror_images, is_flat_blank
from seqviz.assembly.lay_up import LayUp, lay_up
from seqviz.assembly.laying import with_laid_holes, without_place
from seqviz.assembly.one_piece import Piece, adopted
from seqviz.assembly.pairing import part_along, stock_part, targets_of
from seqviz.assembly.placing import Attempt, place_entry
from seqviz.assembly.site import Site
from seqviz.assembly.stacks import hole_stacks
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.assembly.unsaid import unsaid_lay_ups
from seqviz.assembly.weaving import woven_overlaps
from seqviz.findings import Finding
from seqviz.geometry.pose import IDENTITY, frozen
from seqviz.parts.hand import other_hand
from seqviz.parts.part import Part
from seqviz.records.model import MirrorLine, Model

__all__ = ["assemble", "place_all", "structure_of"]


def assemble(
    model: Model, parts: dict[str, Part], pieces: Mapping[str, Piece] | None = None
) -> tuple[Assembly, list[Finding]]:
    """Place every part, then find the hole stacks and what sits on what.

    ``pieces``: entry of ``placed`` -> the other model that it uses, as one piece.

    Returns
    -------
    Assembly, list of Finding
        Parts that could not be placed are not in it; those that a finding spoils are muted.
    """
    base = model.base.text if model.base else ""
    if base not in parts:
        return _nothing(model, base), []
    known = entries(model)
    targets = {name: targets_of(entry, known, base) for name, entry in known.items()}
    lay = lay_up(known, targets, base)
    site, spoiled, findings = place_all(model, parts, known, lay, base, pieces)
    for name in lay.circular:
        findings.append(mistakes.circular(known[name], lay.circular))
    findings += woven_overlaps(lay, known, base)
    seated = site.without_templates()
    axes = shared_axes(seated.placed)
    unsaid, unclear = unsaid_lay_ups(seated, axes, spoiled)
    findings += unsaid
    muted = _spread(spoiled | unclear, site)
    return structure_of(site, axes, muted), findings


def structure_of(site: Site, axes: SharedAxes, muted: frozenset[str]) -> Assembly:
    """Return what the placed parts of ``site`` make: hole stacks and what sits on what."""
    seated = site.without_templates()
    stacks, stack_of = hole_stacks(seated, axes)
    return Assembly(
        base=site.base,
        placed=site.placed,
        muted=muted,
        stacks=stacks,
        stack_of=stack_of,
        contacts=sits_on(seated),
        up=frozen(site.up),
        forward=frozen(site.placed[site.base].pose.vectors(forward_of(site.model))),
    )


def _nothing(model: Model, base: str) -> Assembly:
    return Assembly(
        base=base,
        placed={},
        muted=frozenset(),
        stacks=(),
        stack_of={},
        contacts=(),
        up=UP,
        forward=forward_of(model),
    )


def place_all(
    model: Model,
    parts: dict[str, Part],
    known: dict[str, Entry],
    lay: LayUp,
    base: str,
    pieces: Mapping[str, Piece] | None = None,
) -> tuple[Site, set[str], list[Finding]]:
    """Place the entries one after another; return the site, the spoiled parts and what was noticed."""
    root = _root(base, parts[base], model)
    site = Site(
        model=model, base=base, known=known, lay=lay, placed={base: root}, flats={}, pieces=pieces or {}
    )
    site.flats[base] = standing_flats(base, root.part, root.pose)
    spoiled: set[str] = set()
    findings: list[Finding] = []
    for name in lay.order:
        if name == base:
            continue
        attempt = _either_hand(known[name], parts, site)
        if lay.below[name] & spoiled or not _sound(known[name], site):
            # What hangs on a part that did not fit, or is itself not in order inside, cannot be judged.
            attempt = replace(attempt, findings=(), spoiled=True)
        findings += attempt.findings
        if attempt.part is not None:
            record = known[name].record
            described = parts[record.part.text] if record.part else attempt.part.part
            site.placed[name] = with_laid_holes(attempt.part, described, model)
            site.flats[name] = standing_flats(name, attempt.part.part, attempt.part.pose)
            spoiled |= {name} if attempt.spoiled else set()
    in_file_order = {base: root} | {name: site.placed[name] for name in known if name in site.placed}
    site.placed.clear()
    site.placed.update(in_file_order)
    return site, spoiled, findings


def _root(base: str, part: Part, model: Model) -> PlacedPart:
    """Return the base; it may be a sketch."""
    if part.pieces:
        root = PlacedPart(name=base, part=part, pose=IDENTITY, depth=0, side=UP, free=False, at=part.at)
    else:
        root = replace(without_place(base, part, part.at), depth=0)
    return with_laid_holes(root, part, model)


def _either_hand(entry: Entry, parts: dict[str, Part], site: Site) -> Attempt:
    """Place the entry; of a pair of other hands the first is as described, unless only the reverse agrees.

    What lies along a row runs so that it faces as the entry says.
    """
    if entry.record.stock is not None:
        first = _stock(entry, site, backwards=False)
        second = first if first.clean else _stock(entry, site, backwards=True)
        return second if second.clean else first
    described = _described(entry, parts, site)
    if described is None:
        return Attempt(part=None)
    if not entry.record.has_way:
        return Attempt(part=without_place(entry.name, described, entry.record.at))
    if entry.record.both_sides == "same part" and entry.record.face is None and is_flat_blank(described):
        return _either_face(entry, described, site)
    usual = entry.twin in ("right", "aft") and entry.record.both_sides == "other hand"
    hands = (usual, not usual) if entry.record.both_sides == "other hand" else (usual,)
    ways = (False, True) if entry.record.along is not None else (False,)
    tried: list[Attempt] = []
    for other in hands:
        for backwards in ways:
            tried.append(
                _laid(entry, other_hand(described) if other else described, site, backwards=backwards)
            )
            if tried[-1].clean:
                return tried[-1]
    return tried[0]


def _either_face(entry: Entry, part: Part, site: Site) -> Attempt:
    """Place one of two flat pieces of one part; the second is turned over where that mirrors the first."""
    as_said = _laid(entry, part, site, backwards=False)
    first = site.placed.get(entry.twin_of[1]) if entry.twin_of else None
    line = site.model.mirror_line
    if first is None or line is None or _mirrors(as_said, first, line):
        return as_said
    # Left to itself a flat sheet lies as drawn, on its inside.
    turned = _laid(replace(entry, record=replace(entry.record, face="outside")), part, site, backwards=False)
    return turned if _mirrors(turned, first, line) else as_said


def _mirrors(attempt: Attempt, first: PlacedPart, line: MirrorLine) -> bool:
    return attempt.clean and attempt.part is not None and are_mirror_images(first, attempt.part, line)


def _described(entry: Entry, parts: dict[str, Part], site: Site) -> Part | None:
    if entry.record.part is not None:
        return parts.get(entry.record.part.text)
    piece = site.pieces.get(entry.record.name)
    return adopted(piece.part, site.model) if piece else None


def _sound(entry: Entry, site: Site) -> bool:
    """Say whether nothing was found in the other model that the entry uses, if it uses one."""
    piece = site.pieces.get(entry.record.name)
    return piece is None or piece.sound


def _laid(entry: Entry, part: Part, site: Site, *, backwards: bool) -> Attempt:
    """Place a part; where it lies along a row it takes its holes first, running forwards or backwards."""
    piece = part_along(entry, part, site, backwards=backwards)
    if piece is None or isinstance(piece, Finding):
        return Attempt(part=None, findings=(piece,) if piece else ())
    return place_entry(entry, piece, site, other=False)


def _stock(entry: Entry, site: Site, *, backwards: bool) -> Attempt:
    """Cut and place a piece of stock that runs from the first hole beneath to the last, or backwards."""
    part = stock_part(entry, site, backwards=backwards)
    if part is None or isinstance(part, Finding):
        return Attempt(part=None, findings=(part,) if part else ())
    return place_entry(entry, part, site, other=False)


def _spread(spoiled: set[str], site: Site) -> frozenset[str]:
    """Mute also what lies on, or over, something that is spoiled or could not be placed."""
    missing = (set(site.known) - set(site.placed)) | spoiled
    muted = set(spoiled)
    for name in site.placed:
        record = site.known[name].record if name in site.known else None
        said = {word.text for word in (*record.over, *record.under)} if record else set()
        if site.lay.below[name] & missing or said & site.model.broken:
            muted.add(name)
    return frozenset(muted)
