"""The pile as JSON, for programs: lengths in mm and weights in g, whatever the model is written in."""

from __future__ import annotations

from typing import Any

from seqviz.report.documents import FORMAT, json_text
from seqviz.scene.pile import Piece, Pile

__all__ = ["pile_as_json"]


def pile_as_json(model: str, pile: Pile) -> str:
    """Return the JSON of ``seqviz stack --parts --json``."""
    return json_text(
        {
            "format": FORMAT,
            "model": model,
            "units": {"length": "mm", "weight": "g"},
            "parts": [_piece(piece) for piece in pile.pieces],
            "alike": list(pile.alike),
            "weight": _rounded(pile.weight),
            "unweighed": list(pile.unweighed),
        }
    )


def _piece(piece: Piece) -> dict[str, Any]:
    return {
        "name": piece.name,
        "shape": piece.shape,
        "needed": len(piece.placed),
        "placed": list(piece.placed),
        "other hand": piece.other_hand,
        "size": None if piece.size is None else [_rounded(value) for value in piece.size],
        "flat": None if piece.flat is None else [_rounded(value) for value in piece.flat],
        "thickness": None if piece.thickness is None else _rounded(piece.thickness),
        "material": piece.material,
        "weight": None if piece.weight is None else _rounded(piece.weight),
        "density": None if piece.density is None else piece.density.value,
        "density source": None if piece.density is None else piece.density.source,
        "holes": piece.holes,
        "rows": [
            {
                "row": row.name,
                "holes": row.count,
                "sizes": [
                    {"diameter": diameter, "numbers": list(numbers)} for diameter, numbers in row.sizes
                ],
            }
            for row in piece.rows
        ],
        "odd": list(piece.odd),
        "how to tell": piece.how_to_tell,
        "number": piece.number,
        "drawing": piece.drawing,
    }


def _rounded(value: float) -> float:
    return round(value, 3) + 0.0
