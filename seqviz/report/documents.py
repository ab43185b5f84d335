"""The report as JSON, for programs."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from seqviz.findings import Finding

__all__ = ["FORMAT", "as_json", "findings_as_json", "json_text"]

FORMAT = 1


def as_json(
    model: str | None, sequence: str | None, findings: Sequence[Finding], summary: Mapping[str, Any]
) -> str:
    """Return the JSON of ``seqviz check --json``; ``model`` and ``sequence`` are the files' paths."""
    return json_text(
        {
            "format": FORMAT,
            "model": model,
            "sequence": sequence,
            "findings": [finding.as_dict() for finding in findings],
            "summary": dict(summary),
        }
    )


def findings_as_json(model: str, findings: Sequence[Finding]) -> str:
    """Return the JSON of ``seqviz stack --rules --json``."""
    return json_text(
        {"format": FORMAT, "model": model, "findings": [finding.as_dict() for finding in findings]}
    )


def json_text(document: Any) -> str:
    """Return ``document`` as indented JSON with an end of line; text stays readable."""
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"
