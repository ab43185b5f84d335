"""From a path to records: the file, the model that it names, and all mistakes of both."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

from seqviz.findings import Finding
from seqviz.records.compose import compose
from seqviz.records.links import link_model
from seqviz.records.model import Model
from seqviz.records.model_file import empty_model, read_model
from seqviz.records.nodes import Mapping
from seqviz.records.reading import Reading
from seqviz.records.sequence_file import read_sequence
from seqviz.records.source import Source, Unreadable, read_source
from seqviz.records.step_links import link_sequence
from seqviz.records.steps import Sequence
from seqviz.records.words import as_word

__all__ = ["Loaded", "Unreadable", "load"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Loaded:
    """What was read.

    Attributes
    ----------
    model
        The model; of a sequence that does not name its model an empty one.
    sequence
        None where the path given is that of a model.
    sources
        Path as shown in findings -> the text of each file.
    findings
        All reading mistakes of both files.
    """

    model: Model
    sequence: Sequence | None
    sources: dict[str, Source]
    findings: list[Finding]


def load(path: str) -> Loaded:
    """Read the file at ``path``: a sequence (it has `steps` or `model`) with its model, or a model alone.

    Raises
    ------
    Unreadable
        There is no such file, or it or its model is no YAML text with words at the top.
    """
    with _no_collection():
        return _loaded(path)


@contextmanager
def _no_collection() -> Iterator[None]:
    """Keep the garbage collector off: it would go through all nodes again and again, and find nothing."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _loaded(path: str) -> Loaded:
    source = read_source(path)
    reading, root = _opened(source)
    if not any(as_word(key.text) in ("steps", "model") for key, _ in root.pairs):
        read = read_model(reading, root)
        model, _ = link_model(reading, read)
        sources = {path: source, **read.sources}
        return Loaded(model=model, sequence=None, sources=sources, findings=reading.findings)
    sequence, place = read_sequence(reading, root)
    sources = {path: source}
    if sequence.model is None or place is None:
        model_reading = Reading(file=path)
        model, names = link_model(model_reading, empty_model(model_reading))
    else:
        model_path = os.path.normpath(os.path.join(os.path.dirname(path), sequence.model))
        model_source = _model_source(model_path, source, place.line, place.column)
        sources[model_path] = model_source
        model_reading, model_root = _opened(model_source)
        read = read_model(model_reading, model_root)
        sources.update(read.sources)
        model, names = link_model(model_reading, read)
        sequence = replace(sequence, model=model_path)
    sequence = link_sequence(reading, sequence, names)
    return Loaded(
        model=model,
        sequence=sequence,
        sources=sources,
        findings=[*reading.findings, *model_reading.findings],
    )


def _opened(source: Source) -> tuple[Reading, Mapping]:
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


def _model_source(path: str, sequence: Source, line: int, column: int) -> Source:
    at = sequence.at(line, column)
    if os.path.normpath(sequence.path) == path:
        raise Unreadable(f"{at}: this file names itself as its model. Write the model's path.", at)
    try:
        return read_source(path)
    except Unreadable as error:
        if error.at is not None:
            raise
        raise Unreadable(f"{at}: the model of this sequence: {error.message}", at) from error
