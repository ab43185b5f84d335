from __future__ import annotations

import os
import sys
import webbrowser
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

from seqviz.build import Build
from seqviz.cli.program import run
from tests.cli.shelf import SEQUENCE, write_shelf

Captured = pytest.CaptureFixture[str]

OURS = Path("pages/evening.html")


class Small:
    """A picture that nobody has drawn."""

    number, data, size = 2, b"drawn", (640, 480)


@pytest.fixture
def opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, bool]]:
    """Return what is opened in the browser, and whether the page had pictures then; nothing is drawn."""
    asked: list[tuple[str, bool]] = []

    def browser(address: str) -> bool:
        asked.append((address, "<img" in OURS.read_text(encoding="utf-8")))
        return True

    def small_pictures(_build: Build, progress: Callable[[int, int], None]) -> list[Small]:
        progress(1, 1)
        return [Small()]

    small, probe = ModuleType("small"), ModuleType("probe")
    small.small_pictures = small_pictures  # type: ignore[attr-defined]
    probe.graphics_hint = lambda: None  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "seqviz.render.small", small)
    monkeypatch.setitem(sys.modules, "seqviz.render.probe", probe)
    monkeypatch.setattr(webbrowser, "open", browser)
    monkeypatch.setenv("BROWSER", "any")
    monkeypatch.chdir(tmp_path)
    write_shelf(tmp_path)
    return asked


def test_the_page_opens_at_once_and_gets_its_pictures_then(
    opened: list[tuple[str, bool]], capsys: Captured
) -> None:
    assert run(["show", "evening.yaml"]) == 0
    assert opened == [(OURS.resolve().as_uri(), False)]
    text = OURS.read_text(encoding="utf-8")
    assert text.count("<img") == 1
    assert 'src="data:image/webp;base64,ZHJhd24="' in text
    assert capsys.readouterr() == (f"{OURS}\n", "")
    assert os.listdir("pages") == ["evening.html"]


def test_where_it_goes_can_be_said_and_nothing_is_opened(opened: list[tuple[str, bool]]) -> None:
    assert run(["show", "evening.yaml", "--page", "tray.html"]) == 0
    assert opened == []
    assert "<img" in Path("tray.html").read_text(encoding="utf-8")
    assert not Path("pages").exists()


def test_without_pictures(opened: list[tuple[str, bool]]) -> None:
    assert run(["show", "evening.yaml", "--no-pictures"]) == 0
    assert len(opened) == 1
    assert "<img" not in OURS.read_text(encoding="utf-8")


def test_a_page_of_ours_is_replaced_and_a_file_of_somebody_else_is_not(
    opened: list[tuple[str, bool]], capsys: Captured
) -> None:
    assert run(["show", "evening.yaml", "--page", "tray.html", "--no-pictures"]) == 0
    assert run(["show", "evening.yaml", "--page", "tray.html"]) == 0
    assert "<img" in Path("tray.html").read_text(encoding="utf-8")
    Path("mine.html").write_text("<p>my notes", encoding="utf-8")
    capsys.readouterr()
    assert run(["show", "evening.yaml", "--page", "mine.html"]) == 2
    assert Path("mine.html").read_text(encoding="utf-8") == "<p>my notes"
    assert capsys.readouterr().err == (
        "mine.html is there already; nothing was written. Write over it with --force, or use --page.\n"
    )
    assert run(["show", "evening.yaml", "--page", "mine.html", "--force"]) == 0
    assert "First shelf" in Path("mine.html").read_text(encoding="utf-8")
    assert opened == []


def test_a_page_that_cannot_be_finished_leaves_the_old_one(
    opened: list[tuple[str, bool]], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run(["show", "evening.yaml", "--page", "tray.html", "--no-pictures"]) == 0
    before = Path("tray.html").read_bytes()

    def no(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", no)
    assert run(["show", "evening.yaml", "--page", "tray.html"]) == 2
    assert Path("tray.html").read_bytes() == before
    assert [name for name in os.listdir() if name.startswith(".tray")] == []
    assert opened == []


def test_without_graphics_one_line_says_so_here_and_on_the_page(
    opened: list[tuple[str, bool]], capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.modules["seqviz.render.probe"], "graphics_hint", lambda: "Install this.")
    assert run(["show", "evening.yaml"]) == 0
    assert len(opened) == 1
    assert capsys.readouterr().err == "The page has no pictures of the steps. Install this.\n"
    text = OURS.read_text(encoding="utf-8")
    assert "this page was made on a machine that cannot draw" in text
    assert "<img" not in text


@pytest.mark.parametrize("how", ["no window system", "no browser"])
def test_without_a_browser_the_path_is_said(
    how: str, opened: list[tuple[str, bool]], capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    if how == "no browser":
        monkeypatch.setattr(webbrowser, "open", lambda _address: False)
    else:
        monkeypatch.setattr(sys, "platform", "linux")
        for word in ("BROWSER", "DISPLAY", "WAYLAND_DISPLAY"):
            monkeypatch.delenv(word, raising=False)
    assert run(["show", "evening.yaml", "--no-pictures"]) == 0
    assert capsys.readouterr() == (f"{OURS}\n", f"There is no browser here. Open this file in one: {OURS}\n")
    assert opened == []


def test_errors_are_said_beside_the_page(
    tmp_path: Path, opened: list[tuple[str, bool]], capsys: Captured
) -> None:
    write_shelf(tmp_path, sequence=SEQUENCE.replace("  - place", "  - rivet: panel.edge\n  - place"))
    assert run(["show", "evening.yaml", "--no-pictures"]) == 1
    assert len(opened) == 1
    assert capsys.readouterr().err == "Do not work from this yet: 1 error. Look: seqviz check evening.yaml\n"


def test_a_model_alone_has_a_page(opened: list[tuple[str, bool]]) -> None:
    assert run(["show", "shelf.yaml", "--page", "shelf.html"]) == 0
    assert "this is a model alone" in Path("shelf.html").read_text(encoding="utf-8")
    assert opened == []


def test_a_file_that_cannot_be_read_has_none(opened: list[tuple[str, bool]], capsys: Captured) -> None:
    assert run(["show", "missing.yaml"]) == 2
    assert "missing.yaml" in capsys.readouterr().err
    assert not Path("pages").exists()
    assert opened == []


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--window", "--page", "a.html"], "--page and --window: ask for one at a time."),
        (["--step", "2"], "--step goes with --glb"),
    ],
)
def test_options_that_say_nothing_together(
    options: list[str], message: str, opened: list[tuple[str, bool]], capsys: Captured
) -> None:
    assert run(["show", "evening.yaml", *options]) == 2
    assert message in capsys.readouterr().err
    assert opened == []


def test_without_the_3d_library_the_way_out_is_said(
    opened: list[tuple[str, bool]], capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("seqviz.page.library._template", lambda: "<html>")
    assert run(["show", "evening.yaml"]) == 2
    assert "pip install 'trimesh" in capsys.readouterr().err
    assert not OURS.exists()
    assert opened == []
