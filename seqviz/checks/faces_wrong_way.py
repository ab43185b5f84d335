"""A part lies with the wrong face down, or it is the other hand.

What it means: the holes, or the direction in which its leg, web or flanges face, say otherwise than
the file. Three or more holes that are not in one line fit one way up only. At the bench you would
find out with the first rivets already in.

What to do: say which face lies down with `face: inside` or `face: outside`, or correct `standing
leg`, `web faces` or `flange faces`. Where the part is the mirror twin, use `both sides: other
hand`, or describe it as a part of its own: a part is never mirrored to fit.

Found, because the matched holes put the leg on the inboard side:

```yaml
placed:
  rail: {part: rail, match: {foot.1: shelf skin.rail.1, foot.30: shelf skin.rail.30}, standing leg: outboard}
```

Clear, matched the other way round:

```yaml
placed:
  rail: {part: rail, match: {foot.1: shelf skin.rail.30, foot.30: shelf skin.rail.1}, standing leg: outboard}
```

The rule: holes are fitted by turning and shifting only. Leg, web and flanges must face within 60
degrees of the direction said (project choice).
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("faces-wrong-way", "error", noticed("faces-wrong-way"))
