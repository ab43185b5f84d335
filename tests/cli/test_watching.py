"""Files that are watched, with real files: saved, replaced, away for a moment, half written, new ones."""

import os
import time
from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.cli.watching import Watch, files_of


class Clock:
    """Seconds that a test counts itself."""

    now = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def model(tmp_path: Path) -> Path:
    path = tmp_path / "model.yaml"
    path.write_text("name: one\n", encoding="utf-8")
    return path


def looked(watch: Watch, times: int = 3) -> list[bool]:
    return [watch.saved() for _ in range(times)]


def test_nothing_happens_while_nothing_is_saved(model: Path) -> None:
    assert looked(Watch([str(model)])) == [False, False, False]


def test_a_saved_file_is_told_when_it_stays_the_same_for_one_look(model: Path) -> None:
    watch = Watch([str(model)])
    model.write_text("name: two things\n", encoding="utf-8")
    assert looked(watch) == [False, True, True]
    watch.begin()
    watch.done([str(model)])
    assert looked(watch) == [False, False, False]


def test_a_file_that_is_still_being_written_is_waited_for(model: Path) -> None:
    watch = Watch([str(model)])
    found = []
    for text in ("name: two", "name: two things", "name: two things more"):
        model.write_text(text, encoding="utf-8")
        found.append(watch.saved())
    assert found == [False, False, False]
    assert watch.saved()


def test_a_file_of_the_same_size_in_its_place_is_told(model: Path) -> None:
    watch = Watch([str(model)])
    aside = model.with_suffix(".new")
    aside.write_text("name: two\n", encoding="utf-8")
    stat = model.stat()
    os.utime(aside, ns=(stat.st_mtime_ns, stat.st_mtime_ns))
    os.replace(aside, model)
    assert looked(watch) == [False, True, True]


def test_a_file_that_is_away_for_a_moment_is_waited_for(model: Path) -> None:
    clock = Clock()
    watch = Watch([str(model)], clock)
    model.unlink()
    assert looked(watch) == [False, False, False]
    clock.now = 2.0
    assert not watch.saved()
    model.write_text("name: back again\n", encoding="utf-8")
    assert looked(watch, 2) == [False, True]


def test_a_file_that_stays_away_is_told(model: Path) -> None:
    clock = Clock()
    watch = Watch([str(model)], clock)
    model.unlink()
    assert not watch.saved()
    clock.now = 3.5
    assert watch.saved()
    watch.begin()
    watch.done([])
    assert looked(watch) == [False, False, False]
    # And told again when it is there once more.
    model.write_text("name: back\n", encoding="utf-8")
    assert looked(watch, 2) == [False, True]


def test_files_that_are_named_later_are_watched_from_then_on(model: Path) -> None:
    watch = Watch([str(model)])
    rows = model.with_name("rows.csv")
    rows.write_text("part,row\n", encoding="utf-8")
    past = time.time_ns() - 10**9
    os.utime(rows, ns=(past, past))
    watch.begin()
    watch.done([str(model), str(rows)])
    assert looked(watch) == [False, False, False]
    rows.write_text("part,row,x\n", encoding="utf-8")
    assert looked(watch, 2) == [False, True]


def test_a_new_file_saved_while_it_was_read_is_read_again(model: Path) -> None:
    watch = Watch([str(model)])
    watch.begin()
    rows = model.with_name("rows.csv")
    rows.write_text("part,row\n", encoding="utf-8")
    soon = time.time_ns() + 10**9
    os.utime(rows, ns=(soon, soon))
    watch.done([str(model), str(rows)])
    assert looked(watch, 2) == [False, True]


def test_a_save_during_the_reading_is_not_lost(model: Path) -> None:
    watch = Watch([str(model)])
    watch.begin()
    model.write_text("name: two things\n", encoding="utf-8")
    watch.done([str(model)])
    assert looked(watch, 2) == [False, True]


def test_all_files_of_a_build_are_watched() -> None:
    root = Path(__file__).parents[2]
    found = files_of(build(os.path.relpath(root / "sequences" / "float_bay.yaml")))
    assert {Path(file).name for file in found} >= {"float_bay.yaml"}
    assert all(Path(file).is_file() for file in found)
    assert len({os.path.realpath(file) for file in found}) == len(found)


@pytest.mark.parametrize(
    ("line", "other"),
    [
        ("rows from: rows.csv\n", "rows.csv"),
        ("  knob: {shape: mesh, file: shapes/knob.stl, unit: mm}\n", os.path.join("shapes", "knob.stl")),
    ],
)
def test_meshes_and_rows_are_among_the_files(tmp_path: Path, line: str, other: str) -> None:
    (tmp_path / "rows.csv").write_text("part,row\n", encoding="utf-8")
    parts = "parts:\n  panel: {shape: skin, thickness: 0.8, outline: [[0, 0], [90, 0], [90, 60], [0, 60]]}\n"
    model = parts + line if line.startswith(" ") else line + parts
    (tmp_path / "model.yaml").write_text(f"format: 1\nname: Two\nbase: panel\n{model}", encoding="utf-8")
    found = [os.path.relpath(file, tmp_path) for file in files_of(build(str(tmp_path / "model.yaml")))]
    assert sorted(found) == sorted(["model.yaml", other])
