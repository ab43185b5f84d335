"""A value cannot be read, or cannot be meant.

What it means: the word is right, and what stands behind it is not: a length that is no length, a
count of 0, an outline that crosses itself, a row that is no whole number of pitches, a side that
does not exist.

What to do: the message says what is wanted there and what stands there. A length is a number in the
model's units, or a number with its own: `1/8 in`, `3/32"`, `1 1/2 in`, `12.5 mm`. The decimal sign
is a point.

Found, because a decimal comma makes two numbers of one:

```yaml
parts:
  rail: {shape: angle, thickness: "1,6", length: 620, legs: [20, 25]}
```

Read:

```yaml
parts:
  rail: {shape: angle, thickness: 1.6, length: 620, legs: [20, 25]}
```

The rule: the file format says for each word what may stand there (docs/file-format.md). Nothing is
rounded or guessed.
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("bad-value", "error", noticed("bad-value"))
