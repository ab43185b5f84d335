"""A small structure with frames, from file to report: a skin, a stringer through two ribs, a post."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seqviz.build import Build, build
from tests.checks.expect import besides_the_kit

STEPS = Path(__file__).parent / "examples" / "framed_floor_steps.yaml"
MODEL = STEPS.with_name("framed_floor.yaml")


@pytest.fixture(scope="module")
def built() -> Build:
    return build(str(STEPS))


def changed(tmp_path: Path, old: str, new: str) -> list[tuple[str, str]]:
    """Return kinds and messages of what is found once the model says ``new`` for ``old``."""
    text = MODEL.read_text(encoding="utf-8")
    assert text.count(old) == 1
    (tmp_path / MODEL.name).write_text(text.replace(old, new), encoding="utf-8")
    steps = tmp_path / STEPS.name
    steps.write_text(STEPS.read_text(encoding="utf-8"), encoding="utf-8")
    return [(finding.kind, finding.message) for finding in besides_the_kit(build(str(steps)))]


def test_nothing_is_wrong(built: Build) -> None:
    assert [finding.message for finding in besides_the_kit(built)] == []


def test_where_the_ribs_stand(built: Build) -> None:
    # Hole 1 of foot 1 is 10 along and 9 in from the corner: the aft rib lies with it on [60, 20], so its
    # corner is at [69, 10] and its web looks forward; the other is turned half round on [240, 180].
    aft, fore = built.assembly.placed["rib aft"].pose, built.assembly.placed["rib fore"].pose
    assert aft.points(np.array([0.0, 0.0, 0.8])) == pytest.approx([69, 10, 0.8], abs=1e-6)
    assert fore.points(np.array([0.0, 0.0, 0.8])) == pytest.approx([231, 190, 0.8], abs=1e-6)
    assert aft.vectors(np.array([0.0, 0.0, 1.0])) == pytest.approx([1, 0, 0], abs=1e-6)


def test_stacks_at_flange_and_web(built: Build) -> None:
    stacks = {name: stack for stack in built.assembly.stacks for name in stack.holes}
    foot, post = stacks["rib aft.foot 1.1"], stacks["post aft.back.2"]
    assert [(layer.part, round(layer.thickness, 6)) for layer in foot.layers] == [
        ("rib aft", 0.8),
        ("skin", 0.8),
    ]
    assert {layer.part for layer in post.layers} == {"post aft", "rib aft"}
    # 18 - 0.8 - 1.2 of each foot piece lies flat: lengths 75 on the skin.
    on_skin = [c.area for c in built.assembly.contacts if c.upper == "rib aft" and c.lower == "skin"]
    assert sum(on_skin) == pytest.approx(2 * 75 * (18 - 2.0))


@pytest.mark.parametrize(
    ("old", "new", "kind", "words"),
    [
        (
            "flange faces: aft,",
            "flange faces: forward,",
            "faces-wrong-way",
            "flange of rib aft reaches aft",
        ),
        ("web faces: forward}", "web faces: aft}", "faces-wrong-way", "The web of rib aft faces forward"),
        (
            "flange faces: aft,",
            "standing leg: aft,",
            "faces-wrong-way",
            "leg of rib aft stands forward",
        ),
        # The notch is 22 high, the stringer's leg 18.
        ("legs: [18, 18]", "legs: [18, 23]", "parts-interfere", "stringer cuts into rib aft, 1 mm deep"),
        ("[30, 36]", "[30, 37]", "holes-off", "post aft"),
    ],
)
def test_what_goes_wrong_is_told(tmp_path: Path, old: str, new: str, kind: str, words: str) -> None:
    found = changed(tmp_path, old, new)
    assert any(one == kind and words in message for one, message in found), found


@pytest.mark.parametrize(
    ("end", "kinds"),
    [
        # On the inside of the web the bend of the foot begins 2 above its outside, its flat ends at 0.8.
        (2.0, []),
        (1.2, ["rides-the-radius"]),
        (0.5, ["parts-interfere"]),
    ],
)
def test_a_plate_in_the_hollow_of_a_flange(tmp_path: Path, end: float, kinds: list[str]) -> None:
    text = MODEL.read_text(encoding="utf-8")
    start, finish = text.index("  post:\n    shape: channel"), text.index("placed:")
    # Hole 1 of the web is 12 above the outside of the foot.
    plate = f"""  post:
    shape: plate
    thickness: 0.8
    outline: [[0, 0], [40, 0], [40, 24], [0, 24]]
    holes:
      back: {{from: [{12 - end}, 12], to: [{36 - end}, 12], count: 3, size: small}}
"""
    text = text[:start] + plate + text[finish:]
    text = text.replace("web faces: aft}", "side: inside}")
    (tmp_path / MODEL.name).write_text(text, encoding="utf-8")
    steps = tmp_path / STEPS.name
    steps.write_text(STEPS.read_text(encoding="utf-8").split("  - rivet")[0], encoding="utf-8")
    assert [finding.kind for finding in besides_the_kit(build(str(steps)))] == kinds
