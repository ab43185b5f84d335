"""Something you wrote would be lost on the way in.

What it means: the file is YAML, and YAML swallows some things in silence: what follows a `#` is a
comment, `a:b` without a space is one word, an alias or a tag says something that is not on the
page. seqviz stops at each of them.

What to do: put the value in quotes, or a space after the colon, or write out what the alias stands
for. Drills are written `No. 30`, not `#30`.

Found, because everything from the `#` on is a comment:

```yaml
sizes:
  small:
    diameter: #30
```

Read:

```yaml
sizes:
  small:
    diameter: No. 30
```

The rule: a comment is a whole line, or `# ` with a space behind it. Aliases, tags and merge keys
are not part of the file format (docs/file-format.md).
"""

from __future__ import annotations

from seqviz.checks.check import Check
from seqviz.checks.noticed import noticed

__all__ = ["CHECK"]

CHECK = Check("value-lost", "error", noticed("value-lost"))
