"""What is taken for a grip, as JSON: lengths in mm whatever the model is written in."""

from __future__ import annotations

from typing import Any

from seqviz.trade.choice import LengthChoice
from seqviz.trade.choice_reasons import reasons
from seqviz.trade.formed_heads import FormedHead
from seqviz.trade.supply import GripRange

__all__ = ["choice_document"]

_DECIMALS = 4


def choice_document(choice: LengthChoice, units: str) -> dict[str, Any]:
    """Return a choice; ``units`` (``mm`` or ``in``) of the sentences that say why."""
    told: dict[str, Any] = {
        "kind": choice.kind,
        "diameter": _rounded(choice.diameter),
        "verdict": choice.verdict,
        "length": _rounded(choice.length),
        "number": choice.number if choice.verdict == "fits" else "",
        "grips": _grips(choice.taken),
        "below": _grips(choice.below),
        "above": _grips(choice.above),
        "why": list(reasons(choice, units)),
        "source": choice.source,
    }
    if choice.wanted is not None:
        told["wanted"] = _rounded(choice.wanted)
    if choice.target is not None and choice.minimum is not None:
        told["formed_head"] = {"target": _head(choice.target), "minimum": _head(choice.minimum)}
    return told | _bolt(choice)


def _bolt(choice: LengthChoice) -> dict[str, Any]:
    if choice.bolt_grip is None:
        return {}
    return {
        "bolt_grip": _rounded(choice.bolt_grip),
        "washers": [
            {"name": one.name, "thickness": _rounded(one.thickness), "under": "nut"} for one in choice.washers
        ],
        "nut": choice.nut.name if choice.nut else None,
        "threads_in_hole": round(choice.threads_in_hole, 2),
        "threads_showing": None if choice.threads_showing is None else round(choice.threads_showing, 2),
    }


def _grips(one: GripRange | None) -> list[float | None] | None:
    return None if one is None else [_rounded(one.low), _rounded(one.high)]


def _head(head: FormedHead) -> dict[str, float | None]:
    return {"width": _rounded(head.width), "height": _rounded(head.height)}


def _rounded(millimetres: float | None) -> float | None:
    return None if millimetres is None else round(millimetres, _DECIMALS) + 0.0
