"""How the table of an action is made: its own word first, then the words beside it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from seqviz.records.kinds import Kind, Text
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values

__all__ = ["Build", "action"]

Build = Callable[[Reading, Values], Any]
"""Makes an action from its values, none of which is wrong; None (with a finding) where they do not agree."""

_NOTE = Field(word="note", kind=Text(), help="Words beside the action.")


def action(
    word: str,
    kind: Kind,
    help_text: str,
    build: Build,
    others: tuple[Field, ...] = (),
    refused: tuple[tuple[str, str], ...] = (),
) -> Record:
    """Return the table of the step ``word``; ``refused`` are words that have no sense in it, and why."""
    first = Field(word=word, kind=kind, help=help_text, required=True)
    return Record(
        title=f"a step `{word}`",
        help=help_text,
        fields=(first, *others, *(() if word == "note" else (_NOTE,))),
        build=build,
        refused=refused,
    )
