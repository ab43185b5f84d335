"""Drill, bolt, drill out."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.model import HoleChoice, Name
from seqviz.records.steps import Bolt, Drill, DrillOut, HoleFilter
from tests.records.written import MODEL, Place, changed, places, said, sequence_of

RAIL_PART = "  rail:\n    shape: angle\n"
GUIDE = """\
  guide:
    shape: plate
    tool: yes
    thickness: 3
    outline: [[0, 0], [80, 0], [80, 30], [0, 30]]
    holes:
      lead: {from: [10, 10], to: [70, 10], count: 4, size: small}
"""
PLACED_GUIDE = "  guide: {part: guide, match: {lead.1: skin.cross 1.1, lead.4: skin.cross 1.4}}\n"
WITH_GUIDE = changed(RAIL_PART, GUIDE + RAIL_PART) + PLACED_GUIDE


def test_drilling_is_read(tmp_path: Path) -> None:
    read = sequence_of(
        tmp_path,
        """\
        - place: guide
        - drill: skin.cross 1.1-4
          through: guide.lead
        - drill: [skin.rail left, skin.cross 1.3]
          through: [skin, rail left]
          to: Final
          size: small
          except: skin.rail left.2
        - drill: skin.edge
          through: skin
          to: pilot
        """,
        WITH_GUIDE,
    )
    assert read.findings == []
    assert read.sequence is not None
    file = str(tmp_path / "sequence.yaml")
    _, led, filtered, pilot = (step.action for step in read.sequence.steps)
    lead = HoleChoice(placed="guide", row="lead", first=None, last=None, at=At(file=file, line=6, column=12))
    assert isinstance(led, Drill)
    assert (led.template, led.narrowed, led.to) == (lead, HoleFilter(), None)
    assert isinstance(filtered, Drill)
    assert [choice.row for choice in filtered.holes] == ["rail left", "cross 1"]
    assert (filtered.template, filtered.to) == (None, "final")
    narrowed = filtered.narrowed
    assert narrowed.size == Name(text="small", at=At(file=file, line=10, column=9))
    assert [name.text for name in narrowed.through] == ["skin", "rail left"]
    assert [(choice.row, choice.first) for choice in narrowed.excluded] == [("rail left", 2)]
    assert isinstance(pilot, Drill)
    assert (pilot.to, [name.text for name in pilot.narrowed.through]) == ("pilot", ["skin"])


def test_bolts_are_read(tmp_path: Path) -> None:
    read = sequence_of(
        tmp_path,
        """\
        - bolt: Everything-Ready
          finger tight: yes
        - bolt: skin.cross 1
          use: bolt AN3
          head: on skin
          forward of: x=20
        - drill out: [skin.cross 1.1, skin.cross 1.3-4]
        """,
    )
    assert read.findings == []
    assert read.sequence is not None
    loose, tight, out = (step.action for step in read.sequence.steps)
    assert loose == Bolt(holes=None, narrowed=HoleFilter(), use=None, head=None, finger_tight=True)
    assert isinstance(tight, Bolt)
    assert tight.use is not None
    assert tight.head is not None
    assert (tight.finger_tight, tight.use.text, tight.head.text) == (False, "bolt AN3", "on skin")
    assert tight.narrowed.forward_of == ("x", 20.0)
    assert isinstance(out, DrillOut)
    assert [(choice.first, choice.last) for choice in out.holes] == [(1, 1), (3, 4)]


@pytest.mark.parametrize(
    ("steps", "place"),
    [
        ("- drill: skin\n", ("bad-value", 4, 10)),
        ("- drill: everything ready\n", ("bad-value", 4, 10)),
        ("- drill: skin.rail\n  to: full\n", ("unknown-word", 5, 7)),
        ("- drill: skin.rail\n  through: guide.led\n", ("unknown-name", 5, 12)),
        ("- drill: skin.rail\n  through: guide.lead.5\n", ("unknown-name", 5, 12)),
        ("- drill: skin.rail\n  through: guid.lead\n", ("unknown-name", 5, 12)),
        ("- drill: skin.rail\n  through: rail left.foot\n", ("bad-value", 5, 12)),
        ("- drill: skin.rail\n  through: [guide.lead, skin]\n", ("bad-value", 5, 13)),
        ("- drill: skin.rail\n  through: guide\n", ("bad-value", 5, 12)),
        ("- drill: skin.rail\n  through: []\n", ("bad-value", 5, 12)),
        ("- drill: skin.rail\n  head: upper\n", ("unknown-word", 5, 3)),
        ("- rivet: skin.rail\n  finger tight: yes\n", ("unknown-word", 5, 3)),
        ("- rivet: skin.rail\n  through: [skin, guide]\n", ("bad-value", 5, 19)),
        ("- rivet: skin.rail\n  through: guide.lead\n", ("bad-value", 5, 12)),
        ("- bolt: skin.rail\n  finger tight: loose\n", ("bad-value", 5, 17)),
        ("- bolt: everything redy\n", ("bad-value", 4, 9)),
        ("- bolt: skin.rial\n", ("unknown-name", 4, 9)),
        ("- bolt: skin.rail\n  use: bolt ZZ9\n", ("unknown-name", 5, 8)),
        ("- bolt: skin.rail\n  head: on guide\n", ("bad-value", 5, 9)),
        ("- drill out: skin\n", ("bad-value", 4, 14)),
        ("- drill out: skin.rial.1\n", ("unknown-name", 4, 14)),
        ("- drill out: skin.rail.1\n  size: small\n", ("unknown-word", 5, 3)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, steps: str, place: Place) -> None:
    read = sequence_of(tmp_path, steps, WITH_GUIDE)
    assert places(read) == [place]
    assert read.sequence is not None
    assert read.sequence.broken == (1,)


def test_a_rivet_is_never_finger_tight(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- rivet: everything ready\n  finger tight: yes\n"))
    assert finding.message == "`finger tight` has no sense in a step `rivet`."
    assert finding.why == "A rivet is set once and for all; a bolt may wait: `bolt`."


def test_what_is_no_template_says_how_to_make_it_one(tmp_path: Path) -> None:
    finding = said(sequence_of(tmp_path, "- drill: skin.rail\n  through: rail left.foot\n", MODEL))
    assert finding.message == "`rail left` is no template."
    assert "`tool: yes`" in finding.fix
    assert "`through: rail left`" in finding.fix
