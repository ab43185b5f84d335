"""The window's reader and the page's watch, with real files; what is said where there is no screen."""

import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from seqviz.build import Build, build
from seqviz.cli.program import run
from seqviz.cli.rereading import reread
from seqviz.cli.show_window import Reader
from seqviz.cli.watch_page import PageWatch
from seqviz.render import probe
from seqviz.render.desk import Desk, News
from tests.render.screen import NEEDS_SCREEN, key, screen

ROOT = Path(__file__).parents[2]


@pytest.fixture
def tray(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the practice tray's sequence, in a folder of its own with its model, which is where we are."""
    for folder in ("models", "sequences"):
        (tmp_path / folder).mkdir()
        shutil.copy(ROOT / folder / "practice_tray.yaml", tmp_path / folder)
    monkeypatch.chdir(tmp_path)
    return Path("sequences/practice_tray.yaml")


def saved(path: Path, old: str, new: str) -> None:
    """Save a file as an editor does that writes aside and puts it in its place."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    aside = path.with_suffix(".aside")
    aside.write_text(text.replace(old, new, 1), encoding="utf-8")
    os.replace(aside, path)


def news(reader: Reader) -> News | None:
    """Return what is new after two looks at the files."""
    reader.look()
    reader.look()
    return reader.news()


def steps(told: News | None) -> int:
    assert told is not None
    assert told.build is not None
    assert told.build.replay is not None
    return len(told.build.replay.states)


def test_a_save_is_shown(tray: Path) -> None:
    reader = Reader(str(tray), build(str(tray)), watch=True)
    assert reader.first.wrong == ()
    assert news(reader) is None
    saved(tray, "steps:\n", "steps:\n  - note: sweep the bench\n")
    assert steps(news(reader)) == 14
    assert news(reader) is None


def test_the_model_is_watched_too(tray: Path) -> None:
    reader = Reader(str(tray), build(str(tray)), watch=True)
    saved(Path("models/practice_tray.yaml"), "name: Practice tray", "name: Another tray")
    told = news(reader)
    assert told is not None
    assert told.build is not None
    assert told.build.model.name == "Another tray"


def test_a_slip_is_told_in_place_and_the_last_good_state_stays(tray: Path) -> None:
    reader = Reader(str(tray), build(str(tray)), watch=True)
    saved(tray, "place: bottom", "place: botom")
    told = news(reader)
    assert told is not None
    assert told.build is None
    assert told.wrong[0] == "The files do not read any more. What you see is as it was before."
    line = 1 + tray.read_text(encoding="utf-8").split("\n").index("  - place: botom")
    assert told.wrong[1].startswith(f"sequences/practice_tray.yaml:{line}: ")
    assert "botom" in told.wrong[1]
    saved(tray, "place: botom", "place: bottom")
    told = news(reader)
    assert steps(told) == 13
    assert told is not None
    assert told.wrong == ()


def test_what_is_no_yaml_is_told_too(tray: Path) -> None:
    reader = Reader(str(tray), build(str(tray)), watch=True)
    saved(tray, "steps:", "steps: [")
    told = news(reader)
    assert told is not None
    assert told.build is None
    assert "sequences/practice_tray.yaml" in told.wrong[1]


def test_mistakes_that_were_there_from_the_beginning_hide_nothing(tray: Path) -> None:
    saved(tray, "steps:\n", "steps:\n  - note: a\n    sise: small\n")
    reader = Reader(str(tray), build(str(tray)), watch=True)
    assert reader.first.build is not None
    assert reader.first.wrong[0] == "Not all of the files can be read. What is shown does without."
    saved(tray, "steps:\n", "steps:\n  - note: b\n")
    # The step with the slip is left out.
    assert steps(news(reader)) == 14


def test_errors_in_the_order_of_work_are_counted(tray: Path) -> None:
    reader = Reader(str(tray), build(str(tray)), watch=True)
    assert reader.errors() == ""
    saved(tray, "  - place: bottom\n", "  - place: divider\n  - place: bottom\n")
    told = news(reader)
    assert told is not None
    # The work is shown as it is written; that it does not go together is said beside it.
    assert told.build is not None
    assert told.wrong[0].startswith("Do not work from this yet: ")
    assert reader.errors() == told.wrong[0]


def test_a_failure_of_ours_is_told_and_nothing_ends(tray: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_path: str) -> Build:
        raise ZeroDivisionError

    monkeypatch.setattr("seqviz.build.build", fails)
    found = reread(str(tray))
    assert found.build is None
    assert found.slips == (
        f"seqviz itself has failed over these files (ZeroDivisionError). Look: seqviz check {tray}",
    )


def test_the_page_is_written_again_only_when_the_files_are_good(
    tray: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    written: list[str] = []
    watch = PageWatch(str(tray), build(str(tray)), lambda made: written.append(made.model.name))
    watch.look()
    saved(Path("models/practice_tray.yaml"), "name: Practice tray", "name: Another tray")
    watch.look()
    watch.look()
    assert written == ["Another tray"]
    saved(tray, "place: bottom", "place: botom")
    watch.look()
    watch.look()
    assert written == ["Another tray"]
    told = capsys.readouterr().err
    assert "botom" in told
    assert told.endswith("The page stays as it was before.\n")
    saved(tray, "place: botom", "place: bottom")
    watch.look()
    watch.look()
    assert written == ["Another tray", "Another tray"]


def test_without_a_screen_one_line_says_so(
    tray: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    probe.screen_hint.cache_clear()
    assert run(["show", str(tray), "--window"]) == 2
    probe.screen_hint.cache_clear()
    assert capsys.readouterr().err == probe.SCREEN_HINT + "\n"
    assert "\n" not in probe.SCREEN_HINT


def test_watch_does_not_go_with_glb(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["show", "a.yaml", "--watch", "--glb", "a.glb"]) == 2
    assert capsys.readouterr().err == "--watch goes with a page or with --window, not with --glb.\n"


@NEEDS_SCREEN
@pytest.mark.parametrize("watch", [[], ["--watch"]])
def test_ctrl_c_ends_the_window_in_one_line(
    tray: Path, watch: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    goes_on = Desk.run

    def pressed(desk: Desk, told: Callable[[], News | None], stopped: Callable[[], bool]) -> None:
        os.kill(os.getpid(), signal.SIGINT)
        goes_on(desk, told, stopped)

    monkeypatch.setattr(Desk, "run", pressed)
    probe.screen_hint.cache_clear()
    with screen():
        assert run(["show", str(tray), "--window", *watch]) == 130
    probe.screen_hint.cache_clear()
    assert capsys.readouterr().err == "Stopped.\n"


@NEEDS_SCREEN
def test_errors_are_told_when_the_window_is_closed(
    tray: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    saved(tray, "  - place: bottom\n", "  - place: divider\n  - place: bottom\n")
    monkeypatch.setattr(Desk, "run", lambda desk, _told, _stopped: desk.window.plotter.close())
    probe.screen_hint.cache_clear()
    with screen():
        assert run(["show", str(tray), "--window"]) == 1
    probe.screen_hint.cache_clear()
    assert capsys.readouterr().err.startswith("Do not work from this yet: ")


@NEEDS_SCREEN
def test_a_mistake_of_ours_in_a_key_ends_with_one_line(
    tray: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    goes_on = Desk.run

    def pressed(desk: Desk, told: Callable[[], News | None], stopped: Callable[[], bool]) -> None:
        monkeypatch.setattr(desk, "refresh", None)
        key(desk, "Right")
        goes_on(desk, told, stopped)

    monkeypatch.setattr(Desk, "run", pressed)
    probe.screen_hint.cache_clear()
    with screen():
        assert run(["show", str(tray), "--window"]) == 2
    probe.screen_hint.cache_clear()
    told = capsys.readouterr().err
    assert told.startswith("This is a mistake in seqviz")
    assert told.count("\n") == 1
