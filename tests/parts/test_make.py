from __future__ import annotations

import numpy as np

from seqviz.parts.make import make_parts
from seqviz.records.model import (
    AlongEdge,
    BarShape,
    BlockShape,
    FromTo,
    MirrorLine,
    PlateShape,
    Points,
    Shape,
    Stock,
)
from tests.parts.samples import SQUARE, angle, at, model, other, part, row, skin, spacing

SPOT = Points(points=((20.0, 20.0),))


def test_the_battery_shelf() -> None:
    rail_row = AlongEdge(
        edge="left edge", inset=10.0, first=20.0, last_in=20.0, spacing=spacing(count=30), at=at()
    )
    shelf = part(
        skin(), row(rail_row, "rail", exceptions=(other(1, 3, "big"),), both_sides=True), name="shelf"
    )
    foot = FromTo(start=(20.0, 10.0), end=(600.0, 10.0), spacing=spacing(count=30))
    rail = part(angle(), row(foot, "foot", flat="leg 1"), name="rail")
    parts, findings = make_parts(model(shelf, rail, mirror_line=MirrorLine(axis="y", value=180.0)))
    assert findings == []
    assert list(parts) == ["shelf", "rail"]
    assert parts["shelf"].twins == {"rail": ("rail left", "rail right")}
    holes = {hole.name: hole for hole in parts["shelf"].holes}
    assert len(holes) == 60
    # left edge y = 360, 10 in; 580 / 29 = 20 between holes; its twin at 360 - 350
    assert np.allclose(holes["rail left.4"].centre, [80, 350, 0.4])
    assert np.allclose(holes["rail right.4"].centre, [80, 10, 0.4])
    assert (holes["rail right.3"].diameter, holes["rail right.4"].diameter) == (4.1, 3.3)
    assert parts["rail"].shape == "angle"
    assert len(parts["rail"].holes) == 30
    assert not parts["rail"].mirrored


def test_each_shape_has_its_word() -> None:
    shapes: dict[str, Shape] = {
        "skin": skin(),
        "plate": PlateShape(thickness=1.0, outline=SQUARE, openings=()),
        "angle": angle(),
        "bar": BarShape(length=100.0, width=20.0, thickness=3.0),
        "block": BlockShape(length=100.0, width=20.0, height=3.0),
    }
    parts, findings = make_parts(model(*(part(shape, name=name) for name, shape in shapes.items())))
    assert findings == []
    assert {name: made.shape for name, made in parts.items()} == {name: name for name in shapes}


def test_a_bad_body_leaves_out_the_part_and_a_bad_row_only_itself() -> None:
    good, bad = row(SPOT, "good"), row(Points(points=((-5.0, 20.0),)), "bad")
    parts, findings = make_parts(
        model(part(skin(), bad, good), part(angle(legs=(2.0, 20.0)), good, name="short"))
    )
    assert list(parts) == ["p"]
    assert [hole.row for hole in parts["p"].holes] == ["good"]
    assert [(f.kind, f.message.split(" ")[0]) for f in findings] == [
        ("bad-value", "Hole"),
        ("bad-value", "short:"),
    ]


def test_two_rows_may_share_a_place() -> None:
    parts, findings = make_parts(model(part(skin(), row(SPOT, "a"), row(SPOT, "b"))))
    assert findings == []
    assert [hole.name for hole in parts["p"].holes] == ["a.1", "b.1"]


def test_a_twin_with_the_name_of_another_row() -> None:
    rows = (row(SPOT, "r", both_sides=True), row(Points(points=((50.0, 50.0),)), "r left"))
    parts, findings = make_parts(model(part(skin(), *rows), mirror_line=MirrorLine(axis="y", value=180.0)))
    assert [f.kind for f in findings] == ["duplicate-name"]
    assert [hole.name for hole in parts["p"].holes] == ["r left.1"]
    assert parts["p"].twins == {}


def test_stock_is_looked_at_once() -> None:
    stock = {
        "bad": Stock(name="bad", shape=angle(legs=(18.0, 3.0)), row_in=9.0, ends=12.0, at=at(33)),
    }
    _, findings = make_parts(model(part(skin()), stock=stock))
    assert [(f.kind, f.at) for f in findings] == [("bad-value", at(33))]
