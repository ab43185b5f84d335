"""``seqviz stack``: the layers at holes, and what sits on what."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

import typer

from seqviz.cli.asked import asked_as
from seqviz.cli.chosen import chosen as named
from seqviz.cli.flat import write_flat
from seqviz.cli.hardware import HardwareAsked, say_hardware
from seqviz.cli.opening import opened
from seqviz.cli.output import MISTAKES, NO_MISTAKE, Stop, complain, say, style
from seqviz.cli.section import write_section
from seqviz.cli.stack_rules import say_rules

if TYPE_CHECKING:
    from collections.abc import Iterable

    from seqviz.assembly.structure import Stack
    from seqviz.build import Build
    from seqviz.scene.choice import Choice
    from seqviz.scene.stack import Shut

__all__ = ["HELP", "stack"]

HELP = """Tell what lies at every hole: layers from the manufactured head down, grip, fastener.

Without a name it tells of all rows, equal holes in one line. With the name of a placed part it tells what
the part sits on, what sits on it, and its rows; with a hole or a row, its layers. Of a sequence a hole, and
every line of --holes, also tells in which step it is set, and with which of your tools.

--parts tells how to know each piece in the pile: size, weight, holes, the odd hole, look-alikes. --flat
draws the flat pattern of a part to its true size, with bend lines; PART flat.svg where --out says no name.
--section draws the cut through a hole: layers, grip, the fastener with both ends; HOLE section.svg likewise.

--hardware adds up what to lay out or to order: fasteners by kind, size and length with spares, and the
washers and nuts of bolts; of the whole, or of --steps 4-9; --csv writes it as a table. --why tells at length
why a length was chosen, and where each figure comes from.

--rules tells where rules of edge distance, pitch, bend radius and rivets for sheets are not kept, on parts of
a kit too; of the whole, or of the parts, rows and holes named.

