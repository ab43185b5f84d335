from pathlib import Path

import numpy as np

from tests.checks.expect import MODEL, found_as_marked
from tests.parts.surfaces import ball, box, written

KNOB = "  knob:\n    shape: mesh\n    file: bracket.stl{}\n    unit: mm\n"
MARK = "  # expect: meshed-roughly"
PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"


def test_a_ball_is_stepped(tmp_path: Path) -> None:
    written(tmp_path, ball(20.0, 40))
    note = found_as_marked(tmp_path, MODEL + KNOB.format(MARK) + PLACED)[0]
    assert note.severity == "note"
    # 64 steps of a ball 40 high are 0.6 high on the average.
    assert note.figure is not None
    assert 0.05 < note.figure < 1.0
    assert note.message.startswith("knob: the solid that is checked may be up to 0.")


def test_a_block_is_exact(tmp_path: Path) -> None:
    written(tmp_path, np.concatenate([box((20, 20, 5)), box((5, 5, 30), (5, 5, 5))]))
    found_as_marked(tmp_path, MODEL + KNOB.format("") + PLACED)


def test_pieces_that_are_given_are_not_told_of(tmp_path: Path) -> None:
    written(tmp_path, ball(20.0, 40))
    pieces = "    pieces: {core: {shape: rod, diameter: 40, length: 40, at: [0, 0, -20]}}\n"
    found_as_marked(tmp_path, MODEL + KNOB.format("") + pieces + PLACED)
