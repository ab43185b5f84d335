"""One box of the big structure: it reads, places and goes together without a finding."""

from pathlib import Path

from seqviz.build import build
from seqviz.checks.summary import summary
from tests.bench.boxes import WALLS, model_text, sequence_text, write
from tests.checks.expect import besides_the_kit


def test_a_box_is_without_findings(tmp_path: Path) -> None:
    built = build(str(write(tmp_path, boxes=1)))
    findings = besides_the_kit(built)
    assert [f"{f.at} {f.kind}: {f.message}" for f in findings] == []
    counts = summary(built, findings)
    # The deck; 4 edges, 4 walls and 8 stringers on them; doubler, 3 strips, bar, rib, web, 2 gussets, block.
    assert counts["placed"] == 1 + 4 + 4 + 8 + 10
    # Feet and wall feet of 26 + 26 + 15 + 15; 2 lines on each wall with 3 fewer; rib 14, web 13, gussets
    # 2 x 3, three strips of 9, bar 8: 164 + 2 x 70 + 33 + 27 + 8.
    assert counts["fasteners"] == counts["stacks"] == 372


def test_walls_lean_in_and_out(tmp_path: Path) -> None:
    placed = build(str(write(tmp_path, boxes=1))).assembly.placed
    rises = {side: placed[f"b0 {side} wall"].pose.rotation[2, 2] for side in WALLS}
    # The sine of the lean, at most that of 6 degrees; none stands upright.
    assert all(0.001 < abs(rise) <= 0.1046 for rise in rises.values())
    assert min(rises.values()) < 0.0 < max(rises.values())


def test_the_same_seed_writes_the_same_text() -> None:
    assert model_text(2) == model_text(2)
    assert model_text(2) != model_text(2, seed=1)
    assert sequence_text(2).count("- place") == 1 + 2 * 6
