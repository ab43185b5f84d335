"""From records and parts to the placed structure: the story of the layer ``assembly`` from top to bottom."""

from __future__ import annotations

from dataclasses import replace

from seqviz.assembly import mistakes
from seqviz.assembly.contacts import sits_on
from seqviz.assembly.directions import UP, forward_of
from seqviz.assembly.entries import Entry, entries
from seqviz.assembly.flats import standing_flats
from seqviz.assembly.lay_up import LayUp, lay_up
from seqviz.assembly.pairing import stock_part, targets_of
from seqviz.assembly.placing import Attempt, place_entry
from seqviz.assembly.site import Site
from seqviz.assembly.stacks import hole_stacks
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.assembly.unsaid import unsaid_lay_ups
from seqviz.findings import Finding
from seqviz.geometry.pose import IDENTITY, frozen
from seqviz.parts.part import Part
from seqviz.records.model import Model

__all__ = ["assemble", "place_all", "structure_of"]


def assemble(model: Model, parts: dict[str, Part]) -> tuple[Assembly, list[Finding]]:
    """Place every part, then find the hole stacks and what sits on what.

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
    site, spoiled, findings = place_all(model, parts, known, lay, base)
    for name in lay.circular:
        findings.append(mistakes.circular(known[name], lay.circular))
    unsaid, unclear = unsaid_lay_ups(site, spoiled)
    findings += unsaid
    muted = _spread(spoiled | unclear, site)
    return structure_of(site, muted), findings


def structure_of(site: Site, muted: frozenset[str]) -> Assembly:
    """Return what the placed parts of ``site`` make: hole stacks and what sits on what."""
    stacks, stack_of = hole_stacks(site)
    return Assembly(
        base=site.base,
        placed=site.placed,
        muted=muted,
        stacks=stacks,
        stack_of=stack_of,
        contacts=sits_on(site),
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
    model: Model, parts: dict[str, Part], known: dict[str, Entry], lay: LayUp, base: str
) -> tuple[Site, set[str], list[Finding]]:
    """Place the entries one after another; return the site, the spoiled parts and what was noticed."""
    root = PlacedPart(
        name=base, part=parts[base], pose=IDENTITY, depth=0, side=UP, free=False, at=parts[base].at
    )
    site = Site(model=model, base=base, known=known, lay=lay, placed={base: root}, flats={})
    site.flats[base] = standing_flats(base, root.part, root.pose)
    spoiled: set[str] = set()
    findings: list[Finding] = []
    for name in lay.order:
        if name == base:
            continue
        attempt = _either_hand(known[name], parts, site)
        if lay.below[name] & spoiled:
            # What hangs on a part that did not fit cannot be judged.
            attempt = replace(attempt, findings=(), spoiled=True)
        findings += attempt.findings
        if attempt.part is not None:
            site.placed[name] = attempt.part
            site.flats[name] = standing_flats(name, attempt.part.part, attempt.part.pose)
            spoiled |= {name} if attempt.spoiled else set()
    in_file_order = {base: root} | {name: site.placed[name] for name in known if name in site.placed}
    site.placed.clear()
    site.placed.update(in_file_order)
    return site, spoiled, findings


def _either_hand(entry: Entry, parts: dict[str, Part], site: Site) -> Attempt:
    """Place the entry; of a pair of other hands the first is as described, unless only the reverse agrees."""
    if entry.record.stock is not None:
        part = stock_part(entry, site)
        if part is None or isinstance(part, Finding):
            return Attempt(part=None, findings=(part,) if part else ())
        return place_entry(entry, part, site, other=False)
    described = parts.get(entry.record.part.text) if entry.record.part else None
    if described is None:
        return Attempt(part=None)
    if entry.record.both_sides != "other hand":
        return place_entry(entry, described, site, other=False)
    usual = entry.twin in ("right", "aft")
    first = place_entry(entry, described, site, other=usual)
    if first.clean:
        return first
    second = place_entry(entry, described, site, other=not usual)
    return second if second.clean else first


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
