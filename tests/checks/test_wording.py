from dataclasses import replace
from pathlib import Path

import pytest

from seqviz.checks.wording import counted, length, listed, spans
from tests.checks.expect import MODEL, built


@pytest.mark.parametrize(
    ("holes", "said"),
    [
        (["rail.foot.4"], "rail.foot 4"),
        (["rail.foot.4", "rail.foot.5"], "rail.foot 4-5"),
        (["rail.foot.9", "rail.foot.1", "rail.foot.2", "rail.foot.3", "rail.foot.7"], "rail.foot 1-3, 7, 9"),
        (["b.x.1", "a.x.10", "a.x.9"], "b.x 1 and a.x 9-10"),
        (["rail.foot.2", "rail.foot.2"], "rail.foot 2"),
    ],
)
def test_spans(holes: list[str], said: str) -> None:
    assert spans(holes) == said


@pytest.mark.parametrize(
    ("names", "said"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_listed(names: list[str], said: str) -> None:
    assert listed(names) == said


def test_counted() -> None:
    assert (counted(1, "hole"), counted(2, "hole"), counted(0, "hole")) == ("1 hole", "2 holes", "0 holes")


def test_lengths_are_in_the_units_of_the_model(tmp_path: Path) -> None:
    made = built(tmp_path, MODEL)
    inches = replace(made, model=replace(made.model, units="in"))
    assert (length(made, 0.35), length(made, 1.2), length(made, 3.0)) == ("0.35 mm", "1.2 mm", "3 mm")
    assert (length(inches, 0.35), length(inches, 25.4)) == ("0.0138 in", "1 in")
