from __future__ import annotations

import pytest

from seqviz.scene.choice import Choice, choose, near_names
from tests.scene.assembly_by_hand import tray


def choice(**chosen: tuple[object, ...]) -> Choice:
    whole: dict[str, tuple[object, ...]] = {"parts": (), "rows": (), "holes": (), "unknown": (), **chosen}
    return Choice(**whole)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "chosen"),
    [
        ("rail left", choice(parts=("rail left",))),
        ("Rail_Left", choice(parts=("rail left",))),
        ("rail", choice(parts=("rail left", "rail right"))),
        ("rail left.foot", choice(rows=(0, 1, 2, 3, 4))),
        ("rail.foot", choice(rows=(0, 1, 2, 3, 4, 5))),
        ("skin.edge left", choice(rows=(0, 1, 2, 3, 4))),
        ("skin.edge", choice(rows=(0, 1, 2, 3, 4))),
        ("strap.end", choice(rows=(2,))),
        ("rail left.foot.3", choice(holes=("rail left.foot.3",))),
        ("rail.foot.1", choice(holes=("rail left.foot.1", "rail right.foot.1"))),
        ("rail left.foot.2-3", choice(holes=("rail left.foot.2", "rail left.foot.3"))),
        ("rail left.foot.3-2", choice(holes=("rail left.foot.2", "rail left.foot.3"))),
        ("rail left.foot.9", choice(unknown=("rail left.foot.9",))),
        ("rial left", choice(unknown=("rial left",))),
        ("left", choice(unknown=("left",))),
        ("", choice(unknown=("",))),
    ],
)
def test_what_a_name_means(name: str, chosen: Choice) -> None:
    assert choose(tray(), [name]) == chosen


def test_several_names_each_thing_once() -> None:
    assert choose(
        tray(), ["rail", "rail left", "strap.end", "rail left.foot.3", "rail.foot.3", "x"]
    ) == choice(parts=("rail left", "rail right"), rows=(2,), holes=("rail left.foot.3",), unknown=("x",))


@pytest.mark.parametrize(
    ("name", "near"),
    [("rial left", "rail left"), ("rail left.fot", "rail left.foot"), ("strap.ent.1", "strap.end.1")],
)
def test_a_slip_of_the_pen_is_recognised(name: str, near: str) -> None:
    assert near_names(tray(), name)[0] == near


def test_nothing_is_near_to_something_else() -> None:
    assert near_names(tray(), "propeller") == []
