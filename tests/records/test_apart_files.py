"""Sub-assemblies whose steps stand in a file of their own."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.records.load import Loaded, load
from tests.records.written import MODEL, Place, places, said

MAIN = """\
format: 1
model: model.yaml
steps:
  - place: skin
  - apart: set
    sequence: parts/set.yaml
  - place: set
"""
SET = """\
format: 1
model: ../model.yaml
up: rail left.leg 1 inside
bench: blocks
over the edge: rail left
finished: yes
steps:
  - place: rail left
  - note: done
known:
  - {kind: edge-distance, at: rail left.foot, why: drawing}
"""


def read(folder: Path, main: str = MAIN, **files: str) -> Loaded:
    """Write a model, a sequence and files in its folder ``parts``, and load the sequence."""
    (folder / "parts").mkdir(exist_ok=True)
    (folder / "model.yaml").write_text(MODEL, encoding="utf-8")
    (folder / "main.yaml").write_text(main, encoding="utf-8")
    for name, text in files.items():
        (folder / "parts" / f"{name}.yaml").write_text(text, encoding="utf-8")
    return load(str(folder / "main.yaml"))


def where(loaded: Loaded) -> list[tuple[str, str, int, int]]:
    """Return kind, file, line and column of each finding."""
    return sorted((f.kind, Path(f.at.file).name, f.at.line, f.at.column) for f in loaded.findings)


def test_a_file_is_read(tmp_path: Path) -> None:
    loaded = read(tmp_path, set=SET)
    assert loaded.findings == []
    sequence = loaded.sequence
    assert sequence is not None
    path = str(tmp_path / "parts" / "set.yaml")
    assert [(step.number, step.work, step.at.line) for step in sequence.steps] == [
        (1, None, 4),
        (2, "set", 8),
        (3, "set", 9),
        (4, None, 7),
    ]
    assert sequence.steps[1].at.file == path
    assert list(loaded.sources) == [str(tmp_path / "main.yaml"), str(tmp_path / "model.yaml"), path]
    (apart,) = sequence.apart
    assert apart.up is not None
    assert (apart.up[0].text, apart.up[1:], apart.bench) == ("rail left", ("leg 1", "inside"), "blocks")
    assert apart.finished_at is not None
    assert (apart.finished_at.file, apart.finished_at.line) == (path, 6)
    assert [name.text for name in apart.over_the_edge] == ["rail left"]
    assert [known.at.file for known in sequence.known] == [path]
    # What the whole is on says nothing of the main work's own bench.
    assert (sequence.bench, sequence.finished, sequence.over_the_edge) == ("flat", False, ())


def test_what_stands_at_apart_counts_first(tmp_path: Path) -> None:
    main = MAIN.replace("set.yaml", "set.yaml\n    up: lower\n    bench: flat\n    over the edge: [skin]")
    loaded = read(tmp_path, main, set=SET)
    assert loaded.sequence is not None
    (apart,) = loaded.sequence.apart
    assert (apart.up, apart.up_side, apart.bench) == (None, "lower", "flat")
    assert [name.text for name in apart.over_the_edge] == ["skin"]


def test_it_may_be_checked_alone(tmp_path: Path) -> None:
    read(tmp_path, set=SET)
    loaded = load(str(tmp_path / "parts" / "set.yaml"))
    assert loaded.findings == []
    assert loaded.sequence is not None
    assert loaded.sequence.up_flat is not None
    assert (loaded.sequence.up_flat[1:], loaded.sequence.finished) == (("leg 1", "inside"), True)


def test_it_needs_no_model_and_leaves_the_rest_out(tmp_path: Path) -> None:
    loaded = read(tmp_path, set="format: 1\nsteps:\n  - place: rail left\n")
    assert loaded.findings == []
    assert loaded.sequence is not None
    (apart,) = loaded.sequence.apart
    assert (apart.up, apart.up_side, apart.bench, apart.finished_at) == (None, None, None, None)


def test_files_within_files(tmp_path: Path) -> None:
    outer = "format: 1\nsteps:\n  - apart: inner\n    sequence: deep/inner.yaml\n  - place: inner\n"
    (tmp_path / "parts" / "deep").mkdir(parents=True)
    (tmp_path / "parts" / "deep" / "inner.yaml").write_text(
        "format: 1\nmodel: ../../model.yaml\nsteps:\n  - place: rail left\n  - plce: x\n"
    )
    loaded = read(tmp_path, set=outer)
    assert where(loaded) == [("unknown-word", "inner.yaml", 5, 5)]
    assert loaded.sequence is not None
    assert [(step.number, step.work) for step in loaded.sequence.steps] == [
        (1, None),
        (2, "inner"),
        (4, "set"),
        (5, None),
    ]
    assert loaded.sequence.broken == (3,)
    assert [(apart.name, apart.inside) for apart in loaded.sequence.apart] == [
        ("set", None),
        ("inner", "set"),
    ]


def test_mistakes_stand_in_their_own_file(tmp_path: Path) -> None:
    text = SET.replace("- note: done", "- place: rial").replace("rail left.foot,", "rail left.fot,")
    loaded = read(tmp_path, set=text)
    assert where(loaded) == [("unknown-name", "set.yaml", 9, 12), ("unknown-name", "set.yaml", 11, 31)]
    assert loaded.sequence is not None
    assert loaded.sequence.broken == (3,)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        (SET.replace("bench: blocks", "bench: table"), ("unknown-word", "set.yaml", 4, 8)),
        (SET.replace("up: rail left", "up: rail lft"), ("unknown-name", "set.yaml", 3, 5)),
        (SET.replace("up: rail left", "up: skin").replace("leg 1", "face"), ("bad-value", "set.yaml", 3, 5)),
        (SET.replace("../model", "other"), ("bad-value", "main.yaml", 6, 15)),
    ],
)
def test_a_wrong_head_leaves_its_steps_out(
    tmp_path: Path, text: str, place: tuple[str, str, int, int]
) -> None:
    loaded = read(tmp_path, set=text)
    assert where(loaded) == [place]
    assert loaded.sequence is not None
    assert loaded.sequence.broken == (2, 3)
    assert loaded.sequence.apart == ()


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("nowhere.yaml", "The steps of this sub-assembly cannot be read: "),
        ("parts", "`parts` is a folder."),
        ("model.yaml", "`model.yaml` is a model."),
        ("main.yaml", "`main.yaml` leads back to itself: main.yaml > main.yaml."),
        ("parts/bad.yaml", "The steps of this sub-assembly cannot be read: "),
        ("parts/text.yaml", "The steps of this sub-assembly cannot be read: "),
        ("parts/bytes.yaml", "The steps of this sub-assembly cannot be read: "),
        ("parts/empty.yaml", "`parts/empty.yaml` has no `steps`."),
        ("parts/back.yaml", "`../main.yaml` leads back to itself: main.yaml > back.yaml > main.yaml."),
    ],
)
def test_files_that_cannot_be_read(tmp_path: Path, path: str, message: str) -> None:
    files = {
        "bad": "format: 1\nsteps: [\n",
        "text": "just text\n",
        "bytes": "format: 1\x00",
        "empty": "format: 1\nmodel: ../model.yaml\n",
        "back": "format: 1\nsteps:\n  - apart: main\n    sequence: ../main.yaml\n",
    }
    loaded = read(tmp_path, MAIN.replace("parts/set.yaml", path), **files)
    finding = said(loaded)
    assert finding.kind == "bad-value"
    assert finding.message.startswith(message)
    assert "back.yaml" in finding.at.file or (finding.at.line, finding.at.column) == (6, 15)
    assert loaded.sequence is not None
    assert loaded.sequence.broken == (0,)
    # What is placed afterwards is not there because of this, and nothing more is said.
    assert [step.number for step in loaded.sequence.steps] == [1, 2]


def test_one_file_is_one_sub_assembly(tmp_path: Path) -> None:
    more = MAIN + "  - apart: two\n    sequence: parts/../parts/set.yaml\n"
    found: list[Place] = [("duplicate-name", 9, 15)]
    assert places(read(tmp_path, more, set=SET)) == found


def test_circles_are_seen_through_links(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "set.yaml").symlink_to(tmp_path / "main.yaml")
    assert "leads back to itself" in said(read(tmp_path)).message
