"""Steps of parts without dimensions: words, and a picture of what has some."""

from __future__ import annotations

from pathlib import Path

from seqviz.scene.picture import Scene
from seqviz.scene.step import scene_of_step
from tests.checks.expect import STEPS, built
from tests.sequence.test_laid_steps import MIXED, MODEL

STEP = "  - place: [strip, rail]\n    pins: all\n  - rivet: everything ready\n"


def scenes(folder: Path, model: str) -> list[Scene]:
    made = built(folder, model, STEPS + STEP)
    return [scene_of_step(made, number) for number in (1, 2)]


def test_nothing_is_drawn_but_all_is_said(tmp_path: Path) -> None:
    placing, riveting = scenes(tmp_path, MODEL)
    assert (placing.items, placing.marks, placing.arrows, placing.bare) == ((), (), (), True)
    assert placing.undrawn == ("skin", "rail", "strip")
    assert placing.words.title == "Step 1. Place strip and rail."
    assert placing.words.lines == ("Pins in 9 holes.", "No dimensions yet, so not drawn: strip and rail.")
    assert riveting.words.title == "Step 2. Pull 9 blind rivets."
    # 1.6 + 0.8 = 2.4 in six holes, with the strip 3.2 in three.
    assert riveting.words.lines == (
        "With blind rivet 3.2 length 6, grip 2.4 mm in 6, 3.2 mm in 3. Heads on top.",
    )


def test_what_has_dimensions_is_drawn(tmp_path: Path) -> None:
    placing, riveting = scenes(tmp_path, MIXED)
    assert [item.name for item in placing.items] == ["skin"]
    # The holes have a place on the skin, but not the heads on the rail.
    assert (placing.marks, riveting.marks, riveting.fitted) == ((), (), ())
    assert not placing.bare
    assert placing.undrawn == ("rail", "strip")
