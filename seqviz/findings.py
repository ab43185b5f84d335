"""What seqviz noticed: one finding is one mistake, with its place, its reason and a way out.

A mistake of the user is data, never an exception. Every layer above may make findings; the checks sort
and group them, the report prints them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["At", "Finding", "Related", "Severity"]

Severity = Literal["error", "warning", "note"]

_RANK: dict[str, int] = {"error": 0, "warning": 1, "note": 2}


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class At:
    """A place in a file that a person wrote.

    Attributes
    ----------
    file
        The file, named as reached from the path given on the command line.
    line, column
        Both counted from 1, in characters.
    """

    file: str
    line: int
    column: int

    def as_dict(self) -> dict[str, Any]:
        """Return the form used in JSON."""
        return {"file": self.file, "line": self.line, "column": self.column}

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Related:
    """Another place that belongs to a finding, and what stands there."""

    at: At
    message: str

    def as_dict(self) -> dict[str, Any]:
        """Return the form used in JSON."""
        return {**self.at.as_dict(), "message": self.message}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that seqviz noticed.

    Attributes
    ----------
    kind
        Kebab case, the name of the check's file and of its docs page.
    severity
        ``error``: as written it cannot be done. ``warning``: look before you start. ``note``: rule of thumb.
    message, why, fix
        What is wrong; the rule behind it with its source; what the builder can do. Plain sentences.
    steps, parts, holes
        Step numbers from 1; placed parts; holes as ``PLACED.ROW.N``. Those concerned, in order.
    related
        Other places in the files.
    figure
        The size of the mistake in mm where it has one; ``known`` entries compare with it.
    known
        The reason given in a ``known`` entry that settles this finding.
    """

    kind: str
    severity: Severity
    at: At
    message: str
    why: str
    fix: str
    steps: tuple[int, ...] = ()
    parts: tuple[str, ...] = ()
    holes: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()
    figure: float | None = None
    known: str | None = None

    @property
    def sort_key(self) -> tuple[Any, ...]:
        """Errors first, then by file, line, column and kind."""
        return (_RANK[self.severity], self.at, self.kind, self.message)

    def as_dict(self) -> dict[str, Any]:
        """Return the form used in ``seqviz check --json``."""
        form: dict[str, Any] = {
            "kind": self.kind,
            "severity": self.severity,
            "steps": list(self.steps),
            "parts": list(self.parts),
            "holes": list(self.holes),
            "message": self.message,
            "why": self.why,
            "fix": self.fix,
            "at": self.at.as_dict(),
            "related": [place.as_dict() for place in self.related],
        }
        if self.figure is not None:
            form["figure"] = round(self.figure, 4)
        if self.known is not None:
            form["known"] = self.known
        return form
