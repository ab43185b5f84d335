"""There is a word in the file that seqviz does not know.

What it means: nothing is ever passed over in silence. A word that is spelt wrong, or stands where
it has no place, would otherwise be lost, and with it what you meant.

What to do: correct the spelling; the message says which known word comes close. Spaces, underscores
and hyphens read the same. For words of your own use a comment (`# ` at the start of a line) or a
`note` step.

Found:

```yaml
parts:
  rail: {shape: angle, thicknes: 1.0, length: 620, legs: [20, 25]}
```

Read:

```yaml
parts:
  rail: {shape: angle, thickness: 1.0, length: 620, legs: [20, 25]}
```

The rule: only the words of the file format count, each in its place (docs/file-format.md).
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("unknown-word", "error", noticed("unknown-word"))
