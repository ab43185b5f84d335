"""A file's text as words with values at the top, ready to be read."""

from __future__ import annotations

from seqviz.records.compose import compose
from seqviz.records.nodes import Mapping
from seqviz.records.reading import Reading
from seqviz.records.source import Source, Unreadable

__all__ = ["opened"]


def opened(source: Source) -> tuple[Reading, Mapping]:
    """Compose a file; return what its reading carries along, and its words.

    Raises
    ------
    Unreadable
        The text is not YAML, or has no words at the top.
    """
    document = compose(source)
    if not isinstance(document.root, Mapping):
        at = source.at(document.root.line, document.root.column)
        raise Unreadable(
            f"{at}: this is neither a model nor a sequence. Both begin with `word: value` lines at the top. "
            "Compare with the example files.",
            at,
        )
    reading = Reading(file=source.path, emptied=document.comments.emptied, findings=document.findings)
    return reading, document.root
