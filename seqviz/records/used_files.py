"""Other models that stand in a model as one piece: ``uses``."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from seqviz.findings import At, Finding
from seqviz.records.model import Model, Name, Placed, UsedModel
from seqviz.records.model_file import ReadModel
from seqviz.records.names import Names, Rows
from seqviz.records.reading import Reading
from seqviz.records.source import Source, Unreadable
from seqviz.records.steps import Sequence

__all__ = ["DEEPEST", "UsedFiles", "Whole"]

DEEPEST = 5
"""How many models may stand within each other."""

_WHY = "`uses` names another model, or a sequence for one, seen from this file."


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Whole:
    """A file and the files that belong to it, with all names looked up."""

    model: Model
    names: Names
    sequence: Sequence | None
    sources: dict[str, Source]
    findings: list[Finding]


@dataclass(slots=True, kw_only=True, eq=False)
class UsedFiles:
    """The files that models use, as far as they are read.

    Attributes
    ----------
    read
        Reads the file at a path and all that belongs to it.
    chain
        Real paths of the files within which one is read, the outermost first.
    depth
        How many models the one that is read stands in.
    done
        Real path -> what was read, None where it cannot be used.
    sources, findings
        Of all of them.
    """

    read: Callable[[str, UsedFiles], Whole]
    chain: list[str] = field(default_factory=list)
    depth: int = 0
    done: dict[str, Whole | None] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def joined(self, reading: Reading, read: ReadModel) -> ReadModel:
        """Return a model with those that its entries use; entries whose file is no use are not among them."""
        self.chain.append(os.path.realpath(reading.file))
        wholes = {
            entry.name: self._whole(reading, entry.uses)
            for entry in read.model.placed.values()
            if entry.uses is not None
        }
        self.chain.pop()
        good = {name: whole for name, whole in wholes.items() if whole is not None}
        uses = {name: _used(read.model.placed[name], whole) for name, whole in good.items()}
        rows = {name: _rows(whole.names) for name, whole in good.items()}
        return replace(read, model=replace(read.model, uses=uses), used=rows)

    def leads_back(self, path: str) -> str | None:
        """Return the way from a file back to itself in words, None where it is not read within itself."""
        real = os.path.realpath(path)
        if real not in self.chain:
            return None
        within = (*self.chain[self.chain.index(real) :], real)
        return " > ".join(os.path.basename(one) for one in within)

    def _whole(self, reading: Reading, file: Name) -> Whole | None:
        path = os.path.normpath(os.path.join(os.path.dirname(reading.file), file.text))
        if not self._may_be_read(reading, file, path):
            return None
        real = os.path.realpath(path)
        if real not in self.done:
            self.done[real] = self._read(reading, file.at, path)
        return self.done[real]

    def _may_be_read(self, reading: Reading, file: Name, path: str) -> bool:
        back = self.leads_back(path)
        if back is not None:
            why = "A piece is finished before the structure that it stands in, so no file can hold itself."
            reading.bad(file.at, f"`{file.text}` leads back to itself: {back}.", why, "Name another model.")
        elif self.depth >= DEEPEST:
            reading.bad(
                file.at,
                f"More than {DEEPEST} models stand within each other here.",
                f"Models are read down to {DEEPEST} within each other.",
                "Place some of their parts in this model itself.",
            )
        elif os.path.isdir(path):
            reading.bad(file.at, f"`{file.text}` is a folder.", _WHY, "Write the path of a file.")
        else:
            return True
        return False

    def _read(self, reading: Reading, at: At, path: str) -> Whole | None:
        self.depth += 1
        within = len(self.chain)
        try:
            whole = self.read(path, self)
        except Unreadable as trouble:
            message = f"The model cannot be read: {trouble.message}"
            reading.bad(at, message, _WHY, "Correct the path or that file.")
            return None
        finally:
            self.depth -= 1
            del self.chain[within:]
        self.sources.update(whole.sources)
        self.findings += whole.findings
        return None if whole.findings or whole.model.broken else whole


def _used(entry: Placed, whole: Whole) -> UsedModel:
    assert entry.uses is not None
    sequence = whole.sequence
    return UsedModel(
        path=sequence.path if sequence else whole.model.path,
        model=whole.model,
        sequence_path=sequence.path if sequence else None,
        finished=sequence.finished if sequence else True,
        at=entry.uses.at,
    )


def _rows(names: Names) -> Rows:
    """Return the rows of a piece: ``P.R`` of each row R of its placed part P, of both of twins too."""
    return {f"{part}.{row}": holes for part, rows in names.rows.items() for row, holes in rows.items()}
