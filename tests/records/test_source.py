"""Files as text."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.source import Source, Unreadable, read_source


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"\xef\xbb\xbfformat: 1\n")
    assert read_source(str(path)).text == "format: 1\n"


def test_lines_end_as_in_yaml() -> None:
    # A vertical tab or a form feed ends no line; the line of a finding would be wrong.
    assert Source(path="a", text="a\r\nb\rc\nd\x85e").lines == ("a", "b", "c", "d", "e")


def test_no_such_file() -> None:
    with pytest.raises(Unreadable, match=r"^nowhere/a\.yaml: cannot be read \(No such file"):
        read_source("nowhere/a.yaml")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="cannot be read"):
        read_source(str(tmp_path))


def test_not_utf_8_is_told_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes("format: 1\nname: Gef\u00e4\u00df\n".encode("latin-1"))
    with pytest.raises(Unreadable, match=r"a\.yaml:2: is not UTF-8 text"):
        read_source(str(path))


def test_a_control_character_is_told_with_its_place(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"format: 1\nname: a\x00b\n")
    with pytest.raises(Unreadable, match="U\\+0000") as caught:
        read_source(str(path))
    assert caught.value.at == At(file=str(path), line=2, column=8)
