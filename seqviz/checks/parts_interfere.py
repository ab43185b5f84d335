"""Two parts would have to be in the same place.

What it means: as the file says it, one part cuts into the other. Metal does not. A leg too long, a
corner without relief, a bend on top of a rivet flange, or a part placed on the wrong holes are the
usual reasons.

What to do: compare both parts with the drawing, first the lengths and legs, then where each is
matched. Where one is meant to lie over the other, say it with `over:` or `under:`. Where you will
file or relieve a corner by hand, either draw it so, or settle it under `known` with the reason and
`sure: yes`.

Found, because the strap's end runs 3 mm into the standing leg of the rail:

```yaml
parts:
  strap: {shape: bar, length: 123, width: 20, thickness: 1.6}
```

Goes through:

```yaml
parts:
  strap: {shape: bar, length: 120, width: 20, thickness: 1.6}
```

The rule: two parts interfere when they cut into each other by more than 0.05 mm (project choice).
Parts that touch, flush sheets and parts with air between them never do. Rivet holes and heads play
no part in it. Parts that sit on each other with a gap are told as a gap; a flat that only reaches
into a bend as `rides-the-radius`; parts of a circle as `woven-overlap`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from seqviz.assembly.interference import interfering, meeting_flats, only_with_heads
from seqviz.build import Build
from seqviz.checks.check import Check
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.checks.places import entries_of, farther_first
from seqviz.checks.wording import length, listed
from seqviz.findings import Finding

__all__ = ["CHECK"]


def find(build: Build) -> Iterator[Finding]:
    """Yield one finding for each pair of parts."""
    for group in grouped(build, "parts-interfere", _sightings(build)):
        deep = length(build, group.figure or 0.0)
        if any(heads for _, _, heads in group.all):
            yield group.finding("parts-interfere", "error", _of_heads(build, group.all, deep))
            continue
        pairs = listed(f"{far} cuts into {near}" for far, near, _ in group.all)
        words = Words(
            message=f"{pairs}, {deep} deep.",
            why=f"{_where(build, *group.first[:2])}Two parts cannot be in one place. "
            "Up to 0.05 mm counts as touching (project choice).",
            fix="Compare lengths, legs and the matched holes of both with the drawing. "
            "If one lies over the other, say so with over or under.",
        )
        yield group.finding("parts-interfere", "error", words)


def _where(build: Build, far: str, near: str) -> str:
    """Return a sentence about the flats that meet, of parts whose pieces belong to several."""
    placed = build.assembly.placed
    found = zip((far, near), meeting_flats(placed[far], placed[near]), strict=True)
    told = [
        f"{listed(flats)} of {name}"
        for name, flats in found
        if flats
        and len(set(placed[name].part.piece_flats)) > 1
        and all(flat in placed[name].part.flats for flat in flats)
    ]
    return f"What meets: {listed(told)}. " if told else ""


def _of_heads(build: Build, met: Iterable[tuple[str, str, str | None]], deep: str) -> Words:
    """Return the words for heads and tails of fasteners that came set in another model."""
    pairs = [(heads, near if heads == far else far) for far, near, heads in met if heads]
    files = listed(dict.fromkeys(build.assembly.placed[heads].part.name for heads, _ in pairs))
    words = listed(f"rivets that came set in {heads} stand in {other}" for heads, other in pairs)
    return Words(
        message=f"{words[0].upper()}{words[1:]}, {deep} deep.",
        why=f"Their heads and tails are solid. {files} sets them before the piece is placed.",
        fix="Leave those holes open in that sequence and set them once the piece is placed, "
        "or give the other part holes for the heads.",
    )


def _sightings(build: Build) -> Iterator[Sighting[tuple[str, str, str | None]]]:
    assembly = build.assembly
    woven = [set(f.parts) for f in build.noticed if f.kind == "woven-overlap"]
    for one, other, depth in interfering(assembly):
        # Woven parts have no heights at which they all lie free: that is told already.
        if any({one, other} <= parts for parts in woven):
            continue
        far, near = farther_first(assembly, one, other)
        sides = ((far, near), (near, far))
        heads = next((a for a, b in sides if only_with_heads(assembly, a, b)), None)
        yield Sighting(
            key=(*entries_of(assembly, (near,)), heads is None),
            seen=(far, near, heads),
            at=assembly.placed[far].at,
            parts=(far, near),
            figure=depth,
        )


CHECK = Check("parts-interfere", "error", find)
