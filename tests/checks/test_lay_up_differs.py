from pathlib import Path

import pytest

from tests.checks.expect import MODEL, found_as_marked

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
SKETCH = "  strap: {shape: sketch, thickness: 2}\n"
NAMED_ALIKE = MODEL.replace("      foot:", "      mid:")
ALIKE = NAMED_ALIKE + PLACED.replace("foot.", "mid.")
"""Floor and rail with dimensions, both with a row ``mid``."""


def test_a_row_that_agrees_with_the_dimensions_says_nothing(tmp_path: Path) -> None:
    assert (
        found_as_marked(tmp_path, ALIKE + "rows: {mid: {layers: [rail, floor], count: 5, size: small}}\n")
        == []
    )


@pytest.mark.parametrize(
    ("row", "message"),
    [
        (
            "layers: [floor, rail], count: 5",
            "The row mid 1-5 says floor over rail, but by the dimensions rail over floor stands there.",
        ),
        (
            "layers: [rail, floor], count: 6",
            "The row mid 6 says rail over floor, but rail and floor have no such hole in a row of that name.",
        ),
        (
            "layers: [rail, floor], count: 4",
            "The row mid counts 4 holes, but rail.mid goes on to 5 and floor.mid goes on to 5.",
        ),
    ],
)
def test_layers_and_counts_that_differ(tmp_path: Path, row: str, message: str) -> None:
    rows = f"rows:\n  mid: {{{row}, size: small}}  # expect: lay-up-differs"
    assert [finding.message for finding in found_as_marked(tmp_path, ALIKE + rows + "\n")] == [message]


def test_a_sketch_over_what_stands_there_agrees(tmp_path: Path) -> None:
    model = MODEL + SKETCH + PLACED
    rows = "rows:\n  mid: {layers: [strap, rail, floor], count: 5, size: small}\n"
    assert found_as_marked(tmp_path, model + rows) == []


def test_a_layer_that_stands_there_and_is_not_named(tmp_path: Path) -> None:
    model = MODEL + SKETCH + PLACED
    rows = "rows:\n  mid: {layers: [strap, floor], count: 5, size: small}  # expect: lay-up-differs\n"
    (finding,) = found_as_marked(tmp_path, model + rows)
    assert finding.message == (
        "The row mid 1-5 says strap over floor, but by the dimensions rail over floor stands there."
    )
    assert finding.parts == ("strap", "floor")
    assert finding.holes == tuple(f"strap.mid.{number}" for number in range(1, 6))


def test_holes_that_do_not_meet(tmp_path: Path) -> None:
    # The rail lies the other way round: its hole 1 meets floor hole 5; only the third meets its own number.
    placed = "placed:\n  rail: {part: rail, match: {mid.1: floor.mid.5, mid.5: floor.mid.1}}\n"
    rows = "rows:\n  mid: {layers: [rail, floor], count: 5, size: small}  # expect: lay-up-differs\n"
    (finding,) = found_as_marked(tmp_path, NAMED_ALIKE + placed + rows)
    assert finding.message == (
        "The row mid 1-2, 4-5 says rail over floor, but the holes of rail and floor do not meet."
    )
