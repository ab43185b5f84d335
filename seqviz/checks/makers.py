"""Who made a part or a hole: the kit, or the builder."""

from __future__ import annotations

from seqviz.assembly.entries import Entry, entries
from seqviz.records.makers import KIT
from seqviz.records.model import Model

__all__ = ["Makers"]


class Makers:
    """Tells of the placed parts of a model, and of the parts within the models that they use."""

    def __init__(self, model: Model) -> None:
        self._model = model
        self._entries = entries(model)
        self._inner: dict[str, Makers] = {}

    def kit(self, name: str) -> bool:
        """Say whether the kit made the placed part, or the part of the hole, ``PLACED.ROW.N``."""
        placed, _, rest = name.partition(".")
        entry = self._entries.get(placed)
        if entry is not None and entry.record.uses is not None:
            return self._within(entry, rest)
        if entry is None:
            return self._maker(placed) == KIT
        return (self._maker(entry.record.part.text) if entry.record.part else self._model.made_by) == KIT

    def kits_part(self, part: str) -> bool:
        """Say whether the kit made the part of that name under ``parts``."""
        return self._maker(part) == KIT

    def _within(self, entry: Entry, rest: str) -> bool:
        used = self._model.uses.get(entry.record.name)
        if used is None:
            return self._model.made_by == KIT
        if not rest:
            return used.model.made_by == KIT
        if entry.record.name not in self._inner:
            self._inner[entry.record.name] = Makers(used.model)
        return self._inner[entry.record.name].kit(rest)

    def _maker(self, part: str) -> str:
        record = self._model.parts.get(part)
        return record.made_by if record else self._model.made_by
