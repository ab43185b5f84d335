from __future__ import annotations

from dataclasses import replace

import pytest

from seqviz.parts.make import make_parts
from seqviz.records.formed_words import Bent
from seqviz.records.model import Points, Row
from seqviz.records.work_types import Corner, EndCut, EndTab, Joggle, Kink, Notch, Work
from tests.parts.samples import angle, at, channel, model, part, row

ANGLE = angle()  # 620 long, legs 20 and 25, 1 thick, radius 2.4: its bend takes 3.4 of each leg


def kink(x: float, degrees: float = 3.0) -> Kink:
    return Kink(x=x, angle=degrees, flat="leg 1", towards="inside", at=at(9))


def joggle(depth: float = 0.8, length: float = 25.0, run: float = 6.0) -> Joggle:
    return Joggle(
        end="end",
        length=length,
        start=None,
        stop=None,
        depth=depth,
        run=run,
        flat="leg 1",
        towards="inside",
        at=at(8),
    )


def notch(flats: tuple[str, ...], start: float, stop: float, *depth: float) -> Notch:
    return Notch(flats=flats, start=start, stop=stop, depth=depth, at=at(7))


def cut(flat: str | None, how: float | Corner, end: str = "end") -> EndCut:
    return EndCut(end=end, flat=flat, cut=how, at=at(6))


def tab(flat: str, width: float | None = None, across: float | None = None) -> EndTab:
    return EndTab(end="end", flat=flat, length=10, width=width, across=across, at=at(5))


def told(work: Work, shape: Bent = ANGLE, *rows: Row) -> tuple[str, int]:
    """Return the message of the one finding, and its line."""
    _, findings = make_parts(model(part(replace(shape, work=work), *rows)))
    (finding,) = findings
    assert finding.kind == "bad-value"
    assert finding.why
    assert finding.fix
    return finding.message, finding.at.line


@pytest.mark.parametrize(
    ("work", "line", "message"),
    [
        (Work(kinks=(kink(700),)), 9, "p: the kink at 700 lies outside the part."),
        # tan(1.5 degrees) x 24.5, the height of leg 2 over the middle of leg 1: 0.642.
        (Work(kinks=(kink(0.8),)), 9, "p: the kink at 0.8 lies too near to the end of the part."),
        (
            Work(kinks=(kink(300), kink(301))),
            9,
            "p: the kink at 300 and the kink at 301 are in each other's way.",
        ),
        (
            Work(kinks=(kink(600),), joggles=(joggle(),)),
            9,
            "p: the joggle from 589 to 620 and the kink at 600 are in each other's way.",
        ),
        (
            Work(joggles=(joggle(depth=8.0),)),
            8,
            "p: a joggle 8 mm deep is steeper than 45 degrees over a run of 6 mm.",
        ),
        (
            Work(joggles=(joggle(length=615.0),)),
            8,
            "p: the joggle with its ramps, from -1 to 5, does not lie within the part.",
        ),
        (
            Work(joggles=(replace(joggle(), end=None, start=60.0, stop=40.0),)),
            8,
            "p: a joggle from 60 to 40 has no length.",
        ),
        (Work(notches=(notch(("leg 2",), 130, 100, 5),)), 7, "p: a notch from 130 to 100 has no width."),
        (
            Work(notches=(notch(("leg 2",), 600, 630, 5),)),
            7,
            "p: the notch from 600 to 630 reaches beyond leg 2.",
        ),
        (
            Work(notches=(notch(("leg 2",), 10, 30, 21.5),)),
            7,
            "p: a notch 21.5 mm deep leaves nothing of leg 2.",
        ),
        (
            Work(notches=(notch(("leg 2",), 10, 30, 5), notch(("leg 2",), 20, 40, 5))),
            7,
            "p: the notches from 10 to 30 and from 20 to 40 overlap on leg 2.",
        ),
        (
            Work(notches=(notch(("leg 2",), 10, 30), notch(("leg 1",), 10, 30))),
            7,
            "p: its notches cut the part in two.",
        ),
        (
            Work(notches=(notch(("leg 2",), 0.1, 30, 5),)),
            7,
            "p: beside the notch from 0.1 to 30 less than 0.2 mm of leg 2 is left.",
        ),
        (Work(notches=(notch(("leg 2",), 10, 30, 5, 6),)), 7, "p: a notch of one flat has two depths."),
        (
            Work(notches=(notch(("leg 1", "leg 2"), 10, 30, 3),)),
            7,
            "p: a notch 3 mm deep on leg 1 ends in the bend.",
        ),
        (
            Work(notches=(notch(("leg 1", "leg 2"), 10, 30, 19.9, 8),)),
            7,
            "p: a notch 19.9 mm deep leaves nothing of leg 1.",
        ),
        (
            Work(cuts=(cut(None, 80.0), cut(None, 80.0, "start")), kinks=()),
            0,
            "",
        ),
        (
            Work(cuts=(cut("leg 1", Corner(along=5, across=17)),)),
            6,
            "p: a corner of 5 by 17 mm leaves nothing of the end of leg 1.",
        ),
        (
            Work(cuts=(cut("leg 1", 30.0),), tabs=(tab("leg 1"),)),
            5,
            "p: leg 1 has a tab at the end, and a cut there as well.",
        ),
        (Work(tabs=(tab("leg 1", 12, 10),)), 5, "p: a tab from y = 10 to 22 does not lie on leg 1."),
        (
            Work(kinks=(kink(300),), notches=(notch(("leg 2",), 290, 300, 5),)),
            9,
            "p: a notch, a cut end or a tab reaches into the kink at 300, which takes x = 299.158 to "
            "300.842.",
        ),
        (
            Work(joggles=(joggle(),), notches=(notch(("leg 2",), 560, 592, 5),)),
            8,
            "p: a notch, a cut end or a tab reaches into the ramp of a joggle, which takes x = 589 to 595.",
        ),
    ],
)
def test_each_mistake_has_its_own_words(work: Work, line: int, message: str) -> None:
    if line:
        assert told(work) == (message, line)
    else:
        short = replace(ANGLE, length=100.0)
        # tan(80) x 16.6 = 94.1 from either end of leg 1.
        assert told(work, short) == ("p: the cut ends meet, so that nothing of leg 1 is left on one side.", 6)


