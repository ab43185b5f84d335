"""Sub-assemblies whose steps stand in a sequence file of their own."""

from __future__ import annotations

import os
from dataclasses import dataclass, field, replace

from seqviz.findings import At, Finding, Related
from seqviz.records.model import Known, Name
from seqviz.records.nodes import Mapping
from seqviz.records.opened import opened
from seqviz.records.reading import Reading
from seqviz.records.sequence_file import APART_FILE, ReadSequence, read_sequence
from seqviz.records.source import Source, Unreadable, read_source
from seqviz.records.step_lines import ReadApart, ReadSteps
from seqviz.records.words import as_word

__all__ = ["ApartFiles"]

_WHY = "`sequence` names a sequence file with the steps of this sub-assembly, seen from this file."


@dataclass(slots=True, kw_only=True, eq=False)
class ApartFiles:
    """The files that sub-assemblies name, as far as they are read.

    Attributes
    ----------
    model
        The path of the model of the whole, None where it is not known.
    chain
        Real paths of the files within which one is read, the outermost first.
    seen
        Real path -> where the file was named first.
    sources, findings, known
        What was read, what is wrong with it, and what is settled in it.
    """

    model: str | None
    chain: list[str]
    seen: dict[str, At] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    known: list[Known] = field(default_factory=list)

    def joined(self, reading: Reading, read: ReadSteps) -> ReadSteps:
        """Return the lines with those of all files that they name, directly or not."""
        return ReadSteps(
            lines=tuple(
                self._apart(reading, line) if isinstance(line, ReadApart) else line for line in read.lines
            )
        )

    def _apart(self, reading: Reading, line: ReadApart) -> ReadApart:
        if line.steps is not None:
            return replace(line, steps=self.joined(reading, line.steps))
        if line.file is None:
            return line
        path = os.path.normpath(os.path.join(os.path.dirname(reading.file), line.file.text))
        if not self._may_be_read(reading, line.file, path):
            return replace(line, wrong=True)
        source, inner, root = self._source(reading, line.file, path)
        if source is None or inner is None or root is None:
            return replace(line, wrong=True)
        self.sources[path] = source
        read = read_sequence(inner, root, APART_FILE)
        right = self._same_model(reading, line.file, inner, read)
        self.chain.append(os.path.realpath(path))
        steps = self.joined(inner, read.lines)
        self.chain.pop()
        self.findings += inner.findings
        self.known += read.sequence.known
        return _with_file(line, read, steps, right)

    def _may_be_read(self, reading: Reading, file: Name, path: str) -> bool:
        """Say whether a file is none that is being read, or was read; note what is wrong."""
        real = os.path.realpath(path)
        if real in self.chain:
            way = " > ".join(os.path.basename(one) for one in (*self.chain[self.chain.index(real) :], real))
            reading.bad(
                file.at,
                f"`{file.text}` leads back to itself: {way}.",
                "A sub-assembly is joined before the work that it goes into, so no file can hold itself.",
                "Name the file with the steps of this sub-assembly.",
            )
            return False
        if real in self.seen:
            reading.duplicate(f"The sequence `{file.text}`", file.at, self.seen[real])
            return False
        self.seen[real] = file.at
        return True

    def _source(
        self, reading: Reading, file: Name, path: str
    ) -> tuple[Source | None, Reading | None, Mapping | None]:
        """Read a file that may be no sequence at all."""
        if os.path.isdir(path):
            reading.bad(file.at, f"`{file.text}` is a folder.", _WHY, "Write the path of a file.")
            return None, None, None
        try:
            source = read_source(path)
            inner, root = opened(source)
        except Unreadable as trouble:
            reading.bad(
                file.at,
                f"The steps of this sub-assembly cannot be read: {trouble.message}",
                _WHY,
                "Correct the path or that file, or write the steps here (`steps`).",
            )
            return None, None, None
        words = {as_word(key.text) for key, _ in root.pairs}
        if "steps" not in words:
            what = "is a model" if words & {"parts", "placed", "base"} else "has no `steps`"
            reading.bad(file.at, f"`{file.text}` {what}.", _WHY, "Write the path of a sequence.")
            return None, None, None
        return source, inner, root

    def _same_model(self, reading: Reading, file: Name, inner: Reading, read: ReadSequence) -> bool:
        """Say whether the file is about the model of the whole, or names none; note another one."""
        written, place = read.sequence.model, read.model_at
        if written is None or place is None or self.model is None:
            return True
        own = os.path.normpath(os.path.join(os.path.dirname(inner.file), written))
        if os.path.realpath(own) == os.path.realpath(self.model):
            return True
        reading.report(
            "bad-value",
            file.at,
            f"`{file.text}` is about another model: `{own}`.",
            f"A sub-assembly is part of the same structure; here that is `{self.model}`.",
            "Name a sequence for this model, or correct the `model` of that file.",
            (Related(at=inner.at(place), message="its model"),),
        )
        return False


def _with_file(line: ReadApart, read: ReadSequence, steps: ReadSteps, right: bool) -> ReadApart:
    """Return the sub-assembly with what its file says; what stands at ``apart`` itself counts first."""
    sequence = read.sequence
    return replace(
        line,
        steps=steps,
        up=line.up if line.up is not None else read.up,
        bench=line.bench or read.bench,
        over_the_edge=line.over_the_edge or sequence.over_the_edge,
        finished_at=sequence.finished_at if sequence.finished else None,
        wrong=line.wrong or not right or sequence.broken != (),
    )
