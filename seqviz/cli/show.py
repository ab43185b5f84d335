"""``seqviz show``: the work in 3D, as a page or in a window."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from seqviz.cli.asked import asked_as
from seqviz.cli.opening import opened
from seqviz.cli.output import MISTAKES, NO_MISTAKE, Stop, complain

if TYPE_CHECKING:
    from seqviz.build import Build

__all__ = ["HELP", "Asked", "show"]

HELP = """Show the work in 3D: play the steps, look under, tap a part or a hole, fly to what is wrong.

It writes one page that holds everything, and opens it in the browser: no server and no network, so it can be
copied to a tablet. The page comes into pages/NAME.html of the sequence; --page says where else, and does not
open it. An older page is replaced. Small pictures of the steps follow when they are drawn, for reading and
printing without scripts; --no-pictures leaves them out.

--window shows the same in a window. There left and right go from step to step, space plays, + and - change
the speed; u looks from under, w brings the whole work into sight; a click picks a part or a hole, h hides and
g ghosts the picked part, a shows all again; 1, 2 and 3 colour plain, by layer, by step; escape closes.
Dragging turns the work, with shift or the right button it shifts it, the wheel brings it nearer.

--watch reads the files again whenever they are saved: the window keeps step and view, and a page is written
anew, to be reloaded. --glb writes the structure, or with --step what is there after a step, as glTF.

\b
Examples:
  seqviz show sequences/practice_tray.yaml
  seqviz show sequences/practice_tray.yaml --page tray.html
  seqviz show sequences/practice_tray.yaml --window --watch
  seqviz show sequences/practice_tray.yaml --glb tray.glb --step 7
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The argument and options of the command, as their help says."""

    file: Annotated[str, typer.Argument(metavar="FILE", help="A sequence (it names its model), or a model.")]
    page: Annotated[
        Path | None, typer.Option("--page", metavar="FILE", help="Write the page there; do not open it.")
    ] = None
    no_pictures: Annotated[
        bool, typer.Option("--no-pictures", help="The page without small pictures of the steps.")
    ] = False
    window: Annotated[bool, typer.Option("--window", help="In a window instead of a page.")] = False
    watch: Annotated[bool, typer.Option("--watch", help="Read the files again whenever they are saved.")] = (
        False
    )
    glb: Annotated[
        Path | None, typer.Option("--glb", metavar="FILE", help="Write the structure as glTF instead.")
    ] = None
    step: Annotated[
        int | None, typer.Option("--step", metavar="N", help="With --glb: what is there after step N.")
    ] = None
    force: Annotated[bool, typer.Option("--force", help="May write over files of others.")] = False


@asked_as(Asked)
def show(asked: Asked) -> int:
    """Show the work; return the exit code."""
    _goes_together(asked)
    if asked.window:
        from seqviz.cli.show_window import show_window

        return show_window(asked.file, watch=asked.watch)
    made = opened(asked.file)
    if asked.glb is not None:
        from seqviz.cli.show_glb import write_glb

        write_glb(made, asked.glb, step=asked.step, force=asked.force)
    else:
        from seqviz.cli.show_page import show_page

        pictures = not (asked.no_pictures or asked.watch)
        show_page(made, asked.file, asked.page, pictures=pictures, force=asked.force)
        if asked.watch:
            _watch(made, asked)
    return _errors_in(made, asked.file)


def _watch(made: Build, asked: Asked) -> None:
    """Write the page again at every save, until Ctrl-C."""
    from seqviz.cli.show_page import page_path, show_page
    from seqviz.cli.watch_page import watch_page

    to = asked.page or page_path(asked.file)
    watch_page(
        asked.file,
        made,
        lambda later: show_page(later, asked.file, to, pictures=False, force=asked.force),
    )


def _goes_together(asked: Asked) -> None:
    """Stop where options are given that say nothing together."""
    kinds = [word for word, given in _KINDS.items() if getattr(asked, given)]
    if len(kinds) > 1:
        raise Stop(f"{' and '.join(kinds)}: ask for one at a time.")
    if asked.watch and asked.glb is not None:
        raise Stop("--watch goes with a page or with --window, not with --glb.")
    if asked.step is not None and asked.glb is None:
        raise Stop("--step goes with --glb: a page and a window have all steps.")


_KINDS = {"--page": "page", "--window": "window", "--glb": "glb"}


def _errors_in(made: Build, file: str) -> int:
    """Say how many errors there are; return the exit code."""
    from seqviz.checks.run import run
    from seqviz.checks.wording import counted

    wrong = sum(finding.severity == "error" and finding.known is None for finding in run(made))
    if not wrong:
        return NO_MISTAKE
    complain(f"Do not work from this yet: {counted(wrong, 'error')}. Look: seqviz check {file}")
    return MISTAKES
