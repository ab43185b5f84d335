from __future__ import annotations

import pytest

from seqviz.findings import At
from seqviz.report.excerpt import excerpt


def at(column: int, line: int = 1) -> At:
    return At(file="f", line=line, column=column)


@pytest.mark.parametrize(
    ("text", "column", "caret"),
    [
        ("  - rivet: rail", 5, 4),
        ("rail", 1, 0),
        ("rail", 5, 4),  # just behind the end: a word is missing there
        ("rail", 50, 4),  # never farther away than that
        ("\t- rivet", 2, 1),  # a tab is shown as one space
        ("Träger: x", 9, 8),
        ("前: x", 4, 4),  # a wide sign takes two columns
        ("e\u0301: x", 5, 3),  # a combining one none
    ],
)
def test_the_caret_stands_under_the_column(text: str, column: int, caret: int) -> None:
    line, mark = excerpt(at(column), {"f": [text]}, 100)
    assert line == "    | " + text.replace("\t", " ")
    assert mark == "    | " + " " * caret + "^"


@pytest.mark.parametrize("column", [1, 60, 150, 200])
def test_a_long_line_is_cut_around_the_caret(column: int) -> None:
    text = "".join(chr(ord("a") + number % 26) for number in range(200))
    line, mark = excerpt(at(column), {"f": [text]}, 60)
    assert len(line) <= 60
    assert line[mark.index("^")] == text[column - 1]
    assert line.startswith("    | ...") == (column > 1)
    assert line.endswith("...") == (column < 200)


@pytest.mark.parametrize("line", [0, 3])
def test_a_line_that_is_not_there_gives_nothing(line: int) -> None:
    assert excerpt(at(1, line), {"f": ["a", "b"]}, 60) == []


def test_an_empty_line_gives_nothing() -> None:
    assert excerpt(at(1), {"f": ["   "]}, 60) == []
