"""What has become of the files after they were saved: a build to show, or what is wrong with them."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from seqviz.cli.watching import files_of

if TYPE_CHECKING:
    from seqviz.build import Build
    from seqviz.findings import Finding

__all__ = ["Reread", "errors_text", "reread", "reread_of"]

_MOST = 3
_READING = frozenset(
    ("bad-value", "duplicate-name", "missing-word", "unknown-name", "unknown-word", "value-lost")
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reread:
    """What was found in the files.

    Attributes
    ----------
    build
        None where nothing could be computed at all.
    slips
        What is wrong in the files as they are written, a line each, the first few; none: nothing.
    files
        Those to watch from now on.
    """

    build: Build | None
    slips: tuple[str, ...]
    files: tuple[str, ...]


def reread(file: str) -> Reread:
    """Read the file and all that it names again; never an exception, whatever stands in them."""
    from seqviz.build import build
    from seqviz.records.source import Unreadable

    try:
        return reread_of(build(file))
    except Unreadable as reason:
        return Reread(build=None, slips=(str(reason),), files=())
    except Exception as bug:
        told = f"seqviz itself has failed over these files ({type(bug).__name__}). Look: seqviz check {file}"
        return Reread(build=None, slips=(told,), files=())


def reread_of(made: Build) -> Reread:
    """Return what was found in the files of a build."""
    from seqviz.checks.known import settle

    wrong = [
        finding
        for finding in settle(made, made.noticed)
        if finding.severity == "error" and finding.known is None and finding.kind in _READING
    ]
    files = files_of(made)
    if wrong:
        # A file that is named and not there is put into a folder some time.
        files += sorted({os.path.dirname(file) or "." for file in files})
    return Reread(build=made, slips=tuple(_lines(wrong)), files=tuple(files))


def errors_text(findings: Iterable[Finding], file: str) -> str:
    """Return how many errors there are and where they are told; nothing where there are none."""
    from seqviz.scene.phrases import counted

    wrong = sum(finding.severity == "error" and finding.known is None for finding in findings)
    return f"Do not work from this yet: {counted(wrong, 'error')}. Look: seqviz check {file}" if wrong else ""


def _lines(wrong: Sequence[Finding]) -> list[str]:
    lines = [f"{one.at.file}:{one.at.line}: {one.message} {one.fix}" for one in sorted(wrong, key=_place)]
    return lines if len(lines) <= _MOST else [*lines[:_MOST], f"And {len(lines) - _MOST} more."]


def _place(finding: Finding) -> tuple[Any, ...]:
    return (finding.at, finding.sort_key)
