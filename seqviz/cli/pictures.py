"""``seqviz pictures``: one picture a step."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from seqviz.cli.opening import opened
from seqviz.cli.output import MISTAKES, NO_MISTAKE, Stop, complain, say
from seqviz.cli.progress import progress

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["HELP", "chosen_steps", "pictures"]

HELP = """Draw a picture of every step of a sequence: what is there, what comes, which holes to fill.

\b
Examples:
  seqviz pictures sequences/practice_tray.yaml
  seqviz pictures sequences/practice_tray.yaml --steps 4-7 --to drawn

The pictures come into pictures/NAME of the sequence, unless --to says else. Older ones of the same name
are replaced when the new ones are complete, not before.
"""

_RANGE = re.compile(r"([0-9]+)(?:\s*-\s*([0-9]+))?")


def pictures(
    file: Annotated[str, typer.Argument(metavar="FILE", help="A sequence.")],
    steps: Annotated[str | None, typer.Option(metavar="STEPS", help="Only these: 4, 4-7, or 1,4-7.")] = None,
    to: Annotated[Path | None, typer.Option(metavar="FOLDER", help="Where the pictures go.")] = None,
) -> int:
    """Draw the pictures; return the exit code."""
    made = opened(file)
    if made.sequence is None or made.replay is None:
        raise Stop(f"{file} has no steps to draw. Give the path of a sequence: it names its model.")
    wanted = None if steps is None else chosen_steps(steps, len(made.replay.states))
    folder = to or Path("pictures") / Path(file).stem
    # Where nothing has dimensions there is nothing that this machine would have to be able to draw.
    located = any(part.located for part in made.assembly.placed.values())
    drawn = _draw(made, folder, wanted) if located else []
    for path in drawn:
        say(f"{path}\n")
    say("".join(_only_words(made, wanted)))
    return _errors_beside(made, file)


def chosen_steps(text: str, last: int) -> list[int]:
    """Return the step numbers that ``text`` names, rising; ``last`` is the last there is.

    Raises
    ------
    Stop
        It names none, or one that is not there.
    """
    found: set[int] = set()
    for piece in text.split(","):
        parsed = _RANGE.fullmatch(piece.strip())
        if parsed is None:
            raise Stop(f"--steps {text}: write numbers and ranges, as 4 or 4-7 or 1,4-7.")
        first, end = int(parsed[1]), int(parsed[2] or parsed[1])
        if not 1 <= first <= end <= last:
            raise Stop(f"--steps {text}: the sequence has the steps 1 to {last}.")
        found.update(range(first, end + 1))
    return sorted(found)


def _draw(made: Build, folder: Path, steps: list[int] | None) -> list[Path]:
    """Draw the pictures where this machine can draw; return where they are."""
    from seqviz.render.probe import graphics_hint

    hint = graphics_hint()
    if hint is not None:
        raise Stop(hint)
    from seqviz.render.pictures import draw_pictures

    with progress("Drawing") as tell:
        return draw_pictures(made, folder, steps, tell)


def _only_words(made: Build, steps: list[int] | None) -> Iterator[str]:
    """Yield the words of the steps without a picture: nothing that is there then has dimensions."""
    from seqviz.scene.phrases import listed
    from seqviz.scene.step import scene_of_step

    bare: list[str] = []
    for state in made.replay.states if made.replay and made.assembly.unmeasured else ():
        number = state.step.number
        if steps is not None and number not in steps:
            continue
        scene = scene_of_step(made, number)
        if scene.bare:
            told = (scene.words.title, *scene.words.lines, scene.words.holes)
            yield " ".join(line for line in told if line) + "\n"
            bare.append(str(number))
    if bare:
        yield f"No picture of step{'s' * (len(bare) > 1)} {listed(bare)}: nothing there has dimensions yet.\n"


def _errors_beside(made: Build, file: str) -> int:
    """Say how many errors the pictures stand beside; return the exit code."""
    from seqviz.checks.run import run
    from seqviz.checks.wording import counted

    wrong = sum(finding.severity == "error" and finding.known is None for finding in run(made))
    if not wrong:
        return NO_MISTAKE
    complain(f"Do not work from these pictures yet: {counted(wrong, 'error')}. Look: seqviz check {file}")
    return MISTAKES
