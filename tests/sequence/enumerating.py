"""Enumerate orders and ask the replay which are clean; one set of tables serves all orders of a structure."""

from __future__ import annotations

from collections.abc import Sequence as Listed

from seqviz.assembly.structure import Assembly
from seqviz.records.steps import Action, Tool
from seqviz.sequence.replay import replay_on
from seqviz.sequence.replay_types import Replay
from seqviz.sequence.structure_tables import StructureTables
from seqviz.sequence.tables import Way
from tests.sequence.by_hand import Box, model, order, piece, place, structure


class Straight(StructureTables):
    """Tables of a world in which every way is one straight move, as the counted orders assume."""

    def two_moves(self, parts: tuple[str, ...], among: frozenset[str]) -> tuple[Way, ...]:
        del parts, among
        return ()


class Asking:
    """The replay of one structure in many orders; ways are single straight moves."""

    def __init__(self, assembly: Assembly, bench: str = "flat", tools: tuple[Tool, ...] = ()) -> None:
        self._assembly = assembly
        self._bench = bench
        self._tools = tools
        self._orders = {frozenset[str](): 1}
        self._model = model(*assembly.placed)
        self.tables = Straight(self._model, assembly, order(tools=tools))

    def replay(self, actions: Listed[Action]) -> Replay:
        sequence = order(*actions, bench=self._bench, tools=self._tools)
        played, findings = replay_on(self.tables, self._model, self._assembly, sequence)
        assert findings == []
        return played

    def is_clean(self, actions: Listed[Action]) -> bool:
        told = self.replay(actions)
        return not (told.too_early or told.tool_stopped or told.no_way or told.head_under or told.filled_open)

    def clean_orders(self, actions: Listed[Action], begun: tuple[Action, ...] = ()) -> int:
        """Count the orders without a trouble; a trouble at a step stays one whatever follows it."""
        if begun and not self.is_clean(begun):
            return 0
        if not actions:
            return 1
        rests = [(one, [*actions[:k], *actions[k + 1 :]]) for k, one in enumerate(actions)]
        return sum(self.clean_orders(rest, (*begun, one)) for one, rest in rests)

    def orders_by_the_last(self, parts: frozenset[str]) -> int:
        """Count the clean orders of placing ``parts`` by the one that comes last.

        Each part that can come last is asked of a replay in which the others are there already; whether it
        can does not depend on the order in which they came.
        """
        if parts not in self._orders:
            lasts = [last for last in sorted(parts) if self._comes(last, parts - {last})]
            self._orders[parts] = sum(self.orders_by_the_last(parts - {last}) for last in lasts)
        return self._orders[parts]

    def _comes(self, last: str, before: frozenset[str]) -> bool:
        told = self.replay([*([place(*sorted(before))] if before else []), place(last)])
        return all(trouble.part != last for trouble in told.no_way)


def well(x: float, y: float, z: float, floor: bool = True) -> list[Box]:
    """Walls 10 mm thick around 0 <= x, y up to the height ``z``; the floor's upper face is z = 0."""
    walls: list[Box] = [
        ((-10, -10, 0), (0, y + 10, z)),
        ((x, -10, 0), (x + 10, y + 10, z)),
        ((0, -10, 0), (x, 0, z)),
        ((0, y, 0), (x, y + 10, z)),
    ]
    return [((-10, -10, -5), (x + 10, y + 10, 0)), *walls] if floor else walls


def brick(x0: float, x1: float, level: int, y0: float = 0, y1: float = 10) -> Box:
    """A brick 10 mm high on a level of a pile."""
    return ((x0, y0, 10.0 * level), (x1, y1, 10.0 * level + 10))


def in_a_well(size: tuple[float, float, float], parts: dict[str, list[Box]]) -> Assembly:
    """Return parts in a well from which the only way out is up; the well is the base."""
    return structure(piece("well", well(*size)), *(piece(name, boxes) for name, boxes in parts.items()))
