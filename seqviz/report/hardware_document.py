"""What to lay out or to order, as JSON: lengths in mm whatever the model is written in."""

from __future__ import annotations

from typing import Any

from seqviz.report.documents import FORMAT, json_text
from seqviz.scene.hardware_list import HardwareList, HardwareRow

__all__ = ["hardware_as_json"]


def hardware_as_json(model: str, wanted: HardwareList, steps: str | None = None) -> str:
    """Return the JSON of ``seqviz stack --hardware --json``."""
    return json_text(
        {
            "format": FORMAT,
            "model": model,
            "units": "mm",
            "steps": steps,
            "hardware": [_row(row) for row in wanted.rows],
            "fasteners": wanted.fasteners,
            "unset": wanted.unset,
            "again": wanted.again,
            "later": wanted.later,
            "inside": [{"file": one.path, "placed": list(one.placed)} for one in wanted.inside],
            "spares": wanted.percent,
        }
    )


def _row(row: HardwareRow) -> dict[str, Any]:
    return {
        "kind": row.kind,
        "fastener": row.name,
        "take": row.take,
        "diameter": _rounded(row.diameter),
        "length": None if row.length is None else _rounded(row.length),
        "grips": [_rounded(grip) for grip in row.grips],
        "needed": row.needed,
        "spare": row.spare,
        "why": row.why,
    }


def _rounded(millimetres: float) -> float:
    return round(millimetres, 4) + 0.0
