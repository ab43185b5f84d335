"""``seqviz schema``: the file format as JSON Schema, for editors."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from seqviz.cli.output import NO_MISTAKE, say

__all__ = ["HELP", "Which", "schema"]

HELP = """Print the JSON Schema of a file, so that an editor can help while you write.

\b
Example:
  seqviz schema model > model.schema.json
"""


class Which(StrEnum):
    """The two kinds of files that people write."""

    MODEL = "model"
    SEQUENCE = "sequence"


def schema(
    which: Annotated[Which, typer.Argument(metavar="WHICH", help="The kind of file: model or sequence.")],
) -> int:
    """Print the schema; return the exit code."""
    from seqviz.records.schema import schema as schema_of
    from seqviz.report.documents import json_text

    say(json_text(schema_of("model" if which is Which.MODEL else "sequence")))
    return NO_MISTAKE
