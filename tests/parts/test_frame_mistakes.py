"""What cannot be bent: the smallest size that passes, the first that does not, and what is said of it."""

from __future__ import annotations

import pytest

from seqviz.findings import Finding
from seqviz.parts.frame import frame_body
from seqviz.parts.make import make_parts
from seqviz.records.model import FrameShape, Points
from tests.parts.frames import flange, frame, lip, mistake, opening
from tests.parts.samples import at, model, part, row

Outline = tuple[tuple[float, float], ...]
VEE = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (120.0, 100.0), (100.0, 60.0), (80.0, 100.0), (0.0, 100.0))
SLIT = (
    (0.0, 0.0),
    (200.0, 0.0),
    (200.0, 100.0),
    (115.0, 100.0),
    (115.0, 40.0),
    (85.0, 40.0),
    (85.0, 100.0),
    (0.0, 100.0),
)
ROOF = ((0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (50.0, 70.0), (0.0, 60.0))


def box(height: float) -> Outline:
    return ((0.0, 0.0), (100.0, 0.0), (100.0, height), (0.0, height))


def leaning(width: float) -> FrameShape:
    """Two flanges that lean over a web of 30: each reaches cos 45 x (width + 1) in from its mould line."""
    both = (flange(edge, angle=135.0, width=width) for edge in ("left edge", "right edge"))
    return frame(*both, outline=box(30.0))


def in_a_slit(width: float, *sides: int) -> FrameShape:
    """A slit of 30. Flat, a flange reaches 2.5 x pi / 2 + width - 3 - 3 = width - 2.073 into it."""
    return frame(*(flange(f"s{side}", side, width=width) for side in sides), outline=SLIT)


def in_a_vee(width: float) -> FrameShape:
    """Sides of 44.721 that turn off by 126.87 degrees: they stay back by 2 x (width - 2.073) + 0.5."""
    return frame(flange("a", 4, 5, width=width), outline=VEE)


def lipped(height: float, angle: float = 90.0) -> FrameShape:
    return frame(openings=(opening(lip=lip(height, angle=angle)),))


@pytest.mark.parametrize(
    ("good", "bad", "words", "line"),
    [
        # Setback 3, and 0.2 that must be left.
        (
            frame(flange("left edge", width=3.21)),
            frame(flange("left edge", width=3.1)),
            "flange left edge of 3.1 mm ends in its bend, which takes 3 mm of it",
            29,
        ),
        (
            frame(flange("a", 4)),
            frame(flange("a", 5)),
            "flange a runs along side 5, but the outline has 4 sides",
            21,
        ),
        (
            frame(flange("left edge"), flange("a", 2)),
            frame(flange("left edge"), flange("a", 3)),
            "side 3 of the outline carries flange a and flange left edge",
            29,
        ),
        (
            frame(flange("a", 2, 1)),
            frame(flange("a", 2, 2)),
            "side 2 of the outline carries flange a twice",
            21,
        ),
        # The side that has a number of its own is none of those that face left.
        (
            frame(flange("left edge"), flange("a", 4), outline=ROOF),
            frame(flange("left edge"), outline=ROOF),
            "flange left edge: 2 sides of the outline face as a left edge does",
            29,
        ),
        (
            frame(flange("a", 1, 2, relief=3.0)),
            frame(flange("a", 1, 2, relief=2.9)),
            "relief 2.9 is too small for flange a 1; 3 is needed",
            21,
        ),
        # 44.721 - 0.5 - 0.2 = 2 x (width - 2.073)
        (in_a_vee(24.0), in_a_vee(24.2), "nothing is left of flange a 1: side 4 is 44.721 mm long", 21),
        # 2 x 0.7071 x (width + 1) = 30
        (leaning(20.2), leaning(21.0), "flange left edge and flange right edge run into each other", 29),
        # 2 x (width - 2.073) = 30
        (
            in_a_slit(17.0, 4, 6),
            in_a_slit(17.2, 4, 6),
            "flange s6 and flange s4 would lie over each other in the flat sheet",
            22,
        ),
        (
            in_a_slit(32.0, 4),
            in_a_slit(32.2, 4),
            "flange s4 and the web would lie over each other in the flat sheet",
            22,
        ),
        # 3 + 3, and 0.2 that must be left.
        (
            frame(flange("a", 1, 2, 3), outline=box(6.3)),
            frame(flange("a", 1, 2, 3), outline=box(6.1)),
            "side 2 of 6.1 mm is shorter than what bends at its ends take",
            21,
        ),
        (
            frame(flange("a", 1, 3), outline=box(6.3)),
            frame(flange("a", 1, 3), outline=box(6.1)),
            "side 2 of 6.1 mm is shorter than what bends at its ends take",
            5,
        ),
        (
            lipped(3.21),
            lipped(3.1),
            "the lip of 3.1 mm round opening hole ends in its bend, which takes 3 mm of it",
            41,
        ),
        # 15 + 3 - (2.5 x pi / 2 + height - 3) = 17.073 - height is left to form it from.
        (
            lipped(16.9),
            lipped(17.0),
            "the lip of 17 mm round opening hole is higher than its 30 mm allow",
            41,
        ),
        # The web reaches from 3 to 57, the bend of the lip 3 beyond the opening: 30 + 23.9 + 3 = 56.9.
        (
            frame(flange("left edge"), openings=(opening(47.8, lip()),)),
            frame(flange("left edge"), openings=(opening(48.2, lip()),)),
            "opening hole with the bend of its lip reaches an edge or a bend of the web",
            40,
        ),
        (
            frame(flange("left edge"), openings=(opening(53.8),)),
            frame(flange("left edge"), openings=(opening(54.2),)),
            "opening hole reaches an edge or a bend of the web",
            40,
        ),
        (
            frame(openings=(opening(20.0, lip(), (30.0, 30.0)), opening(20.0, None, (63.1, 30.0)))),
            frame(openings=(opening(20.0, lip(), (30.0, 30.0)), opening(20.0, None, (52.9, 30.0)))),
            "opening hole overlaps opening hole",
            40,
        ),
    ],
)
def test_what_cannot_be_bent(good: FrameShape, bad: FrameShape, words: str, line: int) -> None:
    found = frame_body("p", good, at(5), "+x")
    assert not isinstance(found, Finding), found
    found = mistake(bad)
    assert words in found.message
    assert (found.kind, found.at.line) == ("bad-value", line)
    assert found.why
    assert found.fix


def test_a_lip_that_is_too_high_is_told_how_high_it_may_be() -> None:
    assert mistake(lipped(20.0)).fix == "Make the lip at most 16.9 high, or the opening larger."


def test_two_flats_of_one_name() -> None:
    found = mistake(frame(flange("a", 1, 2), flange("a 2", 4)))
    assert (found.kind, found.message) == ("duplicate-name", "p: two flanges would be called flange a 2.")


def test_a_hole_in_the_bend_is_off_the_flat() -> None:
    rows = (
        row(Points(points=((30, 3.1),)), "good", flat="flange left"),
        row(Points(points=((30, 2.9),)), "bad", flat="flange left"),
        row(Points(points=((30, 57.1),)), "worse", flat="web"),
        row(Points(points=((30, 10),)), "wrong", flat="flange aft"),
    )
    _, findings = make_parts(model(part(frame(flange("left edge")), *rows)))
    assert [finding.kind for finding in findings] == ["bad-value", "bad-value", "unknown-name"]
    assert findings[0].message.startswith(
        "Hole 1 of row bad lies off the flat: [30, 2.9], while flange left edge"
    )
    assert findings[2].why == "There is web, flange left edge."
