"""``seqviz explain``: what a kind of finding means, with an example that fails and one that passes."""

from __future__ import annotations

import difflib
from typing import Annotated

import typer

from seqviz.cli.output import NO_MISTAKE, Stop, say

__all__ = ["HELP", "explain"]

HELP = """Explain a kind of finding; without a kind, list them all with a line each.

\b
Example:
  seqviz explain layer-missing
"""


def explain(
    kind: Annotated[str | None, typer.Argument(metavar="KIND", help="As printed by check.")] = None,
) -> int:
    """Print the page of ``kind``, or the list; return the exit code."""
    from seqviz.checks import CHECKS
    from seqviz.checks.pages import page

    if kind is None:
        width = max(len(check.kind) for check in CHECKS)
        for check in CHECKS:
            say(f"{check.kind:{width}}  {check.severity:7}  {_first_line(page(check.kind))}\n")
        return NO_MISTAKE
    plain = "-".join(kind.replace("_", " ").replace("-", " ").split()).lower()
    kinds = [check.kind for check in CHECKS]
    if plain not in kinds:
        near = difflib.get_close_matches(plain, kinds, n=1)
        meant = f" Did you mean {near[0]}?" if near else ""
        raise Stop(f"There is no kind of finding called {kind}.{meant} seqviz explain lists them all.")
    say(page(plain).rstrip() + "\n")
    return NO_MISTAKE


def _first_line(text: str) -> str:
    """Return the first line of a page that is neither its heading nor its weight."""
    lines = [line.strip() for line in text.splitlines()]
    return next((line for line in lines if line and not line.startswith(("#", "*"))), "")
