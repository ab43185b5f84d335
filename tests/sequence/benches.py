"""Small structures on a skin of 300 x 200 for the order of work: parts and `placed`, as written in a file."""

__all__ = ["BOX", "FRAME", "GUN", "LIP", "SLIDE", "TRAY"]

# A strap on a skin with three holes at y = 100; a lid 30 above the strap over the first two holes.
TRAY = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes: {row: {from: [100, 100], to: [200, 100], count: 3, size: small}}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [120, 0], [120, 20], [0, 20]]
    holes: {rim: {from: [10, 10], to: [110, 10], count: 3, size: small}}
  lid: {shape: block, length: 100, width: 60, height: 5}
placed:
  strap: {part: strap, match: {rim.1: skin.row.1, rim.3: skin.row.3}}
  lid: {part: lid, at: [70, 70, 32], x along: forward, y along: left}
"""

# Two blocks side by side in a frame; a bar over the first. Each block lifts out, both as one piece do not.
FRAME = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
  left block: {shape: block, length: 60, width: 40, height: 20}
  right block: {shape: block, length: 60, width: 40, height: 20}
  bar: {shape: block, length: 40, width: 200, height: 10}
  front wall: {shape: block, length: 200, width: 10, height: 40}
  back wall: {shape: block, length: 200, width: 10, height: 40}
  aft stop: {shape: block, length: 10, width: 40, height: 40}
placed:
  left block: {part: left block, at: [40, 80, 1], x along: forward, y along: left}
  right block: {part: right block, at: [100, 80, 1], x along: forward, y along: left}
  bar: {part: bar, at: [50, 0, 41], x along: forward, y along: left}
  front wall: {part: front wall, at: [30, 70, 1], x along: forward, y along: left}
  back wall: {part: back wall, at: [30, 120, 1], x along: forward, y along: left}
  aft stop: {part: aft stop, at: [160, 80, 1], x along: forward, y along: left}
"""

# A rail over a strip over a skin: the strip, 1 thick, lies under the rail between x = 100 and 200 and has no
# holes; the rail's six holes run from x = 40 to 240, 40 apart.
SLIDE = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes: {row: {from: [40, 100], to: [240, 100], count: 6, size: small}}
  strip:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [20, 0], [20, 60], [0, 60]]
  rail:
    shape: plate
    thickness: 2.0
    outline: [[0, 0], [240, 0], [240, 20], [0, 20]]
    holes: {foot: {from: [20, 10], to: [220, 10], count: 6, size: small}}
placed:
  strip: {part: strip, at: [130, 70, 1], x along: forward, y along: left}
  rail: {part: rail, match: {foot.1: skin.row.1, foot.6: skin.row.6}, over: strip}
"""

# A tongue 10 thick under a lip: it goes 15 along -x and then up, or not at all once a stop stands 5 behind.
LIP = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
  tongue: {shape: block, length: 40, width: 20, height: 10}
  lip: {shape: block, length: 15, width: 20, height: 5}
  side: {shape: block, length: 80, width: 10, height: 30}
  stop: {shape: block, length: 10, width: 20, height: 30}
placed:
  tongue: {part: tongue, at: [100, 100, 1], x along: forward, y along: left}
  lip: {part: lip, at: [125, 100, 11], x along: forward, y along: left}
  one side: {part: side, at: [70, 90, 1], x along: forward, y along: left}
  other side: {part: side, at: [70, 120, 1], x along: forward, y along: left}
  front: {part: stop, at: [140, 100, 1], x along: forward, y along: left}
  far stop: {part: stop, at: [70, 100, 1], x along: forward, y along: left}
  near stop: {part: stop, at: [85, 100, 1], x along: forward, y along: left}
"""

# A box round a strap: four walls of 60, and a lid with or without a hole of 90 over the strap's rivets.
BOX = """\
parts:
  skin:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes: {row: {from: [120, 100], to: [160, 100], count: 2, size: solid}}
  strap:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [60, 0], [60, 20], [0, 20]]
    holes: {rim: {from: [10, 10], to: [50, 10], count: 2, size: solid}}
  long wall: {shape: block, length: 200, width: 5, height: 60}
  short wall: {shape: block, length: 5, width: 150, height: 60}
  lid: {shape: plate, thickness: 1.0, outline: [[0, 0], [200, 0], [200, 160], [0, 160]]%s}
placed:
  strap: {part: strap, match: {rim.1: skin.row.1, rim.2: skin.row.2}}
  front: {part: long wall, at: [50, 20, 1], x along: forward, y along: left}
  back: {part: long wall, at: [50, 175, 1], x along: forward, y along: left}
  aft: {part: short wall, at: [50, 25, 1], x along: forward, y along: left}
  fore: {part: short wall, at: [245, 25, 1], x along: forward, y along: left}
  lid: {part: lid, at: [50, 20, 61], x along: forward, y along: left}
"""

GUN = """\
tools:
  gun: {for: solid rivet, body: [{cylinder: 12, from: 0, to: 90}], reach: {diameter: 20, length: 200}}
"""
