"""The solid that is checked is not quite the mesh in the file.

What it means: questions of room are asked of convex pieces. Where the walls of a mesh are curved or
slope, the pieces found in it are stepped, and the part may be checked as a little larger or smaller
than it is. Flats that are declared, straight walls and holes are exact wherever one axis can be found
along or square to all of them.

What to do: mostly nothing. Look twice at what this part is said to meet by less than the figure.
Where it matters, give the part's pieces yourself: plain plates, bars, blocks and rods.

Told, because a ball has no straight wall:

```yaml
parts:
  knob: {shape: mesh, file: knob.stl, unit: mm}
```

Nothing to tell, because its pieces are given:

```yaml
parts:
  knob:
    shape: mesh
    file: knob.stl
    unit: mm
    pieces:
      ball: {shape: block, length: 30, width: 30, height: 30}
```

The rule: at most 64 steps and 400 pieces a mesh; told from 0.05 mm, the tolerance of contact, on
(project choice).
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("meshed-roughly", "note", noticed("meshed-roughly"))
