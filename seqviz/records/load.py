"""From a path to records: the file, the model that it names, and all mistakes of both."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace

from seqviz.findings import Finding
from seqviz.records.apart_files import ApartFiles
from seqviz.records.asked_for import after_linked
from seqviz.records.links import link_model
from seqviz.records.model import Model
from seqviz.records.model_file import ReadModel, empty_model, read_model
from seqviz.records.names import Found
from seqviz.records.opened import opened
from seqviz.records.reading import Reading
from seqviz.records.sequence_file import ReadSequence, read_sequence
from seqviz.records.source import Source, Unreadable, read_source
from seqviz.records.step_lines import numbered
from seqviz.records.step_links import link_sequence
from seqviz.records.steps import Sequence
from seqviz.records.used_files import UsedFiles, Whole
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
    used
        Path -> each sequence that an entry of ``placed`` uses, here or in a model that is used.
    """

    model: Model
    sequence: Sequence | None
    sources: dict[str, Source]
    findings: list[Finding]
    used: dict[str, Sequence] = field(default_factory=dict)


def load(path: str) -> Loaded:
    """Read the file at ``path``: a sequence (it has `steps` or `model`) with its model, or a model alone.

    Raises
    ------
    Unreadable
        There is no such file, or it or its model is no YAML text with words at the top.
    """
    used = UsedFiles(read=_whole)
    with _no_collection():
        whole = _whole(path, used)
    return Loaded(
        model=whole.model,
        sequence=whole.sequence,
        sources={**whole.sources, **used.sources},
        findings=[*whole.findings, *used.findings],
        used={one.sequence.path: one.sequence for one in used.done.values() if one and one.sequence},
    )


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


def _whole(path: str, used: UsedFiles) -> Whole:
    source = read_source(path)
    reading, root = opened(source)
    if not any(as_word(key.text) in ("steps", "model") for key, _ in root.pairs):
        read = used.joined(reading, read_model(reading, root))
        model, names = link_model(reading, read)
        sources = {path: source, **read.sources}
        return Whole(model=model, names=names, sequence=None, sources=sources, findings=reading.findings)
    used.chain.append(os.path.realpath(path))
    whole = _with_model(reading, read_sequence(reading, root), source, used)
    used.chain.pop()
    return whole


def _with_model(reading: Reading, read: ReadSequence, source: Source, used: UsedFiles) -> Whole:
    """Read the model of a sequence and the files of its sub-assemblies, and look all names up."""
    path = source.path
    model_path, sources, model_reading, found = _model_of(read, source, used)
    model, names = link_model(model_reading, found)
    owned = {name.text for name in read.owned if names.sizes.look_up(reading, name) is Found.GOOD}
    files = ApartFiles(model=model_path, chain=[os.path.realpath(path)])
    numbers = numbered(files.joined(reading, read.lines))
    sequence = replace(
        read.sequence,
        model=model_path,
        pins_owned={size: n for size, n in read.sequence.pins_owned.items() if size in owned},
        steps=tuple(numbers.steps),
        apart=tuple(numbers.apart),
        known=(*read.sequence.known, *files.known),
        broken=tuple(sorted({*read.sequence.broken, *numbers.broken})),
    )
    sequence, pieces = link_sequence(reading, sequence, model, names, numbers)
    return Whole(
        model=after_linked(model_reading, model, pieces),
        names=names,
        sequence=sequence,
        sources={**sources, **files.sources},
        findings=[*reading.findings, *files.findings, *model_reading.findings],
    )


def _model_of(
    read: ReadSequence, source: Source, used: UsedFiles
) -> tuple[str | None, dict[str, Source], Reading, ReadModel]:
    """Read the model of a sequence; an empty one where it names none."""
    path, written, place = source.path, read.sequence.model, read.model_at
    if written is None or place is None:
        reading = Reading(file=path)
        return None, {path: source}, reading, empty_model(reading)
    model_path = os.path.normpath(os.path.join(os.path.dirname(path), written))
    model_source = _model_source(model_path, source, place.line, place.column)
    back = used.leads_back(model_path)
    if back is not None:
        raise Unreadable(f"{path}: its model leads back to itself: {back}.")
    reading, root = opened(model_source)
    found = used.joined(reading, read_model(reading, root))
    return model_path, {path: source, model_path: model_source, **found.sources}, reading, found


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
