"""``seqviz check``: what is wrong, where, why, and the way out."""

from __future__ import annotations

from typing import Annotated

import typer

from seqviz.cli.opening import opened
from seqviz.cli.output import MISTAKES, NO_MISTAKE, Stop, say, style

__all__ = ["HELP", "check"]

HELP = """Check a model or a sequence: every mistake with its place, the reason and a way out.

\b
Examples:
  seqviz check sequences/practice_tray.yaml
  seqviz check sequences/practice_tray.yaml --rules

On parts of a kit the handbooks' rules of spacing are told in one note; --rules tells each by itself.

Ends with 0 when there is no error, with 1 when there are errors, and with 2 when nothing could be checked.
"""


def check(
    file: Annotated[str, typer.Argument(metavar="FILE", help="A sequence (it names its model), or a model.")],
    one_line: Annotated[
        bool, typer.Option("--one-line", help="One line a finding: file:line:column: severity kind: message.")
    ] = False,
    rules: Annotated[
        bool,
        typer.Option("--rules", help="Each rule of edges, pitch, bends and rivets, on a kit's parts too."),
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="Everything as JSON, for programs.")] = False,
) -> int:
    """Check ``file`` and print what was found; return the exit code."""
    from seqviz.checks.run import run
    from seqviz.checks.summary import summary
    from seqviz.report.text import as_lines, as_text

    if json and one_line:
        raise Stop("Take --json or --one-line, not both.")
    made = opened(file)
    findings = run(made, rules=rules)
    numbers = summary(made, findings)
    if json:
        from seqviz.report.documents import as_json

        sequence = made.sequence.path if made.sequence else None
        say(as_json(made.model.path, sequence, findings, numbers))
    elif one_line:
        say(as_lines(findings))
    else:
        lines = {name: source.lines for name, source in made.sources.items()}
        say(as_text(findings, lines, numbers, style()))
    wrong = any(finding.severity == "error" and finding.known is None for finding in findings)
    return MISTAKES if wrong else NO_MISTAKE
