"""What a check is: a kind, how much it weighs, and the function that finds it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from seqviz.build import Build
from seqviz.findings import Finding, Severity

__all__ = ["Check", "Find"]

Find = Callable[[Build], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class Check:
    """One kind of finding.

    Attributes
    ----------
    kind
        Kebab case; its module has the same name with underscores.
    severity
        What it weighs as a rule; a single finding may weigh less where its page says so.
    find
        Yields the findings of this kind, equal ones put together, what is ``known`` not yet applied.
    """

    kind: str
    severity: Severity
    find: Find
