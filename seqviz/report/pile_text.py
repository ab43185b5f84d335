"""The pile as text: a table of all pieces, what tells each of them, and which look alike."""

from __future__ import annotations

from seqviz.report.style import PLAIN, Style, columns, harmless, wrapped
from seqviz.scene.lengths import length_text, sizes_text, weight_text
from seqviz.scene.phrases import counted, listed, runs, sentence
from seqviz.scene.pile import Piece, Pile, PileRow

__all__ = ["pile_text"]

_HEADS = ("part", "needed", "size", "flat", "sheet", "weight", "holes")


def pile_text(pile: Pile, units: str, style: Style = PLAIN) -> str:
    """Return the whole text of ``seqviz stack --parts``; ``units`` of the model: ``mm`` or ``in``."""
    if not pile.pieces:
        return "No parts.\n"
    blocks = ["\n".join(_table(pile, units)), *(_block(piece, units, style) for piece in pile.pieces)]
    if pile.alike:
        told = [line for words in pile.alike for line in wrapped("  ", words, style.width)]
        blocks.append("\n".join(["Easily taken for each other:", *told]))
    blocks.append("\n".join(wrapped("", _totals(pile, units), style.width)))
    return "\n\n".join(block for block in blocks if block) + "\n"


def _table(pile: Pile, units: str) -> list[str]:
    cells = [_HEADS, *(_cells(piece, units) for piece in pile.pieces)]
    wide = [max(columns(row[k]) for row in cells) for k in range(len(_HEADS))]
    return [
        "  ".join(
            cell + " " * (width - columns(cell)) for cell, width in zip(row, wide, strict=True)
        ).rstrip()
        for row in cells
    ]


def _cells(piece: Piece, units: str) -> tuple[str, ...]:
    return (
        harmless(piece.name),
        str(len(piece.placed)),
        sizes_text(piece.size, units) or "not known",
        sizes_text(piece.flat, units),
        "" if piece.thickness is None else length_text(piece.thickness, units),
        "" if piece.weight is None else weight_text(piece.weight, units),
        str(piece.holes),
    )


def _block(piece: Piece, units: str, style: Style) -> str:
    """Return what tells one piece, nothing where there is nothing but its name."""
    head = [piece.shape, "other hand" if piece.other_hand else "", piece.material or ""]
    if piece.number:
        head.append(f"number {piece.number}")
    if piece.drawing:
        head.append(f"drawing {piece.drawing}")
    out = wrapped("", f"{piece.name}: {', '.join(word for word in head if word)}", style.width)
    if piece.placed and piece.placed != (piece.name,):
        out += wrapped("  ", sentence(f"goes in as {listed(piece.placed)}"), style.width)
    if piece.rows:
        out += wrapped("  ", sentence("; ".join(_row_words(row, units) for row in piece.rows)), style.width)
    for words in piece.odd:
        out += wrapped("  ", words, style.width)
    if piece.how_to_tell:
        out += wrapped("  How to tell: ", sentence(piece.how_to_tell), style.width)
    return "\n".join(out)


def _row_words(row: PileRow, units: str) -> str:
    """Return ``foot: 29 holes of 3.3, but 5-8 of 4.1``."""
    (usual, _), *others = row.sizes
    words = f"row {row.name}: {counted(row.count, 'hole')} of {length_text(usual, units)}"
    exceptions = [
        f"{runs(sorted(numbers))} of {length_text(diameter, units)}" for diameter, numbers in others
    ]
    return f"{words}, but {listed(exceptions)}" if exceptions else words


def _totals(pile: Pile, units: str) -> str:
    needed = sum(len(piece.placed) for piece in pile.pieces)
    words = f"{counted(needed, 'piece')} of {counted(len(pile.pieces), 'kind')}"
    words += f", {weight_text(pile.weight, units)} in all without fasteners." if pile.weight else "."
    if any(piece.placed and piece.weight is not None and piece.material is None for piece in pile.pieces):
        words += " Where no material is named, aluminium of 2.70 g/cm3 is assumed."
    if pile.unweighed:
        words += f" Not weighed: {listed(pile.unweighed)}."
    waiting = [piece.name for piece in pile.pieces if not piece.placed]
    if waiting:
        words += f" Not placed yet: {listed(waiting)}."
    return words + (" Lengths in mm." if units == "mm" else "")
