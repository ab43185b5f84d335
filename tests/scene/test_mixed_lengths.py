from __future__ import annotations

from pathlib import Path

from seqviz.build import build
from seqviz.scene.mixed_lengths import mixed_lengths

MODEL = """\
format: 1
base: skin
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  bolted: {diameter: 4.9, with: bolt AN3}
parts:
  skin: {shape: sketch, thickness: 0.8}
  rail: {shape: sketch, thickness: 1.6}
  strap: {shape: sketch, thickness: 2}
rows:
  foot: {layers: [rail, skin], count: 30, size: small, 28-30: [strap, rail, skin], 4: bolted}
  edge: {layers: [rail, skin], count: 5, size: small}
"""


def test_a_row_with_two_lengths_is_told_once(tmp_path: Path) -> None:
    (tmp_path / "model.yaml").write_text(MODEL, encoding="utf-8")
    made = build(str(tmp_path / "model.yaml"))
    # ISO 15981: 2.4 is within 1.5 to 3.5 of length 6, 4.4 within 3.5 to 5 of length 8. The bolt is no second
    # length of the rivet; the row `foot` of the skin holds the same joints as that of the rail.
    told = mixed_lengths(made.assembly, "mm")
    assert len(told) == 1
    assert told[0].endswith(".foot takes of blind rivet 3.2 length 6 in 1-3, 5-27 and length 8 in 28-30.")
    assert told[0].startswith("More than one length in a row: ")


def test_one_length_for_all_is_not_worth_a_word(tmp_path: Path) -> None:
    text = MODEL.replace("28-30: [strap, rail, skin], ", "")
    (tmp_path / "model.yaml").write_text(text, encoding="utf-8")
    assert mixed_lengths(build(str(tmp_path / "model.yaml")).assembly, "mm") == []
