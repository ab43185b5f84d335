"""``seqviz new``: a few plain questions, and a model and a sequence to begin with."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from seqviz.cli.output import NO_MISTAKE, Stop, say

if TYPE_CHECKING:
    from seqviz.report.starter import Start

__all__ = ["HELP", "new"]

HELP = """Begin a structure: asks a few questions, and writes a model and a sequence with comments.

Both give an answer at once when they are checked. Enter takes what stands in brackets. Nothing is ever
written over a file that is there.

\b
Example:
  seqviz new shelf.yaml
"""

T = TypeVar("T")
_MOST_RAILS = 50


def new(
    file: Annotated[
        str | None,
        typer.Argument(
            metavar="[FILE]",
            help="The model's file; the sequence is called the same with _steps. Left out: from the name.",
        ),
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Ask nothing, take what is usual.")] = False,
) -> int:
    """Ask, write both files, say what to do with them; return the exit code."""
    from seqviz.report.starter import model_text, sequence_text, usual

    if file is not None:
        _free(_paths(file))
    start = usual("mm") if yes else _asked()
    paths = _paths(file or f"{_file_name(start.name)}.yaml")
    _free(paths)
    model, sequence = paths
    for path, text in ((model, model_text(start)), (sequence, sequence_text(start, model.name))):
        with path.open("x", encoding="utf-8") as written:
            written.write(text)
    say(f"Wrote {model} and {sequence}. Now try:\n")
    say("".join(f"  seqviz {command} {_quoted(sequence)}\n" for command in ("check", "stack")))
    return NO_MISTAKE


def _paths(file: str) -> tuple[Path, Path]:
    """Return the paths of model and sequence."""
    model = Path(file)
    if model.suffix.lower() not in (".yaml", ".yml"):
        model = model.with_name(f"{model.name}.yaml")
    return model, model.with_name(f"{model.stem}_steps{model.suffix}")


def _free(paths: tuple[Path, Path]) -> None:
    """Stop where a file is there already, or its folder is not."""
    for path in paths:
        if path.exists() or path.is_symlink():
            raise Stop(f"{path} is there already; nothing was written. Give another name: seqviz new FILE.")
    if not paths[0].parent.is_dir():
        raise Stop(f"{paths[0].parent}: no such folder. Make it first, or give another path.")


def _file_name(name: str) -> str:
    return re.sub(r"\W+", "_", name.lower()).strip("_") or "structure"


def _quoted(path: Path) -> str:
    return f'"{path}"' if " " in str(path) else str(path)


def _asked() -> Start:
    """Return the answers; what does not go together is asked again."""
    from seqviz.report.starter import start_mistake, usual

    say("Enter takes what stands in brackets. Lengths may name their unit: 24 in, 600 mm.\n")
    name = _ask("What is it called?", usual("mm").name, _text)
    units = _ask("Which unit do plain numbers have, mm or in?", "mm", _unit)
    start = replace(usual(units), name=name)
    while True:
        start = _measured(start)
        trouble = start_mistake(start)
        if trouble is None:
            return start
        say(f"{trouble} Once more, please.\n")


def _measured(start: Start) -> Start:
    def size(question: str, usual: float) -> float:
        return _ask(question, f"{usual / _mm(start.units):.4g}", lambda text: _length(text, start.units))

    length = size("How long is the sheet that everything lies on, from aft to forward?", start.length)
    width = size("How wide is it?", start.width)
    thickness = size("How thick is it?", start.thickness)
    rails = _ask("How many rails (angles) lie on it, side by side?", str(start.rails), _count)
    rail_thickness = size("How thick are the rails?", start.rail_thickness)
    leg = size("How wide are their legs?", start.leg)
    rivet = _ask("Which rivets hold them?", start.rivet, _rivet)
    hole = size("How wide are the holes?", start.hole)
    pitch = size("How far is it from rivet to rivet, about?", start.pitch)
    return replace(
        start,
        length=length,
        width=width,
        thickness=thickness,
        rails=rails,
        rail_thickness=rail_thickness,
        leg=leg,
        rivet=rivet,
        hole=hole,
        pitch=pitch,
    )


def _ask(question: str, usual: str, read: Callable[[str], T | Stop]) -> T:
    """Ask until the answer can be read; an empty one takes what is usual."""
    while True:
        say(f"{question} [{usual}] ")
        line = sys.stdin.readline()
        if not line:
            say("\n")
            raise Stop("The answers ended too early; nothing was written. seqviz new --yes asks nothing.")
        value = read(line.strip() or usual)
        if not isinstance(value, Stop):
            return value
        say(f"{value}\n")


def _text(text: str) -> str | Stop:
    return text if text.isprintable() else Stop("Please write it in letters.")


def _unit(text: str) -> str | Stop:
    known = {"mm": "mm", "in": "in", "inch": "in", "inches": "in", '"': "in"}
    return known.get(text.lower()) or Stop("Please write mm or in.")


def _count(text: str) -> int | Stop:
    if text.isdecimal() and 1 <= int(text) <= _MOST_RAILS:
        return int(text)
    return Stop(f"Please write a number from 1 to {_MOST_RAILS}.")


def _length(text: str, units: str) -> float | Stop:
    from seqviz.units import Slip, length

    value = length(text, units)
    if isinstance(value, Slip):
        return Stop(f"{value.message} {value.fix}")
    return value if 0.1 <= value <= 50_000 else Stop("Please write a length from 0.1 mm to 50 m.")


def _rivet(text: str) -> str | Stop:
    from seqviz.trade.fasteners import parse_fastener

    known = parse_fastener(text)
    if known is None or known.kind == "bolt":
        return Stop("Please write kind and size, such as blind rivet 3.2, or solid rivet 1/8.")
    return " ".join(text.split())


def _mm(units: str) -> float:
    from seqviz.units import UNITS

    return UNITS[units]
