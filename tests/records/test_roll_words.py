"""``rolled``: how it is read, and where its mistakes stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.model import PlateShape, SkinShape
from tests.records.written import loaded, model_of

MODEL = """\
format: 1
base: nose
parts:
  nose:
    shape: skin
    thickness: 0.6
    outline: [[0, 0], [900, 0], [900, 500]]
    rolled: {radius: 6 in, about: [[0, 250], [900, 250.5]], from: -120, to: 4 in, side: outside}
  doubler:
    shape: plate
    thickness: 0.6
    outline: [[0, 0], [900, 0], [900, 500]]
    rolled:
      - {radius: 80, about: [[0, 100], [900, 100]], angle: 60}
      - {radius: 90, about: [[0, 300], [900, 300]], angle: 30 deg, from: 5}
"""


def test_one_roll_and_a_list_of_rolls(tmp_path: Path) -> None:
    read = model_of(tmp_path, MODEL)
    assert read.findings == []
    nose, doubler = read.model.parts["nose"].shape, read.model.parts["doubler"].shape
    assert isinstance(nose, SkinShape)
    (roll,) = nose.rolled
    assert roll.radius == pytest.approx(152.4)
    assert roll.about == ((0.0, 250.0), (900.0, 250.5))
    assert roll.end == pytest.approx(101.6)
    assert (roll.start, roll.angle, roll.side) == (-120.0, None, "outside")
    assert (roll.at.line, roll.at.column) == (8, 14)
    assert isinstance(doubler, PlateShape)
    one, other = doubler.rolled
    assert (one.start, one.end, one.angle, one.side) == (None, None, 60.0, "inside")
    assert (other.start, other.angle, other.at.line) == (5.0, 30.0, 15)


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("radius: 6 in, ", "", ("missing-word", 8, 13)),
        ("radius: 6 in", "radius: 0", ("bad-value", 8, 22)),
        ("about: [[0, 250], [900, 250.5]]", "about: y=250", ("bad-value", 8, 35)),
        ("side: outside", "side: hollow", ("unknown-word", 8, 89)),
        ("side: outside", "angle: 90", ("bad-value", 8, 83)),
        ("side: outside", "axis: x", ("unknown-word", 8, 83)),
        (
            "{radius: 6 in, about: [[0, 250], [900, 250.5]], from: -120, to: 4 in, side: outside}",
            "160",
            ("bad-value", 8, 13),
        ),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, old: str, new: str, place: tuple[str, int, int]) -> None:
    assert old in MODEL
    read = loaded(tmp_path, MODEL.replace(old, new, 1))
    found = [(f.kind, f.at.line, f.at.column) for f in read.findings]
    assert found == [place]


def test_other_shapes_are_not_rolled(tmp_path: Path) -> None:
    read = loaded(tmp_path, MODEL.replace("shape: plate", "shape: bar\n    length: 9\n    width: 9", 1))
    assert "`rolled` is no word of a bar." in [f.message for f in read.findings]
