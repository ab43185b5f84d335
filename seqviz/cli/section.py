"""``seqviz stack --section``: sections through hole stacks as files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from seqviz.cli.chosen import chosen
from seqviz.cli.output import Stop, say
from seqviz.cli.writing import free_to_write, write_aside

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["write_section"]

_OURS = "<title>Section through "
_LONGEST = 80  # letters of a file's name


def write_section(made: Build, name: str, out: str | None, *, force: bool) -> None:
    """Draw the section through the hole called ``name``, of a row one of each sort, and say where it is."""
    from seqviz.drawing.section import section_of
    from seqviz.drawing.section_svg import section_svg

    paths = _paths(_holes(made, name), out)
    for path in paths:
        free_to_write(path, force=force, marker=_OURS)
    for path, hole in paths.items():
        write_aside(path, section_svg(section_of(made, made.assembly.stack_of[hole]), standalone=True))
        say(f"{path}\n")


def _holes(made: Build, name: str) -> list[str]:
    """Return the holes to draw: those named, and of a row the first of each that looks different."""
    from seqviz.drawing.section import section_of

    assembly = made.assembly
    found = chosen(assembly, [name])
    if found.parts:
        raise Stop(
            f"{name} is a part. --section goes through a hole or the holes of a row: PART.ROW.N or PART.ROW."
        )
    if found.holes:
        return list(found.holes)
    first = {section_of(made, index): index for index in reversed(found.rows)}
    return [assembly.stacks[index].holes[0] for index in sorted(first.values())]


def _paths(holes: list[str], out: str | None) -> dict[Path, str]:
    if out is None:
        return {Path(_file_name(hole)): hole for hole in holes}
    if len(holes) > 1:
        more = f" and {len(holes) - 3} more" if len(holes) > 3 else ""
        raise Stop(
            f"These are {len(holes)} drawings. With --out say which: {', '.join(holes[:3])}{more}; "
            "without it each gets a file of its own."
        )
    path = Path(out)
    if path.suffix.lower() != ".svg":
        raise Stop(f"--out {out}: the name of the file ends in .svg.")
    return {path: holes[0]}


def _file_name(hole: str) -> str:
    """Return the name of the file; of a very long name its end counts, which holds row and number."""
    plain = "".join(sign if sign.isprintable() and sign not in '/\\:*?"<>|' else " " for sign in hole)
    return f"{plain[-_LONGEST:].strip()} section.svg"
