"""Names, ranges, rows, twins and filters."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seqviz.findings import At
from seqviz.records.model import Later, Name
from seqviz.records.steps import HoleFilter
from seqviz.sequence.choose import Chooser
from tests.sequence.by_hand import HERE, holes, model, piece, structure

FEET = [(10.0 * k, 10.0) for k in range(1, 6)]
OTHER = [(10.0 * k, 50.0) for k in range(1, 6)]
# Stacks 0-4 are the left row, 5-9 the right one; 10 and 11 are loose holes of the skin.
SKIN = piece(
    "skin",
    [((0, 0, 0), (60, 60, 1))],
    {"rail left": FEET, "rail right": OTHER, "spare": [(30, 30), (40, 30)]},
    twins={"rail": ("rail left", "rail right")},
)
LEFT = piece("rail left", [((0, 0, 1), (60, 20, 2))], {"foot": FEET})
RIGHT = piece("rail right", [((0, 40, 1), (60, 60, 2))], {"foot": OTHER})
TRAY = structure(SKIN, LEFT, RIGHT)
MODEL = model("skin", "rail", both=frozenset({"rail"}))


def _stacks(*texts: str) -> list[int]:
    chooser = Chooser(MODEL, TRAY)
    found = list(chooser.stacks(holes(*texts)))
    assert chooser.findings == []
    return found


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("skin.rail left.2", [1]),
        ("skin.rail left.2-4", [1, 2, 3]),
        ("skin.rail left.4-2", [3, 2, 1]),
        ("skin.rail right", [5, 6, 7, 8, 9]),
        ("skin.rail.2", [1, 6]),
        ("rail.foot.5", [4, 9]),
        ("rail right.foot.1-2", [5, 6]),
        ("rail.nothing.1", []),
        ("cap.foot.1", []),
    ],
)
def test_hole_choices(text: str, wanted: list[int]) -> None:
    assert _stacks(text) == wanted


def test_a_stack_named_twice_counts_once_where_it_was_named_first() -> None:
    chosen = holes("rail left.foot.2", "skin.rail left.1-3")
    found = Chooser(MODEL, TRAY).stacks(chosen)
    assert {k: choice.at.column for k, choice in found.items()} == {1: 20, 0: 21, 2: 21}


def test_holes_of_muted_parts_are_passed_over() -> None:
    muted = structure(SKIN, LEFT, RIGHT, muted=frozenset({"rail left"}))
    assert list(Chooser(MODEL, muted).stacks(holes("rail.foot.1"))) == [5]


@pytest.mark.parametrize("text", ["skin.rail left.6", "skin.rail left.0", "skin.rail left.4-9"])
def test_a_number_beyond_the_row_is_told_once_and_the_rest_is_taken(text: str) -> None:
    chooser = Chooser(MODEL, TRAY)
    wanted = [3, 4] if "-" in text else []
    assert list(chooser.stacks(holes(text, line=7))) == wanted
    chooser.stacks(holes(text, line=7))
    (told,) = chooser.findings
    assert (told.kind, told.severity, told.at) == (
        "unknown-name",
        "error",
        At(file="order.yaml", line=7, column=20),
    )
    number = text.rsplit(".", maxsplit=1)[-1].rsplit("-", maxsplit=1)[-1]
    assert told.message == f"There is no hole skin.rail left.{number}."


def _passing(**words: object) -> list[int]:
    return sorted(Chooser(MODEL, TRAY).passes(HoleFilter(**words)))  # type: ignore[arg-type]


def test_filters() -> None:
    def name(text: str) -> Name:
        return Name(text=text, at=HERE)

    everything = list(range(12))
    assert _passing() == everything
    assert _passing(through=(name("rail"),)) == list(range(10))
    assert _passing(through=(name("rail right"), name("skin"))) == [5, 6, 7, 8, 9]
    assert _passing(fastener=name("blind rivet 3.2")) == everything
    assert _passing(fastener=name("blind rivet 4.0")) == []
    assert _passing(size=name("small")) == []
    assert _passing(excluded=holes("skin.rail")) == [10, 11]
    # x = 40 and 50, and of the loose holes the one at 40: more than 30 along forward, +x.
    assert _passing(forward_of=("x", 30.0)) == [3, 4, 8, 9, 11]
    # The rails end at x = 60, beyond all holes.
    assert _passing(forward_of=name("rail left")) == []


def test_forward_of_a_line_follows_the_forward_direction() -> None:
    back = structure(SKIN, LEFT, RIGHT)
    turned = type(back)(
        base=back.base,
        placed=back.placed,
        muted=back.muted,
        stacks=back.stacks,
        stack_of=back.stack_of,
        contacts=(),
        up=back.up,
        forward=-back.forward,
    )
    # Forward is -x: holes at x = 10 and 20 are forward of x = 30.
    assert sorted(Chooser(MODEL, turned).passes(HoleFilter(forward_of=("x", 30.0)))) == [0, 1, 5, 6]


def test_later_by_holes_and_by_part() -> None:
    by_holes = Later(holes=holes("skin.spare"), part=None, why="tray", at=HERE)
    by_part = Later(holes=(), part=Name(text="rail right", at=HERE), why="next year", at=HERE)
    chooser = Chooser(replace(MODEL, later=(by_holes, by_part)), TRAY)
    assert chooser.later() == frozenset({10, 11, 5, 6, 7, 8, 9})
    assert chooser.later_parts() == frozenset({"rail right"})
