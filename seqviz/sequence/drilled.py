"""Which holes a drill must make, and which it has made so far."""

from __future__ import annotations

from collections.abc import Mapping

from seqviz.assembly.structure import Assembly, Layer
from seqviz.parts.part import Hole

__all__ = ["Holes"]


class Holes:
    """The holes of the placed parts as the drill finds and leaves them.

    ``comes``: stack -> part -> the steps that drill the stack's final hole through it.
    """

    def __init__(self, assembly: Assembly, comes: Mapping[int, Mapping[str, tuple[int, ...]]]) -> None:
        self._punched = {
            f"{placed.name}.{hole.name}": hole.punched and hole.pilot is None
            for placed in assembly.placed.values()
            for hole in placed.holes
        }
        self._piloted = _piloted(assembly)
        self._comes = comes
        self._made: set[tuple[int, str]] = set()
        self._begun: set[tuple[int, str]] = set()

    @property
    def comes(self) -> Mapping[int, Mapping[str, tuple[int, ...]]]:
        """Stack -> part -> the steps that drill it."""
        return self._comes

    def drill(self, stack: int, part: str, *, final: bool) -> None:
        """Drill through one part; a pilot is no hole for a fastener, but a pin holds in it."""
        (self._made if final else self._begun).add((stack, part))

    def made(self, stack: int, layer: Layer) -> bool:
        """Say whether a fastener goes through the layer now."""
        if layer.hole is not None and self._punched[layer.hole]:
            return True
        return (stack, layer.part) in self._made

    def open(self, stack: int, layer: Layer) -> bool:
        """Say whether there is a hole, of whatever size, through the layer now."""
        begun = (stack, layer.part) in self._begun or layer.hole in self._piloted
        return begun or self.made(stack, layer)

    def to_be_drilled(self, stack: int, layer: Layer) -> bool:
        """Say whether the drill still has to make the layer's hole.

        A part that is solid there, and that no step drills, is told by the geometry.
        """
        if self.made(stack, layer):
            return False
        return layer.hole is not None or layer.part in self._comes.get(stack, {})

    def next_drilled(self, stack: int, part: str, step: int) -> int | None:
        """Return the first step after ``step`` that drills it."""
        return next((one for one in self._comes.get(stack, {}).get(part, ()) if one > step), None)


def _piloted(assembly: Assembly) -> frozenset[str]:
    def has_pilot(hole: Hole) -> bool:
        return hole.pilot is not None and hole.punched

    return frozenset(
        f"{placed.name}.{hole.name}"
        for placed in assembly.placed.values()
        for hole in placed.holes
        if has_pilot(hole)
    )
