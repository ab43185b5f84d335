from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

from seqviz.build import Build
from seqviz.cli.output import Stop
from seqviz.cli.pictures import chosen_steps
from seqviz.cli.program import run
from tests.cli.shelf import SEQUENCE, write_shelf

Captured = pytest.CaptureFixture[str]

Drawn = list[tuple[Path, list[int] | None]]


@pytest.fixture
def drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Drawn:
    """Return what the command asks to be drawn; nothing is, so that no graphics are needed."""
    asked: Drawn = []

    def draw_pictures(
        _build: Build, folder: Path, steps: list[int] | None, progress: Callable[[int, int], None]
    ) -> list[Path]:
        asked.append((folder, steps))
        progress(1, 1)
        return [folder / "step_01.png"]

    pictures, probe = ModuleType("pictures"), ModuleType("probe")
    pictures.draw_pictures = draw_pictures  # type: ignore[attr-defined]
    probe.graphics_hint = lambda: None  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "seqviz.render.pictures", pictures)
    monkeypatch.setitem(sys.modules, "seqviz.render.probe", probe)
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)
    return asked


def test_the_pictures_go_into_a_folder_of_the_sequence_s_name(drawn: Drawn, capsys: Captured) -> None:
    assert run(["pictures", "evening.yaml"]) == 0
    assert drawn == [(Path("pictures/evening"), None)]
    assert capsys.readouterr() == (str(Path("pictures/evening/step_01.png")) + "\n", "")


def test_steps_and_folder_can_be_chosen(drawn: Drawn) -> None:
    assert run(["pictures", "evening.yaml", "--steps", "1-2", "--to", "elsewhere"]) == 0
    assert drawn == [(Path("elsewhere"), [1, 2])]


def test_a_model_has_no_steps(drawn: Drawn, capsys: Captured) -> None:
    assert run(["pictures", "shelf.yaml"]) == 2
    assert drawn == []
    assert capsys.readouterr() == (
        "",
        "shelf.yaml has no steps to draw. Give the path of a sequence: it names its model.\n",
    )


def test_without_graphics_one_line_says_what_to_install(
    drawn: Drawn, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.modules["seqviz.render.probe"], "graphics_hint", lambda: "Install this.")
    assert run(["pictures", "evening.yaml"]) == 2
    assert drawn == []
    assert capsys.readouterr() == ("", "Install this.\n")


def test_pictures_of_a_sequence_with_errors_say_so(tmp_path: Path, drawn: Drawn, capsys: Captured) -> None:
    write_shelf(tmp_path, sequence=SEQUENCE.replace("  - place", "  - rivet: panel.edge\n  - place"))
    assert run(["pictures", "evening.yaml"]) == 1
    assert len(drawn) == 1
    assert capsys.readouterr().err == (
        "Do not work from these pictures yet: 1 error. Look: seqviz check evening.yaml\n"
    )


def test_steps_of_parts_without_dimensions_are_told_in_words(
    tmp_path: Path, drawn: Drawn, capsys: Captured
) -> None:
    model = """\
format: 1
base: panel
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts: {panel: {shape: sketch, thickness: 0.8}, stiffener: {shape: sketch, thickness: 1}}
rows: {foot: {layers: [stiffener, panel], count: 14, size: small}}
"""
    write_shelf(tmp_path, model=model)
    assert run(["pictures", "evening.yaml"]) == 0
    assert drawn == []
    assert capsys.readouterr().out == (
        "Step 1. Place stiffener. Pins in 5 holes. No dimensions yet, so not drawn: stiffener.\n"
        "Step 2. Pull 14 blind rivets. With blind rivet 3.2 length 6, grip 1.8 mm. Heads on top. "
        "Holes: stiffener.foot 1-14.\n"
        "No picture of steps 1 and 2: nothing there has dimensions yet.\n"
    )


@pytest.mark.parametrize(
    ("text", "steps"),
    [("4", [4]), ("4-7", [4, 5, 6, 7]), ("1,4-5", [1, 4, 5]), (" 9 , 1 - 2,2", [1, 2, 9])],
)
def test_steps(text: str, steps: list[int]) -> None:
    assert chosen_steps(text, 9) == steps


@pytest.mark.parametrize("text", ["", "x", "4-", "-4", "1,,2", "4..7", "٤"])
def test_what_are_no_steps(text: str) -> None:
    with pytest.raises(Stop, match="write numbers and ranges, as 4 or 4-7 or 1,4-7"):
        chosen_steps(text, 9)


@pytest.mark.parametrize("text", ["0", "10", "7-4", "8-10"])
def test_steps_that_are_not_there(text: str) -> None:
    with pytest.raises(Stop, match="the sequence has the steps 1 to 9"):
        chosen_steps(text, 9)
