"""Flush heads in pictures, and in another model as one piece."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.scene.film import film_of
from tests.checks.expect import MODEL, STEPS, built

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
SUNK = MODEL.replace("with: blind rivet 3.2}", "with: blind rivet 3.2, countersunk: yes}") + PLACED
ORDER = STEPS + "  - place: rail\n  - rivet: rail.foot.1\n    head: upper\n"


def test_a_flush_head_is_a_thin_disc_on_its_sheet(tmp_path: Path) -> None:
    fixed = {one.kind: one for one in film_of(built(tmp_path, SUNK, ORDER)).fixed}
    head, tail = fixed["head"], fixed["tail"]
    # 1.8 x 3.2 wide, on top of floor and rail: 0.8 + 1.6; the tail is that of any blind rivet.
    assert (head.diameter, head.height) == pytest.approx((5.76, 0.1))
    assert head.point[2] == pytest.approx(2.4)
    assert (tail.diameter, tail.height) == pytest.approx((5.12, 4.8))


def test_what_a_step_uses_may_lie_flush(tmp_path: Path) -> None:
    hardware = (
        "hardware:\n  cone: {kind: blind rivet, diameter: 3.2, head diameter: 6, head angle: 120}\nparts:\n"
    )
    model = (MODEL + PLACED).replace("parts:\n", hardware, 1)
    heads = [
        next(one for one in film_of(built(tmp_path, model, steps)).fixed if one.kind == "head")
        for steps in (ORDER, f"{ORDER}    use: cone\n")
    ]
    # Blind rivet 3.2: 2.0 D x 0.3 D.
    assert [(head.diameter, head.height) for head in heads] == [
        pytest.approx((6.4, 0.96)),
        pytest.approx((6.0, 0.1)),
    ]


def test_holes_stay_countersunk_in_another_model(tmp_path: Path) -> None:
    (tmp_path / "inner.yaml").write_text(SUNK, encoding="utf-8")
    text = "format: 1\nname: Whole\nbase: plank\nforward: +x\nparts:\n"
    text += "  plank:\n    shape: plate\n    thickness: 2\n"
    text += "    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]\n"
    text += "    holes: {spots: {from: [60, 90], to: [220, 90], count: 5, diameter: 3.3}}\n"
    text += "placed:\n  box:\n    uses: inner.yaml\n"
    text += "    match: {floor.mid.1: plank.spots.1, floor.mid.5: plank.spots.5}\n"
    (tmp_path / "whole.yaml").write_text(text, encoding="utf-8")
    whole = build(str(tmp_path / "whole.yaml"))
    assert [stack.countersunk for stack in whole.assembly.stacks] == [True] * 5
    plain = tmp_path / "inner.yaml"
    plain.write_text(MODEL + PLACED, encoding="utf-8")
    assert not any(stack.countersunk for stack in build(str(tmp_path / "whole.yaml")).assembly.stacks)
