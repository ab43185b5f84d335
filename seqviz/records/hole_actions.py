"""What is done at holes: drill, rivet, bolt, drill out, leave open, open no longer."""

from __future__ import annotations

from seqviz.records.action_table import action
from seqviz.records.hole_words import FILTERS, THROUGH, Head, ReadyHoles, TemplateOrNames, narrowed
from seqviz.records.holes import HoleText
from seqviz.records.kinds import Choice, Text, YesNo
from seqviz.records.model import HoleChoice
from seqviz.records.reading import Reading
from seqviz.records.steps import Bolt, Drill, DrillOut, LeaveOpen, OpenNoLonger, Rivet
from seqviz.records.tables import Field, Values
from seqviz.records.trade_entries import OneFastener

__all__ = ["HOLE_ACTIONS"]

_HEAD = Field(
    word="head",
    kind=Head(),
    help="Where the manufactured head is: upper, lower, `on PLACED`; outside, inside of the "
    "layer nearest to the base. Left out: where a tool reaches, layer 1 first.",
)
_USE = Field(word="use", kind=OneFastener, help="Sets this fastener, whatever the sizes say.")


def _rivet(_reading: Reading, values: Values) -> Rivet:
    return Rivet(
        holes=values.get("rivet") or None,
        narrowed=narrowed(values),
        use=values.get("use"),
        head=values.get("head"),
    )


def _bolt(_reading: Reading, values: Values) -> Bolt:
    return Bolt(
        holes=values.get("bolt") or None,
        narrowed=narrowed(values),
        use=values.get("use"),
        head=values.get("head"),
        finger_tight=values.get("finger tight", False),
    )


def _drill(_reading: Reading, values: Values) -> Drill:
    through = values.get("through", ())
    template = through if isinstance(through, HoleChoice) else None
    return Drill(
        holes=values.get("drill"),
        narrowed=narrowed(values, through=() if template else through),
        template=template,
        to=values.get("to"),
    )


HOLE_ACTIONS = (
    action(
        "drill",
        HoleText(),
        "Drills holes through every layer that is there under them.",
        _drill,
        (
            Field(
                word="through",
                kind=TemplateOrNames(),
                help="The row of a placed template (a part with `tool: yes`) that leads the drill; or only "
                "stacks that have these placed parts as layers.",
            ),
            Field(
                word="to",
                kind=Choice(words=("final", "pilot"), label="a width of the hole"),
                help="final opens a pilot to its size, pilot drills no more than the pilot. Left out: final.",
            ),
            *FILTERS,
        ),
    ),
    action(
        "rivet",
        ReadyHoles(),
        "Sets rivets in holes, or in `everything ready`: all whose layers are there, none left open.",
        _rivet,
        (THROUGH, *FILTERS, _USE, _HEAD),
        refused=(("finger tight", "A rivet is set once and for all; a bolt may wait: `bolt`."),),
    ),
    action(
        "bolt",
        ReadyHoles(),
        "Puts bolts in and tightens them, in holes or in `everything ready`.",
        _bolt,
        (
            THROUGH,
            *FILTERS,
            _USE,
            _HEAD,
            Field(
                word="finger tight",
                kind=YesNo(),
                help="yes: the nut is only run on; a later step `bolt` tightens it.",
            ),
        ),
    ),
    action(
        "drill out",
        HoleText(),
        "Takes set fasteners out again; their holes are empty then.",
        lambda _reading, values: DrillOut(holes=values.get("drill out")),
    ),
    action(
        "leave open",
        HoleText(),
        "Keeps holes empty.",
        lambda _reading, values: LeaveOpen(holes=values.get("leave open"), reason=values.get("for")),
        (
            Field(
                word="for",
                kind=Text(),
                help="A placed part or sub-assembly (open until it is placed), or any text (until `open no "
                "longer`).",
            ),
        ),
    ),
    action(
        "open no longer",
        HoleText(),
        "Ends `leave open`.",
        lambda _reading, values: OpenNoLonger(holes=values.get("open no longer")),
    ),
)
"""The tables of these actions."""
