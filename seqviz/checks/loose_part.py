"""A part's matched holes do not hold it in one place.

What it means: with the holes that `match` names the part could still turn or slide. One hole lets
it turn about that hole; holes that lie on each other say no more than one. seqviz does not guess
where it ends up, and says nothing more about the part and what is matched on it until this is
clear.

What to do: match a second hole, as far from the first as the row reaches. For a part without holes
use `at`, `x along` and `y along`.

Found:

```yaml
placed:
  strap: {part: strap, match: {rim.1: rail left.top.4}}
```

Holds:

```yaml
placed:
  strap: {part: strap, match: {rim.1: rail left.top.4, rim.5: rail left.top.8}}
```

The rule: matched holes must leave nothing free, or only the height over the face beneath, which the
lay-up then settles (project choice).
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("loose-part", "error", noticed("loose-part"))
