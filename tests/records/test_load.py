"""From a path to records."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.load import Unreadable, load
from tests.records.written import MODEL, changed, loaded, places

SEQUENCE = "format: 1\nmodel: model.yaml\nsteps:\n  - place: skin\n"


def test_what_a_file_is_is_seen_from_its_words(tmp_path: Path) -> None:
    assert loaded(tmp_path, MODEL).sequence is None
    assert loaded(tmp_path, MODEL, SEQUENCE).sequence is not None


def test_paths_are_named_as_reached_from_the_path_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "models").mkdir()
    (tmp_path / "sequences").mkdir()
    (tmp_path / "models" / "a.yaml").write_text(changed("pitch: 25", "pitch: 26"))
    (tmp_path / "sequences" / "a.yaml").write_text(SEQUENCE.replace("model.yaml", "../models/a.yaml"))
    monkeypatch.chdir(tmp_path)
    read = load("sequences/a.yaml")
    assert [str(finding.at) for finding in read.findings] == ["models/a.yaml:18:57"]
    assert list(read.sources) == ["sequences/a.yaml", "models/a.yaml"]
    assert read.sources["models/a.yaml"].lines[0] == "format: 1"
    assert read.sequence is not None
    assert (read.sequence.path, read.sequence.model, read.model.path) == (
        "sequences/a.yaml",
        "models/a.yaml",
        "models/a.yaml",
    )
    monkeypatch.chdir(tmp_path / "sequences")
    assert str(load("a.yaml").findings[0].at) == "../models/a.yaml:18:57"


def test_all_mistakes_of_both_files_come_in_one_run(tmp_path: Path) -> None:
    model = changed("pitch: 25", "pitch: 26").replace("legs: [20, 25]", "legs: [20,5, 25]")
    read = loaded(tmp_path, model, SEQUENCE + "  - plce: skin\n  - place: nothing\n")
    assert places(read) == [
        ("bad-value", 18, 57),
        ("bad-value", 24, 11),
        ("unknown-word", 5, 5),
        ("unknown-name", 6, 12),
    ]


def test_a_sequence_without_a_model_is_read_all_the_same(tmp_path: Path) -> None:
    read = loaded(tmp_path, MODEL, "format: 1\nsteps:\n  - plce: skin\n  - place: anything\n")
    assert places(read) == [("missing-word", 1, 1), ("unknown-word", 3, 5)]
    assert (read.model.base, read.model.parts) == (None, {})


@pytest.mark.parametrize(
    ("model", "sequence", "message"),
    [
        (
            MODEL,
            "format: 1\nmodel: nowhere.yaml\nsteps: []\n",
            "sequence.yaml:2:8: the model of this sequence: ",
        ),
        (MODEL, "format: 1\nmodel: sequence.yaml\nsteps: []\n", "sequence.yaml:2:8: this file names itself"),
        (MODEL, "format: 1\nmodel: [\n", "sequence.yaml:2:8: The bracket `[` is not closed"),
        ("a: b: c\n", SEQUENCE, "model.yaml:1:5: A second colon stands here"),
        ("- a\n- b\n", SEQUENCE, "model.yaml:1:1: this is neither a model nor a sequence."),
        ("just text\n", SEQUENCE, "model.yaml:1:1: this is neither a model nor a sequence."),
        ("", SEQUENCE, "model.yaml: there is nothing in this file"),
    ],
)
def test_where_nothing_can_be_checked(tmp_path: Path, model: str, sequence: str, message: str) -> None:
    with pytest.raises(Unreadable) as caught:
        loaded(tmp_path, model, sequence)
    assert f"{tmp_path}/{message}" in caught.value.message


def test_no_such_file() -> None:
    with pytest.raises(Unreadable, match=r"nowhere\.yaml: cannot be read"):
        load("nowhere.yaml")


def test_15_000_lines_are_read_whole(tmp_path: Path) -> None:
    rows = [
        f"      r {row}: {{from: [10, {row % 300}], to: [600, {row % 300}], count: 30, size: small, 1: none}}"
        for row in range(4000)
    ]
    points = ["      many:", "        size: small", "        at:"]
    points += [f"          - [{x}, {y}]" for y in range(100) for x in range(100)]
    text = MODEL.replace("    holes:\n      rail:", "\n".join(["    holes:", *rows, *points, "      rail:"]))
    assert text.count("\n") > 14_000
    read = loaded(tmp_path, text)
    assert read.findings == []
    assert len(read.model.parts["skin"].rows) == 4004
