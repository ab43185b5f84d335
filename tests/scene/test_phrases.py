"""Counts, lists and runs of numbers."""

from seqviz.scene.phrases import counted, listed, ranges, sentence


def test_counted() -> None:
    assert [counted(1, "hole"), counted(2, "hole")] == ["1 hole", "2 holes"]


def test_listed() -> None:
    assert [listed("abc"[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_ranges_run_together_row_by_row() -> None:
    holes = ["rail.foot.4", "rail.foot.1", "rail.foot.5", "strap.rim.2", "rail.foot.6"]
    assert ranges(holes) == "rail.foot 1, 4-6, strap.rim 2"


def test_sentence() -> None:
    assert sentence("check  the\n diagonals") == "Check the diagonals."
    assert sentence("Square?") == "Square?"
