"""``seqviz stack --hardware``: fasteners by kind, size and length, as text, JSON, or a table in a file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from seqviz.cli.output import Stop, say, style
from seqviz.cli.writing import free_to_write, write_aside

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["HardwareAsked", "say_hardware"]

_PERCENT = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?)\s*%?\s*")
_MOST = 1000.0  # percent


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareAsked:
    """The options, as given: steps, spares, and the file of the table."""

    steps: str | None
    spares: str | None
    csv: str | None
    force: bool
    json: bool


def say_hardware(made: Build, asked: HardwareAsked) -> None:
    """Print what is needed, or write the table and say where it is."""
    from seqviz.report.hardware_document import hardware_as_json
    from seqviz.report.hardware_text import CSV_HEAD, hardware_csv, hardware_text
    from seqviz.scene.hardware_list import SPARES, hardware_of
    from seqviz.scene.mixed_lengths import mixed_lengths

    percent = SPARES if asked.spares is None else _percent(asked.spares)
    wanted = hardware_of(made, _steps(made, asked.steps), percent)
    mixed = mixed_lengths(made.assembly, made.model.units) if asked.steps is None else []
    if asked.csv is not None:
        path = Path(asked.csv)
        free_to_write(path, force=asked.force, marker=CSV_HEAD, option="another name")
        write_aside(path, hardware_csv(wanted))
        say(f"{path}\n")
    elif asked.json:
        say(hardware_as_json(made.model.path, wanted, asked.steps))
    else:
        text = hardware_text(wanted, made.model.units, asked.steps, style())
        say(text + "".join(f"{line}\n" for line in mixed))


def _percent(text: str) -> float:
    found = _PERCENT.fullmatch(text)
    if found is None or float(found[1]) > _MOST:
        raise Stop(f"--spares {text}: write a share, as 10% or 0, up to {_MOST:g}%.")
    return float(found[1])


def _steps(made: Build, text: str | None) -> list[int] | None:
    from seqviz.cli.pictures import chosen_steps

    if text is None:
        return None
    if made.replay is None:
        raise Stop("--steps asks what some steps set, and a model has no steps. Give the path of a sequence.")
    return chosen_steps(text, len(made.replay.states))
