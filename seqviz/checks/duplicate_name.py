"""Two entries have the same name.

What it means: in a list of named things the second entry would replace the first, and half of what
you wrote would be lost. Names that differ in spaces, underscores, hyphens or capitals only count as
the same.

What to do: rename one of them, or put both together if they are the same thing. Two pieces of one
kind are two entries under `placed`, not under `parts`.

Found:

```yaml
parts:
  strap: {shape: plate, thickness: 1.0, outline: [[0, 0], [60, 0], [60, 20]]}
  strap: {shape: plate, thickness: 1.6, outline: [[0, 0], [80, 0], [80, 20]]}
```

Read:

```yaml
parts:
  short strap: {shape: plate, thickness: 1.0, outline: [[0, 0], [60, 0], [60, 20]]}
  long strap:  {shape: plate, thickness: 1.6, outline: [[0, 0], [80, 0], [80, 20]]}
```

The rule: a name stands once in its list. A placed part `rail` for both sides also takes `rail left`
and `rail right`.
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("duplicate-name", "error", noticed("duplicate-name"))
