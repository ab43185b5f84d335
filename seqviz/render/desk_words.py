"""What is told of a part or a hole that was picked, and how long names are made short."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from seqviz.build import Build
from seqviz.render.desk_state import Picked
from seqviz.scene.lengths import length_text
from seqviz.scene.setting import Setting, settings, settings_text
from seqviz.scene.stack import Shut, drawn_shut
from seqviz.scene.stack_text import hole_text, part_text

__all__ = ["Teller", "shortened"]

_LONGEST = 40
_MOST = 16


@dataclass(frozen=True, kw_only=True, eq=False)
class Teller:
    """Says what is known about a part or a hole of a build."""

    build: Build

    def lines(self, picked: Picked) -> tuple[str, ...]:
        """Return what was picked in words: what it is first, then more about it."""
        told = self._part(picked.part) if picked.stack is None else self._hole(picked.stack)
        most = told if len(told) <= _MOST else [*told[: _MOST - 1], f"and {len(told) - _MOST + 1} lines more"]
        return tuple(shortened(line) for line in most)

    def _hole(self, index: int) -> list[str]:
        stack = self.build.assembly.stacks[index]
        when = settings_text(self._settings, index)
        text = hole_text(stack.holes[0], stack, self._shut, self.build.model.units, when)
        return text.rstrip("\n").split("\n")

    def _part(self, name: str) -> list[str]:
        assembly = self.build.assembly
        first, *others = (
            part_text(name, assembly, self._shut, self.build.model.units).rstrip("\n").split("\n")
        )
        return [first, f"  {self._facts(name)}", *others]

    def _facts(self, name: str) -> str:
        """Return ``no. 3, 0.8 thick, placed in step 2``."""
        part = self.build.assembly.placed[name].part
        thick = {length_text(flat.thickness, self.build.model.units) for flat in part.flats.values()}
        facts = [f"no. {self._numbers[name]}"]
        facts += [f"{next(iter(thick))} thick"] if len(thick) == 1 else []
        step = self.build.replay.placed_at.get(name) if self.build.replay else None
        facts += [f"placed in step {step}" if step else "there from the start"] if step is not None else []
        return ", ".join(facts)

    @cached_property
    def _numbers(self) -> dict[str, int]:
        """Placed part -> its number in the order in which they are placed; the others after them."""
        at = self.build.replay.placed_at if self.build.replay else {}
        names = sorted(self.build.assembly.placed, key=lambda name: at.get(name, len(at) + 10**6))
        return {name: k for k, name in enumerate(names, start=1)}

    @cached_property
    def _shut(self) -> Shut:
        return drawn_shut(self.build.assembly)

    @cached_property
    def _settings(self) -> dict[int, Setting]:
        return settings(self.build.replay)


def shortened(text: str, most: int = 3 * _LONGEST) -> str:
    """Return ``text`` on one line, without anything that is no letter or sign, each word at most so long."""
    head = text[: len(text) - len(text.lstrip(" "))]
    shown = "".join(sign if sign.isprintable() else " " for sign in text)
    words = (word if len(word) <= _LONGEST else f"{word[: _LONGEST - 1]}…" for word in shown.split(" "))
    line = " ".join(words).strip()
    return head + (line if len(line) <= most else f"{line[: most - 1]}…")
