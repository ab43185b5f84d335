"""What the README shows is true: its two commands, its first model, the printed output, the cautions."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from seqviz.cautions import BRIEF, WORKSHOP
from seqviz.cli.program import app, run

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")

SET_UP = 'python3 -m venv .venv && .venv/bin/pip install -q -e ".[dev]"'
TRAY = "sequences/practice_tray.yaml"


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", README, flags=re.DOTALL | re.MULTILINE)


def shown() -> list[tuple[str, str]]:
    """Return every command shown with a ``$`` before it, and what is printed under it."""
    found = []
    for block in blocks("text"):
        for piece in block.split("$ ")[1:]:
            command, _, output = piece.partition("\n")
            found.append((command, output))
    return found


def test_the_two_commands_each_do_all_the_set_up() -> None:
    # .ci/run takes them out of the README by their beginning and runs them in a fresh copy.
    assert [line for line in README.splitlines() if line.startswith("python3 -m venv ")] == [
        f"{SET_UP} && .venv/bin/seqviz check {TRAY} && .venv/bin/seqviz pictures {TRAY}",
        f"{SET_UP} && .venv/bin/python -m pytest",
    ]


def test_the_system_packages_for_pictures_are_those_of_the_hint() -> None:
    from seqviz.render.probe import HINT

    assert "libegl1 libgl1-mesa-dri" in README
    assert "libegl1 libgl1-mesa-dri" in HINT


def test_the_cautions_are_the_ones_that_help_shows() -> None:
    text = " ".join(README.split())
    assert BRIEF in text
    assert WORKSHOP in text


def test_the_first_ten_lines_are_ten() -> None:
    model = blocks("yaml")[0]
    assert len(model.splitlines()) == 10
    assert "sketch" in model


def test_every_command_is_in_the_table() -> None:
    names = [command.name for command in app.registered_commands]
    assert [name for name in names if f"| `seqviz {name}" not in README] == []


@pytest.mark.parametrize(("command", "output"), shown(), ids=lambda value: value.split("\n")[0][:40])
def test_what_is_shown_is_what_is_printed(
    command: str,
    output: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    names = ("ten_lines.yaml", "tonight.yaml", "first_shelf.yaml", "first_evening.yaml")
    for name, text in zip(names, blocks("yaml"), strict=True):
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.chdir(ROOT if "practice_tray" in command else tmp_path)
    assert run(shlex.split(command)[1:]) == (1 if "error: " in output else 0)
    printed = capsys.readouterr()
    assert printed.err == ""
    # A line of three points stands for any number of lines.
    pattern = re.escape(output.strip("\n")).replace(r"\.\.\." + "\\\n", "(?:.*\n)*?")
    assert re.fullmatch(pattern, printed.out.strip("\n")) is not None, printed.out
