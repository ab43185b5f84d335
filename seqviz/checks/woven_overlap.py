"""Parts lie over each other in a circle: they cannot be laid one after the other.

What it means: the words `over` and `under` say that one part lies over a second, that over a third,
and so on, until one lies over the first again. Four strips that are woven like the flaps of a
carton do so. Whichever you begin with, the last one has to go in under a part that is there
already. More often one of the words is a slip.

What to do: look at each pair in the message and correct the word that is wrong. If the parts really
are woven, leave one end of the last one unpinned and slide it in; then settle this under `known`
with the reason. The heights are computed without the statement at which the finding stands.

Found, because each strip lies over the next:

```yaml
placed:
  strip 1: {part: strip, match: {eye.1: skin.a.1, eye.2: skin.a.2}, over: strip 2}
  strip 2: {part: strip, match: {eye.1: skin.b.1, eye.2: skin.b.2}, over: strip 3}
  strip 3: {part: strip, match: {eye.1: skin.c.1, eye.2: skin.c.2}, over: strip 1}
```

Goes through:

```yaml
placed:
  strip 1: {part: strip, match: {eye.1: skin.a.1, eye.2: skin.a.2}, over: [strip 2, strip 3]}
  strip 2: {part: strip, match: {eye.1: skin.b.1, eye.2: skin.b.2}, over: strip 3}
  strip 3: {part: strip, match: {eye.1: skin.c.1, eye.2: skin.c.2}}
```

The rule: what lies over what goes round in no circle. Of a circle the words of the part whose name
comes last are left out of the heights (project choice).
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("woven-overlap", "warning", noticed("woven-overlap"))
