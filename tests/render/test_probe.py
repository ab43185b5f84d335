"""The probe never takes this process down, and says what to install."""

import subprocess
from typing import Any

import pytest

from seqviz.render.probe import HINT, graphics_hint


@pytest.mark.parametrize(
    ("returncode", "said", "hint"), [(0, "drawn\n", None), (-11, "", HINT), (1, "", HINT), (0, "", HINT)]
)
def test_hint(monkeypatch: pytest.MonkeyPatch, returncode: int, said: str, hint: str | None) -> None:
    def run(command: list[str], **_options: Any) -> subprocess.CompletedProcess[str]:
        return subprocess.CompletedProcess(command, returncode, stdout=said, stderr="")

    monkeypatch.setattr(subprocess, "run", run)
    assert graphics_hint.__wrapped__() == hint


def test_a_child_that_hangs_is_a_hint(monkeypatch: pytest.MonkeyPatch) -> None:
    def run(command: list[str], **_options: Any) -> subprocess.CompletedProcess[str]:
        raise subprocess.TimeoutExpired(command, 1)

    monkeypatch.setattr(subprocess, "run", run)
    assert graphics_hint.__wrapped__() == HINT


def test_hint_is_one_line_that_names_the_packages() -> None:
    assert "\n" not in HINT
    assert "libegl1 libgl1-mesa-dri" in HINT
