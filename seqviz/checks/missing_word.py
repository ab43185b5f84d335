"""Something that must be said is not said.

What it means: an entry lacks a word without which it says too little: a part without a thickness, a
row without a size, a placed part that says neither `match` nor `along` nor `at`.

What to do: add the word that the message names. What may be left out, and what then holds, stands
in the file format.

Found, because nobody can tell how thick the rail is:

```yaml
parts:
  rail: {shape: angle, length: 620, legs: [20, 25]}
```

Read:

```yaml
parts:
  rail: {shape: angle, thickness: 1.0, length: 620, legs: [20, 25]}
```

The rule: seqviz fills in only what the file format says it fills in (docs/file-format.md). It never
guesses a dimension.
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("missing-word", "error", noticed("missing-word"))
