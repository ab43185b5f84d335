"""A tray with every kind of step that a picture can show; it stands for a builder's own two files."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from seqviz.build import Build, build
from seqviz.scene.picture import Scene
from seqviz.scene.step import scene_of_step

MODEL = """
format: 1
name: Tray
base: bottom
forward: +x
mirror line: y=117
sizes:
  small: {diameter: 3.3, with: pull 3.2}
hardware:
  pull 3.2: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.5, 3.5]}, head diameter: 6.4, head height: 1.0}
stock:
  light angle: {shape: angle, thickness: 0.8, legs: [18, 18], bend radius: 1.6, row in: 9, ends: 8}
parts:
  bottom:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [324, 0], [324, 234], [0, 234]]
    holes:
      side:   {along: left edge, in: 12, first: 12, last in: 12, pitch: 30, size: small, both sides: yes}
      front:  {along: forward edge, in: 12, first: 12, last in: 12, pitch: 30, size: small}
      back:   {along: aft edge, in: 12, first: 12, last in: 12, pitch: 30, size: small}
      middle: {from: [162, 12], to: [162, 222], pitch: 30, size: small}
  side angle:
    shape: angle
    thickness: 0.8
    length: 324
    legs: [22, 20]
    bend radius: 1.6
    holes:
      foot: {flat: leg 1, from: [12, 12], to: [312, 12], pitch: 30, size: small}
  end angle:
    shape: angle
    thickness: 0.8
    length: 226
    legs: [22, 20]
    bend radius: 1.6
    holes:
      foot: {flat: leg 1, from: [8, 12], to: [218, 12], pitch: 30, size: small}
  foot pad:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [110, 0], [110, 24], [0, 24]]
    holes:
      rim: {from: [10, 12], to: [100, 12], pitch: 30, size: small}
placed:
  side angle:
    part: side angle
    match: {foot.1: bottom.side.1, foot.11: bottom.side.11}
    standing leg: outboard
    both sides: other hand
  front angle:
    part: end angle
    match: {foot.1: bottom.front.1, foot.8: bottom.front.8}
    standing leg: forward
    over: [side angle left, side angle right]
  back angle:
    part: end angle
    match: {foot.1: bottom.back.8, foot.8: bottom.back.1}
    standing leg: aft
    over: [side angle left, side angle right]
  divider:
    stock: light angle
    along: bottom.middle
    standing leg: aft
    over: [side angle left, side angle right]
  foot pad:
    part: foot pad
    match: {rim.1: bottom.middle.3, rim.4: bottom.middle.6}
    side: lower
"""

SEQUENCE = """
format: 1
model: tray.yaml
up: upper
finished: yes
tools:
  hand puller:
    for: blind rivet
    body:
      - {cylinder: 10, from: 0, to: 20}
      - {cylinder: 24, from: 20, to: 90}
      - {box: [40, 60], from: 90, to: 250}
    turns: 8
    tilt: 5
    reach: {diameter: 100, length: 600, along: axis}
steps:
  - place: bottom
    note: Deburr every edge first. Gloves on for raw sheet.
  - place: [side angle left, side angle right]
    pins: [bottom.side.2, bottom.side.5, bottom.side.7, bottom.side.10]
  - leave open: [bottom.side.1, bottom.side.11]
    for: the end angles, which lie over them
  - leave open: bottom.side.6
    for: divider
  - rivet: everything ready
    size: small
  - open no longer: [bottom.side.1, bottom.side.11]
  - place: [front angle, back angle]
    pins: [bottom.front.1, bottom.front.4, bottom.front.8, bottom.back.1, bottom.back.4, bottom.back.8]
  - place: divider
    pins: [bottom.middle.1, bottom.middle.8]
  - rivet: everything ready
    size: small
    note: Four holes of the divider wait for the foot pad.
  - turn over: sideways
  - place: foot pad
    pins: [bottom.middle.3, bottom.middle.6]
  - rivet: everything ready
    size: small
  - note: Feel along every row for a head that stands off.
"""


STOP = """
  stop:
    part: stop
    match: {foot.1: bottom.middle.4, foot.2: bottom.middle.5}
    standing leg: forward
    over: divider
"""

STOP_PART = """
parts:
  stop:
    shape: angle
    thickness: 1.2
    length: 44
    legs: [16, 14]
    holes:
      foot: {flat: leg 1, from: [7, 8], to: [37, 8], pitch: 30, size: small}
"""

STOP_SEQUENCE = """
format: 1
model: tray.yaml
up: upper
steps:
  - note: wear gloves
  - place: [bottom, divider]
  - place: stop
    pins: all
  - pull pins: stop.foot.2
  - move pins: {holes: stop.foot.1, to: lower}
  - turn over: end over end
  - turn over: {up: left side}
"""


@cache
def tray() -> Build:
    """Return the tray, replayed."""
    return _built(MODEL, SEQUENCE)


@cache
def tray_with_stop() -> Build:
    """Return the tray with a small clip on the divider, and an order with every step about pins."""
    return _built(MODEL.replace("\nparts:\n", STOP_PART) + STOP, STOP_SEQUENCE)


@cache
def scene(number: int) -> Scene:
    """Return the picture of a step of the tray."""
    return scene_of_step(tray(), number)


@cache
def stop_scene(number: int) -> Scene:
    """Return the picture of a step of the tray with the clip."""
    return scene_of_step(tray_with_stop(), number)


def _built(model: str, sequence: str) -> Build:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "tray.yaml").write_text(model, encoding="utf-8")
        path = Path(folder) / "order.yaml"
        path.write_text(sequence, encoding="utf-8")
        return build(str(path))
