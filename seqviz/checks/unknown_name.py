"""A name is used that nothing has.

What it means: the file speaks of a part, a row, a hole, a size or a fastener that is nowhere
described, or it gives a bare name where the left or the right one is wanted.

What to do: correct the name; the message says which one comes close. Holes are written
`PLACED.ROW.N`, with the placed part's name, not the part's: `rail left.foot.4`. Holes are counted
from 1.

Found:

```yaml
steps:
  - place: rial left
```

Read:

```yaml
steps:
  - place: rail left
```

The rule: every name must be described in the model, or be one of the fasteners known by name such
as `blind rivet 3.2`. What depends on a wrong name is left out and not checked until it is right.
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("unknown-name", "error", noticed("unknown-name"))