\b
Examples:
  seqviz stack models/practice_tray.yaml
  seqviz stack models/practice_tray.yaml "side angle left" "side angle left.foot.3"
  seqviz stack models/practice_tray.yaml --parts
  seqviz stack sequences/practice_tray.yaml --hardware --steps 4-9
  seqviz stack models/practice_tray.yaml --flat "end angle" --out end_angle.svg
  seqviz stack sequences/practice_tray.yaml --section "side angle left.foot.3"
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The argument and options of the command, as their help says."""

    file: Annotated[str, typer.Argument(metavar="FILE", help="A sequence (it names its model), or a model.")]
    names: Annotated[
        list[str] | None,
        typer.Argument(metavar="NAME", help="Placed parts, PART.ROW, PART.ROW.N or PART.ROW.N-M."),
    ] = None
    holes: Annotated[bool, typer.Option("--holes", help="One line a hole instead of a line a group.")] = False
    parts: Annotated[
        bool, typer.Option("--parts", help="The pieces in the pile: size, weight, holes, look-alikes.")
    ] = False
    flat: Annotated[
        str | None, typer.Option("--flat", metavar="PART", help="Draw the flat pattern of PART, or of all.")
    ] = None
    section: Annotated[
        str | None,
        typer.Option("--section", metavar="HOLE", help="Draw the section through PART.ROW.N, or a row's."),
    ] = None
    out: Annotated[
        str | None,
        typer.Option(
            "--out",
            metavar="FILE",
            help="Where --flat and --section write: FILE.svg or FILE.dxf; of all a folder.",
        ),
    ] = None
    hardware: Annotated[
        bool, typer.Option("--hardware", help="Add up fasteners, washers and nuts, with spares.")
    ] = False
    steps: Annotated[
        str | None,
        typer.Option("--steps", metavar="STEPS", help="With --hardware: only these, 4, 4-9, or 1,4-9."),
    ] = None
    spares: Annotated[
        str | None,
        typer.Option(
            "--spares",
            metavar="SHARE",
            help="With --hardware: spares of each sort, rounded up, at least 2; 10% if not said, 0: none.",
        ),
    ] = None
    csv: Annotated[
        str | None,
        typer.Option("--csv", metavar="FILE", help="With --hardware: write a table for a spreadsheet."),
    ] = None
    rules: Annotated[
        bool, typer.Option("--rules", help="The rules of edges, pitch, bends and rivets that are not kept.")
    ] = False
    why: Annotated[bool, typer.Option("--why", help="Tell why each length, with the sources.")] = False
    force: Annotated[bool, typer.Option("--force", help="--flat, --section, --csv may write over files.")] = (
        False
    )
    json: Annotated[bool, typer.Option("--json", help="Everything as JSON, for programs.")] = False


@asked_as(Asked)
def stack(asked: Asked) -> int:
    """Print the stacks of the file; return the exit code."""
    _goes_together(asked)
    made = opened(asked.file)
    if asked.flat is not None:
        write_flat(made, asked.flat, asked.out, force=asked.force)
    elif asked.section is not None:
        write_section(made, asked.section, asked.out, force=asked.force)
    elif asked.rules:
        say_rules(made, asked.names, json=asked.json)
    elif asked.parts:
        say(_pile(made, json=asked.json))
    elif asked.hardware:
        say_hardware(
            made,
            HardwareAsked(
                steps=asked.steps, spares=asked.spares, csv=asked.csv, force=asked.force, json=asked.json
            ),
        )
    else:
        _say_stacks(made, asked)
    return _left_out(made, asked.file)


def _say_stacks(made: Build, asked: Asked) -> None:
    chosen = named(made.assembly, asked.names) if asked.names else None
    if asked.json:
        say(_document(made, chosen))
    elif chosen is None:
        say(_whole(made, asked))
    else:
        say(_details(made, chosen, asked))


def _goes_together(asked: Asked) -> None:
    """Stop where options were given that say nothing together."""
    drawn = {"--flat": asked.flat, "--section": asked.section}
    drawings = [word for word, name in drawn.items() if name is not None]
    lists = {"--parts": asked.parts, "--hardware": asked.hardware}
    whole = [*drawings, *(word for word, so in lists.items() if so)]
    if len(whole) > 1:
        raise Stop(f"{' and '.join(whole[:2])} are two questions: ask them one after the other.")
    if whole and (asked.names or asked.holes or asked.why):
        raise Stop(
            f"{whole[0]} goes with FILE alone: names of parts, --holes and --why are for the layers at holes."
        )
    if asked.rules and (whole or asked.holes or asked.why):
        other = whole[0] if whole else "--holes" if asked.holes else "--why"
        raise Stop(f"--rules and {other} are two questions: ask them one after the other.")
    if drawings and asked.json:
        raise Stop(f"{drawings[0]} writes a drawing; --json goes with --parts and with the layers at holes.")
    if not drawings and (asked.out is not None or (asked.force and asked.csv is None)):
        raise Stop("--out and --force go with --flat PART and with --section HOLE.")
    _goes_with_hardware(asked)


def _goes_with_hardware(asked: Asked) -> None:
    own = {"--steps": asked.steps, "--spares": asked.spares, "--csv": asked.csv}
    given = [word for word, value in own.items() if value is not None]
    if given and not asked.hardware:
        raise Stop(f"{given[0]} goes with --hardware: what is to be added up.")
    if asked.csv is not None and asked.json:
        raise Stop("--csv writes a table, --json prints another one: ask them one after the other.")
    if asked.why and asked.json:
        raise Stop("--json tells the reasons anyway: leave --why out.")


def _pile(made: Build, *, json: bool) -> str:
    from seqviz.report.pile_document import pile_as_json
    from seqviz.report.pile_text import pile_text
    from seqviz.scene.pile import pile_of

    pile = pile_of(made)
    return pile_as_json(made.model.path, pile) if json else pile_text(pile, made.model.units, style())


def _whole(made: Build, asked: Asked) -> str:
    from seqviz.scene.mixed_lengths import mixed_lengths
    from seqviz.scene.stack import drawn_shut, grouped
    from seqviz.scene.stack_text import summary_text

    shut, units = drawn_shut(made.assembly), made.model.units
    if asked.holes:
        return _lines(made, made.assembly.stacks, shut, why=asked.why)
    mixed = "".join(f"{line}\n" for line in mixed_lengths(made.assembly, units))
    return summary_text(grouped(made.assembly.stacks), shut, units, why=asked.why) + mixed


def _details(made: Build, chosen: Choice, asked: Asked) -> str:
    from seqviz.scene.setting import settings, settings_text
    from seqviz.scene.stack import drawn_shut, grouped
    from seqviz.scene.stack_text import hole_text, part_text, with_why

    assembly, units = made.assembly, made.model.units
    shut = drawn_shut(assembly)
    texts = [part_text(name, assembly, shut, units, why=asked.why) for name in chosen.parts]
    rows = [assembly.stacks[index] for index in chosen.rows]
    if rows and asked.holes:
        texts.append(_lines(made, rows, shut, why=asked.why))
    elif rows:
        lines = (line for group in grouped(rows) for line in with_why(group, shut, units, asked.why))
        texts.append("".join(line + "\n" for line in lines))
    told = settings(made.replay) if chosen.holes else {}
    for name in chosen.holes:
        index = assembly.stack_of[name]
        when = settings_text(told, index)
        texts.append(hole_text(name, assembly.stacks[index], shut, units, when, why=asked.why))
    return "\n".join(texts)


def _lines(made: Build, stacks: Iterable[Stack], shut: Shut, *, why: bool) -> str:
    """Return one line a hole."""
    from seqviz.scene.setting import settings, settings_text
    from seqviz.scene.stack_text import hole_line, why_lines

    told, units = settings(made.replay), made.model.units
    lines = []
    for stack in stacks:
        lines.append(hole_line(stack, shut, units, settings_text(told, stack.index)))
        lines += [f"    {line}" for line in why_lines(stack, units)] if why else []
    return "".join(f"{line}\n" for line in lines)


def _document(made: Build, chosen: Choice | None) -> str:
    """Return the JSON of everything, or of what was chosen."""
    from seqviz.report.stack_document import stacks_as_json
    from seqviz.scene.setting import settings

    assembly, told = made.assembly, settings(made.replay)
    if chosen is None:
        return stacks_as_json(made.model.path, assembly.stacks, assembly.contacts, told)
    indices = {*chosen.rows, *(assembly.stack_of[name] for name in chosen.holes)}
    indices.update(index for part in chosen.parts for index in assembly.stacks_of_part.get(part, ()))
    contacts = [touch for touch in assembly.contacts if {touch.upper, touch.lower} & set(chosen.parts)]
    stacks = [assembly.stacks[index] for index in sorted(indices)]
    return stacks_as_json(made.model.path, stacks, contacts, told)


def _left_out(made: Build, file: str) -> int:
    """Say what mistakes in reading and placing leave out of the stacks; return the exit code."""
    from seqviz.checks.known import settle
    from seqviz.checks.wording import counted

    found = settle(made, made.noticed)
    wrong = sum(finding.severity == "error" and finding.known is None for finding in found)
    if not wrong:
        return NO_MISTAKE
    muted = sorted(made.assembly.muted)
    without = f" Not to be relied on: {', '.join(muted)}." if muted else ""
    complain(f"{counted(wrong, 'error')} found on the way.{without} Look first: seqviz check {file}")
    return MISTAKES
