"""Two parts overlap, and nobody said which lies over the other.

What it means: both parts lie on the same face and share some of it. Which one is on top decides the
heights of both, the grips, and which comes first at the bench. The order in the file says nothing
about it.

What to do: write `over:` or `under:` at one of them. What a part is matched on is under it without
being said.

Found, because strap and rail overlap on the skin:

```yaml
placed:
  rail:  {part: rail, match: {foot.1: shelf skin.rail.1, foot.30: shelf skin.rail.30}}
  strap: {part: strap, match: {rim.1: shelf skin.cross.1, rim.5: shelf skin.cross.5}}
```

Clear:

```yaml
placed:
  rail:  {part: rail, match: {foot.1: shelf skin.rail.1, foot.30: shelf skin.rail.30}}
  strap: {part: strap, match: {rim.1: shelf skin.cross.1, rim.5: shelf skin.cross.5}, over: rail}
```

The rule: the lay-up is said by `over`, `under` and `match`, never by the order of the entries
(project choice). The part says no more until this is clear.
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("say-over-or-under", "error", noticed("say-over-or-under"))
