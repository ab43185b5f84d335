"""Whatever is written: findings, or Unreadable; never anything else."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from seqviz.records.load import Loaded, Unreadable, load
from tests.records.written import MODEL

SEQUENCE = """\
format: 1
model: model.yaml
up: upper
finished: yes
tools:
  puller: {for: blind rivet, body: [{cylinder: 10, from: 0, to: 20}], turns: 8, tilt: 5, reach: {along: axis}}
steps:
  - place: [rail left, rail right]
    pins: ends and every 4th
  - leave open: skin.rail.28-30
    for: strap
  - rivet: [skin.rail.1-3, rail left.foot.9]
    forward of: x=200
  - move pins: {holes: skin.rail.1, to: lower}
  - turn over: {up: lower, bench: blocks, over the edge: rail left}
  - apart: set
    up: cross 1.leg 1 outside
    steps:
      - place: cross 1
      - pins: ends and every 3rd
      - apart: inner
        sequence: model.yaml
  - take off: [rail left]
  - drill: skin.rail.4-9
    through: [skin, rail right]
  - bolt: everything ready
    finger tight: yes
  - prime: [rail left, skin.edge]
  - check: square
    value: 0.5 mm
known:
  - {kind: gap-in-stack, at: skin.rail, why: x}
"""
SIGNS = [*":#,.-[]{}'\"\n\t &*!|>%@`0x\\\u0000é木?/", "  ", "- ", ": ", "<<: ", "1e999", "skin", "\n---\n"]


def mutated(text: str, chance: random.Random) -> str:
    """Cut, double, swap or sprinkle a text in one to four places."""
    for _ in range(chance.randint(1, 4)):
        start = chance.randrange(len(text) + 1)
        end = min(len(text), start + chance.choice([0, 1, 2, 5, 20, 100]))
        put = chance.choice([chance.choice(SIGNS), "", text[start:end] * 2])
        text = text[:start] + put + text[end:]
    return text


def loaded_or_message(path: Path) -> Loaded | str:
    """Load a file, or return what its Unreadable says; all other exceptions go through."""
    try:
        return load(str(path))
    except Unreadable as error:
        return error.message


@pytest.mark.parametrize("seed", range(8))
def test_mutated_files(tmp_path: Path, seed: int) -> None:
    chance = random.Random(seed)
    model, sequence = tmp_path / "model.yaml", tmp_path / "sequence.yaml"
    unreadable = findings = 0
    for _ in range(60):
        both = chance.random() < 0.5
        model.write_text(mutated(MODEL, chance) if both else MODEL, encoding="utf-8")
        sequence.write_text(SEQUENCE if both else mutated(SEQUENCE, chance), encoding="utf-8")
        read = loaded_or_message(sequence)
        if isinstance(read, str):
            unreadable += 1
            assert read.startswith(str(tmp_path))
            continue
        findings += len(read.findings)
        for finding in read.findings:
            line = read.sources[finding.at.file].lines[finding.at.line - 1]
            assert 1 <= finding.at.column <= len(line) + 2
            assert finding.message
            assert finding.why
            assert finding.fix
    assert unreadable > 0
    assert findings > 0


@pytest.mark.parametrize(
    "text",
    [
        "\x00",
        "\ufeff",
        "a: !!python/object:os.system x",
        "%YAML 3\n---\na",
        "--- >\n",
        "? ? ?",
        "{" * 60,
        "a: |9\n b",
    ],
)
def test_strange_texts(tmp_path: Path, text: str) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(text, encoding="utf-8")
    read = loaded_or_message(path)
    if isinstance(read, str):
        assert read.startswith(str(path))
    else:
        assert read.findings


def test_random_bytes(tmp_path: Path) -> None:
    chance = random.Random(0)
    path = tmp_path / "a.yaml"
    for _ in range(50):
        path.write_bytes(chance.randbytes(200))
        with pytest.raises(Unreadable):
            load(str(path))
