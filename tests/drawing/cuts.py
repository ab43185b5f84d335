"""A small structure with every sort of stack, and sections made by hand."""

from __future__ import annotations

from pathlib import Path

from seqviz.build import Build, build
from seqviz.drawing.section import Section, SectionFastener, SectionLayer, section_of

__all__ = ["MODEL", "STEPS", "by_hand", "cut", "layer", "made", "pull"]

MODEL = """\
format: 1
name: Cuts
base: skin
forward: +x
sizes:
  small: {diameter: 3.3, with: pull 3.2}
  big:   {diameter: 4.1, with: blind rivet 4.0}
  bolt:  {diameter: 5.1, with: bolt 5}
hardware:
  pull 3.2: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.5, 3.5]}, head diameter: 6.5, head height: 1.1}
  bolt 5: {kind: bolt, diameter: 5, lengths: {24: [8, 14]}}
parts:
  skin:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [300, 0], [300, 120], [0, 120]]
    holes:
      edge: {from: [20, 10], to: [120, 10], count: 6, size: small}
      tab: {at: [[200, 60], [240, 60], [220, 60]], size: small}
      lug: {at: [[200, 100], [240, 100]], size: bolt}
      lone: {at: [[20, 100]], diameter: 4.8}
  strip:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [140, 0], [140, 20], [0, 20]]
    holes:
      foot: {from: [20, 10], to: [120, 10], count: 6, size: small, 6: big}
  tab:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [60, 0], [60, 20], [0, 20]]
    holes:
      hole: {at: [[10, 10], [50, 10], [30.4, 10]], size: small}
  lug:
    shape: block
    length: 60
    width: 20
    height: 10
    holes:
      hole: {flat: bottom, at: [[10, 10], [50, 10]], size: bolt}
  pad: {shape: plate, thickness: 1.6, outline: [[0, 0], [10, 0], [10, 10], [0, 10]]}
placed:
  strip: {part: strip, match: {foot.1: skin.edge.1, foot.5: skin.edge.5}}
  tab: {part: tab, match: {hole.1: skin.tab.1, hole.2: skin.tab.2}}
  lug: {part: lug, match: {hole.1: skin.lug.1, hole.2: skin.lug.2}}
  pad: {part: pad, at: [35, 5, -1.6], x along: forward, y along: left}
"""

STEPS = """\
format: 1
model: cuts.yaml
up: upper
steps:
  - place: [strip, tab, lug, pad]
  - rivet: strip.foot.1
  - rivet: strip.foot.3
    head: lower
  - turn over: sideways
  - rivet: strip.foot.4
    head: lower
"""


def made(folder: Path, model: str = MODEL, steps: str = "") -> Build:
    """Return the build of the model, or of steps for it."""
    (folder / "cuts.yaml").write_text(model, encoding="utf-8")
    (folder / "steps.yaml").write_text(steps, encoding="utf-8")
    return build(str(folder / ("steps.yaml" if steps else "cuts.yaml")))


def cut(build: Build, hole: str) -> Section:
    return section_of(build, build.assembly.stack_of[hole])


def layer(number: int, name: str, thickness: float, hole: float | None = 3.3) -> SectionLayer:
    return SectionLayer(number=number, name=name, thickness=thickness, hole=hole)


def pull(top: bool = True) -> SectionFastener:
    """A blind rivet of 3.2 with a head of 6.4 x 1 and a tail of 5.12 x 4."""
    return SectionFastener(
        kind="blind rivet",
        name="pull 3.2",
        diameter=3.2,
        length=6.0,
        made=True,
        head=(6.4, 1.0),
        tail=(5.12, 4.0),
        head_on_top=top,
    )


def by_hand(*layers: SectionLayer, fastener: SectionFastener | None = None, pin: float = 3.3) -> Section:
    """Return a section of these layers, seen from the upper side."""
    listed = layers or (layer(1, "rail", 1.0), layer(2, "skin", 0.8))
    return Section(
        holes=("rail.foot.3", "skin.rail.3"),
        layers=listed,
        grip=sum(one.thickness for one in listed),
        diameter=min(one.hole for one in listed if one.hole is not None),
        size="small",
        pin=pin,
        joins=len(listed) > 1,
        fastener=fastener,
        top="upper side",
        bottom="lower side",
        bench=None,
        units="mm",
    )
