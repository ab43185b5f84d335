from pathlib import Path

from seqviz.checks.run import run
from tests.checks.expect import MODEL, built


def test_errors_come_first_then_the_order_of_the_file(tmp_path: Path) -> None:
    # The loose strap stands below the rail's row; the unused entry, a warning, comes last.
    text = MODEL.replace(
        "to: [170, 10], count: 5, size: small}", "to: [170, 10], count: 5, size: small, 2: big}"
    )
    text += """\
  strap:
    shape: plate
    thickness: 1
    outline: [[0, 0], [20, 0], [20, 20]]
    holes: {eye: {at: [[15, 5]], size: small}}
known:
  - {kind: holes-off, at: rail, why: none}
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
  strap: {part: strap, match: {eye.1: floor.mid.3}}
"""
    kinds = [finding.kind for finding in run(built(tmp_path, text))]
    assert kinds == ["hole-size-differs", "loose-part", "known-unused"]


def test_a_model_without_anything_placed(tmp_path: Path) -> None:
    assert [f.kind for f in run(built(tmp_path, MODEL))] == []
