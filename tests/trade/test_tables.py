import csv
from pathlib import Path

import pytest

import seqviz.trade
from seqviz.trade.tables import KNOWN, citations, rows, same_size, table_names, value_of

DATA = Path(seqviz.trade.__file__).parent / "data"


def test_every_file_is_a_table() -> None:
    assert list(table_names()) == sorted(path.stem for path in DATA.glob("*.csv"))
    assert len(table_names()) == 27


@pytest.mark.parametrize("name", table_names())
def test_every_row_carries_its_source_and_how_well_it_is_known(name: str) -> None:
    assert len(rows(name)) >= 3
    for row in rows(name):
        assert list(row.cells)[-2:] == ["source", "known"]
        assert len(row.source) > 3, row.cells
        assert row.known in KNOWN, row.cells
        assert (row.source == "common practice, no source") <= (row.known == "custom")
        assert "from memory" not in row.source  # that is what `known` is for


@pytest.mark.parametrize("name", table_names())
def test_every_line_has_the_cells_of_its_columns(name: str) -> None:
    lines = list(csv.reader((DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()))
    assert {len(line) for line in lines} == {len(lines[0])}
    assert len({tuple(line) for line in lines}) == len(lines), "a row stands twice"


@pytest.mark.parametrize("name", table_names())
def test_every_length_is_a_number_and_ranges_go_up(name: str) -> None:
    for row in rows(name):
        for column, text in row.cells.items():
            if column.endswith((" in", " mm")) and text:
                assert value_of(text) >= 0, row.cells
        for low, high in (("grip from", "grip to"), ("hole from", "hole to"), ("least", "most")):
            ends = [
                column
                for column in row.cells
                if column.removesuffix(" in").removesuffix(" mm") in (low, high)
            ]
            if len(ends) == 2 and all(row.has(column) for column in ends):
                assert row.number(ends[0]) <= row.number(ends[1]), row.cells


def test_numbers_are_read_as_printed() -> None:
    assert [value_of(text) for text in (".128", "3/32", "1 1/2", "10.0")] == [0.128, 0.09375, 1.5, 10.0]
    with pytest.raises(ValueError, match="empty"):
        value_of("")


def test_a_length_comes_in_mm_whatever_its_unit() -> None:
    assert rows("bolts")[0].mm("grip") == pytest.approx(0.063 * 25.4)
    assert rows("blind_rivets_metric")[0].mm("diameter") == 2.4
    by_unit = {row.text("unit"): row for row in rows("clearance_holes")}
    assert by_unit["mm"].mm("hole") == 7.0  # the last one, M6 coarse
    assert by_unit["in"].mm("hole") == pytest.approx(19 / 64 * 25.4)
    with pytest.raises(KeyError):
        rows("bolts")[0].text("colour")


def test_a_citation_says_what_was_not_read() -> None:
    heads, spacing = rows("rivet_heads"), rows("spacing")
    assert heads[0].citation == "MS20470, from memory"
    assert spacing[0].citation == "FAA AC 43.13-1B, paragraph 4-57c(1) (secondary)"
    assert citations(heads[:5]) == "MS20470, from memory; MS20426, from memory"


def test_one_size_in_two_writings() -> None:
    assert same_size(3.18, 3.175)
    assert not same_size(3.2, 3.175)
