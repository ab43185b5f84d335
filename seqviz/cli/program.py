"""The command ``seqviz``: its commands, and how every run of it ends."""

from __future__ import annotations

import gc
import os
import sys
import traceback
from typing import Annotated

import typer
from typer.exceptions import TyperException

from seqviz import __version__
from seqviz.cautions import BRIEF, WORKSHOP
from seqviz.cli import check, explain, new, pictures, schema, show, stack
from seqviz.cli.output import NO_MISTAKE, NOTHING_CHECKED, Stop, complain, prepare, say

__all__ = ["app", "main", "run"]

HELP = """Shows and checks the order of work for riveted sheet-metal structures, from two plain YAML files.

\b
Example:
  seqviz check sequences/practice_tray.yaml
"""

_STOPPED = 130

app = typer.Typer(
    help=HELP,
    epilog=f"{BRIEF}\n\n{WORKSHOP}",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
for _name, _help, _short, _command in (
    ("check", check.HELP, "Every mistake, its reason, and a way out.", check.check),
    ("stack", stack.HELP, "The layers at holes; what sits on what.", stack.stack),
    ("show", show.HELP, "The work in 3D: a page for any browser, or a window.", show.show),
    ("pictures", pictures.HELP, "A picture of every step.", pictures.pictures),
    ("new", new.HELP, "A model and a sequence to begin with.", new.new),
    ("schema", schema.HELP, "The file format, for editors.", schema.schema),
    ("explain", explain.HELP, "What a kind of finding means.", explain.explain),
):
    app.command(_name, help=_help, short_help=_short, epilog=BRIEF)(_command)


@app.callback(invoke_without_command=True)
def _before(
    context: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="Print the version and end.")] = False,
) -> None:
    if version:
        say(f"seqviz {__version__}\n")
        raise typer.Exit(NO_MISTAKE)
    if context.invoked_subcommand is None:
        say(context.get_help() + "\n")
        raise typer.Exit(NOTHING_CHECKED)


def main() -> None:
    """Run the command line and end the process with 0, 1 or 2."""
    # Our arrays are small: threads of the linear algebra would only wait, and cost a tenth of a second.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # Nearly all that is made is kept to the end: looking for rubbish often finds none.
    gc.set_threshold(50_000)
    sys.exit(run(sys.argv[1:]))


def run(arguments: list[str]) -> int:
    """Run the command line ``arguments``; print, and return the exit code. Never a traceback."""
    prepare()
    try:
        code = app(arguments, prog_name="seqviz", standalone_mode=False)
    except Stop as reason:
        complain(str(reason))
    except (KeyboardInterrupt, typer.Abort):
        return _stopped()
    except TyperException as slip:
        complain(f"{slip.format_message()}\nHow it is used: seqviz --help, or seqviz COMMAND --help.")
    except OSError as trouble:
        complain(_system_trouble(trouble))
    except Exception as bug:
        complain(_our_mistake(bug))
    else:
        return _stopped() if code == _STOPPED else int(code or 0)
    return NOTHING_CHECKED


def _stopped() -> int:
    complain("Stopped.")
    return _STOPPED


def _system_trouble(trouble: OSError) -> str:
    """Return what the computer would not do, and with which file."""
    where = f"{trouble.filename}: " if trouble.filename else ""
    return f"{where}{trouble.strerror or trouble}."


def _our_mistake(bug: Exception) -> str:
    """Return one line that takes the blame and says what to send."""
    if os.environ.get("SEQVIZ_TRACEBACK"):
        return "".join(traceback.format_exception(bug)).rstrip()
    last = traceback.extract_tb(bug.__traceback__)[-1]
    words = " ".join(
        f"{type(bug).__name__} in {os.path.basename(last.filename)} line {last.lineno}: {bug}".split()
    )
    return (
        f"This is a mistake in seqviz {__version__}, not in your files: {words}. Please send this line and "
        "your files to the people who keep seqviz. Nothing was checked."
    )
