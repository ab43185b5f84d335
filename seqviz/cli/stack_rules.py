"""``seqviz stack --rules``: which rules of edges, pitch, bends and rivets are not kept, a kit's parts too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seqviz.cli.chosen import chosen as named
from seqviz.cli.output import say, style

if TYPE_CHECKING:
    from collections.abc import Iterable

    from seqviz.build import Build
    from seqviz.findings import Finding
    from seqviz.scene.choice import Choice

__all__ = ["say_rules"]


def say_rules(made: Build, names: list[str] | None, *, json: bool) -> None:
    """Print the broken rules of the whole, or those at the parts, rows and holes of ``names``."""
    from seqviz.checks.run import broken_rules
    from seqviz.report.documents import findings_as_json
    from seqviz.report.text import as_blocks

    found = broken_rules(made)
    if names:
        found = _at(made, found, named(made.assembly, names))
    if json:
        say(findings_as_json(made.model.path, found))
        return
    lines = {name: source.lines for name, source in made.sources.items()}
    blocks = as_blocks(found, lines, style())
    say(f"{blocks}\n{_last_line(found)}" if blocks else _last_line(found))


def _at(made: Build, found: Iterable[Finding], chosen: Choice) -> tuple[Finding, ...]:
    """Return those that are about a part, or at a hole stack, that was chosen."""
    stack_of = made.assembly.stack_of
    stacks = {*chosen.rows, *(stack_of[name] for name in chosen.holes)}
    return tuple(
        finding
        for finding in found
        if not set(chosen.parts).isdisjoint(finding.parts)
        or not stacks.isdisjoint(stack_of[hole] for hole in finding.holes if hole in stack_of)
    )


def _last_line(found: Iterable[Finding]) -> str:
    from seqviz.checks.wording import counted

    open_ones = [finding for finding in found if finding.known is None]
    if not open_ones:
        return "No rule of edges, pitch, bends and rivets for sheets is broken.\n"
    return f"{counted(len(open_ones), 'rule')} not kept. On parts of a kit the maker's drawing governs.\n"
