from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

import typer

from seqviz.cli.asked import asked_as


@dataclass(frozen=True, kw_only=True)
class Asked:
    file: Annotated[str, typer.Argument()]
    deep: Annotated[bool, typer.Option("--deep")] = False


def test_a_command_takes_its_options_as_one_thing() -> None:
    heard: list[Asked] = []

    @asked_as(Asked)
    def command(asked: Asked) -> int:
        """Do it."""
        heard.append(asked)
        return 0

    app = typer.Typer(add_completion=False)
    app.command()(command)
    app(["m.yaml", "--deep"], standalone_mode=False)
    app(["n.yaml"], standalone_mode=False)
    assert heard == [Asked(file="m.yaml", deep=True), Asked(file="n.yaml")]
    assert command.__doc__ == "Do it."