def test_a_web_has_no_free_edge_and_flanges_are_no_neighbours() -> None:
    work = Work(notches=(notch(("web",), 10, 30, 5),))
    assert told(work, channel()) == ("p: web has no free edge.", 7)
    work = Work(cuts=(cut("web", Corner(along=5, across=5)),))
    assert told(work, channel()) == ("p: web has no free edge.", 6)
    work = Work(notches=(notch(("flange 1", "flange 2"), 10, 30, 5),))
    assert told(work, channel()) == ("p: there is no bend between flange 1 and flange 2.", 7)


def test_as_deep_as_a_flange_is_wide_takes_all_of_it() -> None:
    work = Work(notches=(notch(("flange 1", "web"), 40, 60, 15, 12),))
    parts, findings = make_parts(model(part(replace(channel(), work=work))))
    assert findings == []
    assert parts["p"].flats["flange 1"].outline[:, 0].max() == 40
    assert parts["p"].flats["flange 1 from 60 to 100"].outline[:, 0].min() == 60


@pytest.mark.parametrize(
    ("x", "message"),
    [
        (110.0, "Hole 1 of row r lies where nothing of leg 1 is left: a notch, a cut end, beside a tab."),
        # The kink takes 0.642 on both sides, the hole's radius is 1.65.
        (302.0, "Hole 1 of row r lies in the kink at 300, which takes x = 299.358 to 300.642."),
        (596.5, "Hole 1 of row r lies in the ramp of a joggle, which takes x = 589 to 595."),
        (625.0, "Hole 1 of row r lies where nothing of leg 1 is left: a notch, a cut end, beside a tab."),
    ],
)
def test_holes_lie_where_something_flat_is(x: float, message: str) -> None:
    work = Work(
        kinks=(kink(300),),
        joggles=(joggle(),),
        notches=(notch(("leg 1",), 100, 120, 12),),
        tabs=(tab("leg 1", 4, 4),),
    )
    assert told(work, ANGLE, row(Points(points=((x, 12),)), flat="leg 1")) == (message, 10)


def test_holes_just_clear_of_a_kink_and_on_a_tab_are_in_order() -> None:
    work = Work(kinks=(kink(300),), tabs=(tab("leg 1", 4, 4),))
    points = row(Points(points=((302.3, 12), (625, 6))), flat="leg 1")
    parts, findings = make_parts(model(part(replace(ANGLE, work=work), points)))
    assert findings == []
    assert len(parts["p"].holes) == 2
