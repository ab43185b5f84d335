"""Small models on disk, and the flat sheets that are drawn of their parts."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from seqviz.assembly.kinds import Kind, kinds_of
from seqviz.build import Build, build
from seqviz.drawing.flat_facts import FlatFacts, flat_facts
from seqviz.drawing.flat_sheet import flat_sheet

__all__ = ["MODEL", "built", "classes", "facts_of", "kind_called", "sheet_of", "words"]

MODEL = """\
format: 1
name: Trial pieces
base: taper
forward: +x
mirror line: y=120
sizes:
  small: {diameter: 3.3, with: blind rivet 3.2}
  big:   {diameter: 4.1, with: blind rivet 4.0}
parts:
  taper:
    shape: skin
    thickness: 0.8
    material: 6061-T6
    number: T-12
    outline: [[0, 0], [420, 30], [420, 210], [0, 240]]
    openings:
      cable hole: {center: [120, 150], diameter: 70}
      slot: {outline: [[250, 60], [330, 60], [330, 80], [250, 80]]}
    holes:
      fore: {along: forward edge, in: 10, first: 15, last in: 15, count: 9, size: small, 2-3: big}
      same: {at: [[410, 45]], size: small}
      rail: {from: [20, 40], to: [320, 40], count: 4, size: small, both sides: yes}
  rail:
    shape: angle
    thickness: 1.0
    length: 340
    legs: [20, 25]
    bend radius: 2.4
    holes:
      foot: {flat: leg 1, from: [20, 12], to: [320, 12], count: 4, size: small, 1: big}
  lug: {shape: block, length: 20, width: 10, height: 5}
  hat:
    shape: hat
    thickness: 0.8
    length: 160
    feet: [16, 16]
    webs: [22, 22]
    crown: 26
    bend radius: 1.2
  idea: {shape: sketch, thickness: 1.0}
placed:
  rail: {part: rail, match: {foot.1: taper.rail.1, foot.4: taper.rail.4}, both sides: other hand}
"""


def built(folder: Path, text: str = MODEL) -> Build:
    path = folder / "trial.yaml"
    path.write_text(text, encoding="utf-8")
    return build(str(path))


def kind_called(made: Build, name: str) -> Kind:
    return next(kind for kind in kinds_of(made.parts, made.assembly) if kind.name == name)


def facts_of(folder: Path, name: str, text: str = MODEL) -> FlatFacts:
    made = built(folder, text)
    facts = flat_facts(made, kind_called(made, name))
    assert facts is not None
    return facts


def sheet_of(folder: Path, name: str, text: str = MODEL) -> ElementTree.Element:
    return ElementTree.fromstring(flat_sheet(facts_of(folder, name, text)))


def classes(root: ElementTree.Element, called: str) -> list[ElementTree.Element]:
    return [element for element in root.iter() if element.get("class") == called]


def words(root: ElementTree.Element) -> list[str]:
    return [element.text or "" for element in root.iter() if element.tag.endswith("text")]
