"""The last lines of a report: how much there is, and what was found."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from seqviz.checks.wording import counted, listed

__all__ = ["totals"]


def totals(summary: Mapping[str, Any]) -> list[str]:
    """Return the lines that close a report, from the ``summary`` of ``seqviz check --json``."""
    size = [counted(summary["placed"], "part")]
    if summary["steps"]:
        size += [counted(summary["fasteners"], "fastener"), counted(summary["steps"], "step")]
    else:
        size.append(counted(summary["holes"], "hole"))
    found = [counted(summary[f"{word}s"], word) for word in ("error", "warning", "note")]
    found = [text for text in found if not text.startswith("0 ")] or ["nothing found"]
    line = f"{', '.join(size)}: {', '.join(found)}."
    if summary["known"]:
        line += f" {summary['known']} known."
    return [line, *_not_there_yet(summary.get("open") or {}), *_not_checked(summary.get("not_checked") or {})]


def _not_there_yet(still_open: Mapping[str, int]) -> list[str]:
    """Return the one line for a sequence that is not finished."""
    parts, holes = still_open.get("parts", 0), still_open.get("holes", 0)
    left = [counted(number, word) for number, word in ((parts, "part"), (holes, "hole")) if number]
    return [f"Not there yet: {', '.join(left)}."] if left else []


def _not_checked(left_out: Mapping[str, Any]) -> list[str]:
    """Return the one line for parts of which only the lay-up is known."""
    if not left_out:
        return []
    names = listed(left_out["parts"])
    return [f"Not checked: {left_out['why']} of {names}. Fits, gaps, room for tools and ways in are open."]
