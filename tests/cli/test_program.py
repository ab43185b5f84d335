from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from seqviz import __version__
from seqviz.cautions import BRIEF, WORKSHOP
from seqviz.cli import check, program
from seqviz.cli.output import Stop
from seqviz.cli.program import run

Captured = pytest.CaptureFixture[str]

COMMANDS = ["check", "stack", "show", "pictures", "new", "schema", "explain"]


def one_line(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("command", COMMANDS)
def test_every_help_has_an_example_and_the_caution(command: str, capsys: Captured) -> None:
    assert run([command, "--help"]) == 0
    text = capsys.readouterr().out
    assert f"  seqviz {command} " in text.split("Example")[1]
    assert BRIEF in one_line(text)


def test_the_main_help_has_an_example_all_cautions_and_all_commands(capsys: Captured) -> None:
    assert run(["--help"]) == 0
    text = capsys.readouterr().out
    assert "  seqviz check sequences/practice_tray.yaml\n" in text
    assert BRIEF in one_line(text)
    assert WORKSHOP in one_line(text)
    listed = text.split("Commands:\n")[1].split("\n\n")[0]
    assert [line.split()[0] for line in listed.splitlines()] == COMMANDS


def test_no_command_is_bad_usage_and_shows_the_help(capsys: Captured) -> None:
    assert run([]) == 2
    assert capsys.readouterr().out.startswith("Usage: seqviz ")


def test_the_version(capsys: Captured) -> None:
    assert run(["--version"]) == 0
    assert capsys.readouterr().out == f"seqviz {__version__}\n"


@pytest.mark.parametrize(
    "arguments",
    [["chekc"], ["check"], ["check", "a", "b"], ["check", "--no-such-option", "a"], ["schema", "tools"]],
)
def test_bad_usage_ends_with_2_and_says_where_help_is(arguments: list[str], capsys: Captured) -> None:
    assert run(arguments) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.endswith("\nHow it is used: seqviz --help, or seqviz COMMAND --help.\n")


def raising(monkeypatch: pytest.MonkeyPatch, trouble: BaseException) -> int:
    """Run a check in which reading the file raises ``trouble``."""

    def opened(_path: str) -> None:
        raise trouble

    monkeypatch.setattr(check, "opened", opened)
    return run(["check", "tray.yaml"])


def test_what_stops_a_command_is_told_in_its_own_words(
    monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    assert raising(monkeypatch, Stop("tray.yaml: no such file.")) == 2
    assert capsys.readouterr() == ("", "tray.yaml: no such file.\n")


def test_a_mistake_of_ours_is_one_line_that_says_so(
    monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.delenv("SEQVIZ_TRACEBACK", raising=False)
    assert raising(monkeypatch, KeyError("rail\nleft")) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1
    assert told.err.startswith(f"This is a mistake in seqviz {__version__}, not in your files: KeyError in ")
    assert told.err.endswith(
        "Please send this line and your files to the people who keep seqviz. Nothing was checked.\n"
    )


def test_contributors_can_ask_for_the_traceback(monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    monkeypatch.setenv("SEQVIZ_TRACEBACK", "1")
    assert raising(monkeypatch, KeyError("rail")) == 2
    assert capsys.readouterr().err.startswith("Traceback (most recent call last):\n")


def test_what_the_computer_refuses_is_told_with_the_file(
    monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    assert raising(monkeypatch, PermissionError(13, "Permission denied", "pictures/tray")) == 2
    assert capsys.readouterr() == ("", "pictures/tray: Permission denied.\n")


def test_ctrl_c_is_quiet(monkeypatch: pytest.MonkeyPatch, capsys: Captured) -> None:
    assert raising(monkeypatch, KeyboardInterrupt()) == 130
    assert capsys.readouterr() == ("", "Stopped.\n")


def test_main_ends_the_process_with_the_code(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", ["seqviz", "--version"])
    with pytest.raises(SystemExit) as ended:
        program.main()
    assert ended.value.code == 0


def test_a_reader_that_goes_away_is_no_trouble(tmp_path: Path) -> None:
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(
        [sys.executable, "-m", "seqviz", "--version"],
        stdout=write,
        stderr=subprocess.PIPE,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(Path(program.__file__).parents[2])},
        check=False,
    )
    os.close(write)
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_terminal_that_knows_few_letters_gets_question_marks(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "seqviz", "check", "träger 前.yaml"],
        capture_output=True,
        cwd=tmp_path,
        env={
            **os.environ,
            "PYTHONPATH": str(Path(program.__file__).parents[2]),
            "PYTHONIOENCODING": "ascii",
        },
        check=False,
    )
    assert done.returncode == 2
    assert done.stderr.startswith(b"tr?ger ?.yaml: ")
