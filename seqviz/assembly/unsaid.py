"""Overlapping parts whose lay-up nobody said."""

from __future__ import annotations

from seqviz.assembly import mistakes
from seqviz.assembly.axes import SharedAxes
from seqviz.assembly.flats import Plan, StandingFlat, overlap
from seqviz.assembly.heights import slabs_meet
from seqviz.assembly.site import Site
from seqviz.assembly.stacks import CLEAR
from seqviz.assembly.structure import PlacedPart
from seqviz.findings import Finding
from seqviz.geometry.boxes import near_pairs

__all__ = ["unsaid_lay_ups"]

SAME_SIDE = 0.5
"""Cosine: two parts lie on the same side of what is between them when their sides agree this well."""


def unsaid_lay_ups(site: Site, axes: SharedAxes, spoiled: set[str]) -> tuple[list[Finding], set[str]]:
    """Return findings for overlapping parts whose lay-up nobody said, and the parts they stand at.

    Two parts are asked about when their lying flats overlap and meet, or when they are riveted together from
    the same side of what they lie on. Nothing is asked about parts in ``spoiled``.
    """
    findings: list[Finding] = []
    unclear: set[str] = set()
    names = [name for name in site.placed if name not in spoiled]
    riveted = _riveted_together(axes, spoiled)
    for i, j in near_pairs([site.placed[name].solids for name in names], margin=CLEAR):
        a, b = site.placed[names[i]], site.placed[names[j]]
        if (
            not (a.free or b.free)
            or _said_in_a_circle(a, b, site)
            or not _asked(a, b, site, frozenset((a.name, b.name)) in riveted)
        ):
            continue
        first, later = sorted((a, b), key=lambda p: (p.depth, p.name))
        if later.name in site.known:
            findings.append(mistakes.say_lay_up(site.known[later.name], first.name))
            unclear.add(later.name)
    return findings, unclear


def _asked(a: PlacedPart, b: PlacedPart, site: Site, riveted: bool) -> bool:
    lay = site.lay
    if not _related(a.name, b.name, lay.beneath) and _lying_flats(a, b, site, meeting=True):
        return True
    same_side = a.free and b.free and float(a.side @ b.side) > SAME_SIDE
    return (
        riveted
        and same_side
        and not _related(a.name, b.name, lay.below)
        and _lying_flats(a, b, site, meeting=False)
    )


def _said_in_a_circle(a: PlacedPart, b: PlacedPart, site: Site) -> bool:
    """Say whether it was said which of the two lies over the other, in words that close a circle."""
    return any({a.name, b.name} == {s.upper, s.lower} for s in site.lay.left_out)


def _riveted_together(axes: SharedAxes, spoiled: set[str]) -> set[frozenset[str]]:
    """Return the pairs of parts that share a hole's axis."""
    found: set[frozenset[str]] = set()
    for group in axes.groups(without=spoiled):
        names = {axes.holes[k].part.name for k in group}
        found |= {frozenset((a, b)) for a in names for b in names if a < b}
    return found


def _lying_flats(a: PlacedPart, b: PlacedPart, site: Site, *, meeting: bool) -> bool:
    """Say whether a flat that lies on its target overlaps (and meets) a parallel flat of the other part."""
    for one, other in ((a, b), (b, a)):
        lying = [flat for flat in site.flats[one.name] if one.free and flat.parallel_to(one.side)]
        for flat in lying:
            for beside in site.flats[other.name]:
                if slabs_meet(flat, beside) if meeting else _overlap_in_plan(flat, beside):
                    return True
    return False


def _overlap_in_plan(a: StandingFlat, b: StandingFlat) -> bool:
    if not a.parallel_to(b.normal):
        return False
    plan = Plan.across(a.normal)
    return overlap(a.polygon(plan), b.polygon(plan)) > 0.0


def _related(a: str, b: str, under: dict[str, frozenset[str]]) -> bool:
    return a in under.get(b, ()) or b in under.get(a, ())
