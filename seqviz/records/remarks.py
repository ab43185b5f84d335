"""``later`` and ``known``: what the builder tells beside the structure itself."""

from __future__ import annotations

from seqviz.records.holes import HoleText
from seqviz.records.kinds import Choice, Length, Text, YesNo
from seqviz.records.lists import ListOf, OneName, Word
from seqviz.records.model import Known, Later
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values

__all__ = ["KINDS", "KNOWN", "LATER", "READING_KINDS", "SURE_KINDS"]

READING_KINDS = (
    "unknown-word",
    "bad-value",
    "missing-word",
    "unknown-name",
    "duplicate-name",
    "value-lost",
    "say-over-or-under",
    "faces-wrong-way",
    "known-unused",
)
"""Kinds that cannot be settled: what is not understood must be written otherwise."""

SURE_KINDS = ("parts-interfere", "layer-missing", "no-way-in", "no-valid-order")
"""Kinds that are settled by ``sure: yes`` only."""

KINDS = (
    *READING_KINDS,
    *SURE_KINDS,
    *("measured-loosely", "holes-off", "layer-undrilled", "hole-size-differs", "loose-part", "single-layer"),
    *("two-fasteners-named", "gap-in-stack", "woven-overlap", "rides-the-radius", "two-of-one-hand"),
    *("fits-another-way", "look-alike", "gap-drawn-shut", "grip-out-of-range", "hole-for-fastener"),
    *("edge-distance", "hole-pitch", "bend-radius", "countersink-too-deep", "rivet-for-sheet", "bare-joint"),
    *("tool-blocked", "under-set-layer", "head-under-part", "wrong-side-up", "fills-left-open"),
    *("taken-off-when-set", "not-drilled", "way-out-blocked", "never-set", "left-open-forever"),
    *("part-unplaced", "still-finger-tight", "placed-twice", "pin-in-the-way", "pins-too-far-apart"),
    *("pin-out-of-reach", "stands-on-weak", "loose-at-turn-over", "prep-missed", "set-twice"),
    *("closing-unchecked", "in-kept-space", "drill-hits", "last-chance"),
)
"""All kinds of findings."""


def _later(reading: Reading, values: Values) -> Later | None:
    if values.failed:
        return None
    if values.has("holes") == values.has("part"):
        if values.has("part"):
            reading.bad(
                values.keys["part"],
                "`part` does not go with `holes`.",
                "An entry is about one.",
                "Write two entries.",
            )
        else:
            reading.report(
                "missing-word",
                values.place,
                "`holes` or `part` is missing.",
                "An entry of `later` says what is still to come.",
                "Add holes or part.",
            )
        return None
    return Later(
        holes=values.get("holes", ()),
        part=values.get("part"),
        why=values.get("why"),
        at=reading.at(values.place),
    )


def _known(reading: Reading, values: Values) -> Known | None:
    if values.failed:
        return None
    kind, sure = values.get("kind"), values.get("sure", False)
    target = values.get("at")
    if kind in READING_KINDS:
        reading.bad(
            values.nodes["kind"],
            f"`{kind}` cannot be settled.",
            "It tells that something in the file is not understood; all that follows may be wrong.",
            "Correct the file where the finding stands.",
        )
        return None
    if kind in SURE_KINDS and not sure:
        reading.bad(
            values.nodes["kind"],
            f"`{kind}` wants `sure: yes`.",
            "As written the work cannot be done; to settle that is a grave step.",
            "Add `sure: yes` if the drawing or a try shows that it works all the same.",
        )
        return None
    if target.text.isdigit():
        reading.bad(
            target.at,
            f"`{target.text}` is a number.",
            "`at` is a hole, a row or a placed part, never a step, so that it stays true when steps move.",
            "Write the hole, the row or the part.",
        )
        return None
    return Known(
        kind=kind,
        target=target.text,
        target_at=target.at,
        why=values.get("why"),
        by=values.get("by"),
        figure=values.get("figure"),
        sure=sure,
        at=reading.at(values.place),
    )


_LATER = Record(
    title="an entry of `later`",
    help="Holes or a part known to come, not modelled yet; nobody asks for them.",
    fields=(
        Field(word="holes", kind=HoleText(), help="Holes that stay empty for now."),
        Field(word="part", kind=OneName, help="A placed part that is not placed by a step yet."),
        Field(word="why", kind=Text(), help="What comes there.", required=True),
    ),
    build=_later,
)
_KNOWN = Record(
    title="an entry of `known`",
    help="A finding that is settled with a reason; it is still counted and printed.",
    fields=(
        Field(
            word="kind",
            kind=Choice(words=KINDS, label="a kind of finding", mistake="unknown-name"),
            help="The finding's kind.",
            required=True,
        ),
        Field(word="at", kind=Word(of=Text()), help="A hole, a row or a placed part.", required=True),
        Field(word="why", kind=Text(), help="The reason.", required=True),
        Field(word="by", kind=Text(), help="Who settled it."),
        Field(word="figure", kind=Length(low=0.0), help="At what figure; a worse one opens it again."),
        Field(
            word="sure",
            kind=YesNo(),
            help="Wanted for parts-interfere, layer-missing, no-way-in and no-valid-order.",
        ),
    ),
    build=_known,
)

LATER = ListOf(each=_LATER, label="a list of what is still to come", least=0, keep=True)
"""``later``."""

KNOWN = ListOf(each=_KNOWN, label="a list of findings that are settled", least=0, keep=True)
"""``known``."""
