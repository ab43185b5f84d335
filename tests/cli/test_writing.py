from __future__ import annotations

import os
from pathlib import Path

import pytest

from seqviz.cli.output import Stop
from seqviz.cli.writing import free_to_write, write_aside


def test_a_folder_is_never_written_over(tmp_path: Path) -> None:
    with pytest.raises(Stop, match="is a folder"):
        free_to_write(tmp_path, force=True)


def test_a_link_that_leads_nowhere_is_somebodys_all_the_same(tmp_path: Path) -> None:
    link = tmp_path / "link.svg"
    link.symlink_to(tmp_path / "gone.svg")
    with pytest.raises(Stop, match="is there already"):
        free_to_write(link, force=False)


def test_what_fails_leaves_the_old_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.svg"
    path.write_text("old", encoding="utf-8")

    def no(*_: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(os, "replace", no)
    with pytest.raises(OSError, match="disk full"):
        write_aside(path, "new")
    assert path.read_text(encoding="utf-8") == "old"
    assert os.listdir(tmp_path) == ["a.svg"]


def test_others_may_read_what_was_written(tmp_path: Path) -> None:
    before = os.umask(0o022)
    try:
        write_aside(tmp_path / "a.svg", "text\n")
    finally:
        os.umask(before)
    assert (tmp_path / "a.svg").stat().st_mode & 0o777 == 0o644
    assert (tmp_path / "a.svg").read_bytes() == b"text\n"
