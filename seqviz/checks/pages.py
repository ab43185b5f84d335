"""The user's page of each kind: the docstring of its check's module, as markdown."""

from __future__ import annotations

from importlib import import_module
from inspect import cleandoc
from pathlib import Path

from seqviz.checks import CHECKS
from seqviz.checks.check import Check

__all__ = ["INDEX", "index", "page", "write_pages"]

INDEX = "README.md"

_WEIGHTS = {
    "error": "error: as written it cannot be done, or rivets or a part are lost",
    "warning": "warning: look before you start",
    "note": "note: a rule of thumb",
}


def page(kind: str) -> str:
    """Return what the finding ``kind`` means, why, and the way out, as markdown.

    Raises
    ------
    KeyError
        There is no such kind.
    """
    check = {check.kind: check for check in CHECKS}[kind]
    return f"# {kind}\n\n*{_WEIGHTS[check.severity]}*\n\n{_text(check)}\n"


def index() -> str:
    """Return the list of all kinds with the first sentence of each page, as markdown."""
    lines = [
        f"- [{check.kind}]({check.kind}.md) ({check.severity}): {_text(check).splitlines()[0]}"
        for check in CHECKS
    ]
    return "# Findings\n\nWhat seqviz notices, and what to do about it.\n\n" + "\n".join(lines) + "\n"


def write_pages(folder: str) -> None:
    """Write every page and the list of them into ``folder``."""
    target = Path(folder)
    target.mkdir(parents=True, exist_ok=True)
    (target / INDEX).write_text(index(), encoding="utf-8")
    for check in CHECKS:
        (target / f"{check.kind}.md").write_text(page(check.kind), encoding="utf-8")


def _text(check: Check) -> str:
    module = import_module(f"seqviz.checks.{check.kind.replace('-', '_')}")
    return cleandoc(module.__doc__ or "")
