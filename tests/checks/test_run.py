from pathlib import Path

from seqviz.checks.run import run
from tests.checks.expect import MODEL, built
from tests.checks.rails import STRAPPED


def test_errors_come_first_then_the_order_of_the_file(tmp_path: Path) -> None:
    # The rail's row stands above the strap's entry; the unused entry between them is a warning.
    text = STRAPPED.replace("from: [10, 10], to: [90, 10], count: 3", "at: [[10, 10], [90, 10]]")
    text = text.replace("eye.3", "eye.2").replace(
        "to: [170, 10], count: 5,", "to: [170, 10], count: 5, 1: big,"
    )
    text = text.replace("placed:", "known:\n  - {kind: holes-off, at: rail, why: none}\nplaced:")
    kinds = [finding.kind for finding in run(built(tmp_path, text))]
    assert kinds == ["hole-size-differs", "layer-undrilled", "known-unused"]


def test_a_model_without_anything_placed(tmp_path: Path) -> None:
    assert [f.kind for f in run(built(tmp_path, MODEL))] == []
