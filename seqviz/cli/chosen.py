"""Names of parts, rows and holes given on the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seqviz.cli.output import Stop

if TYPE_CHECKING:
    from collections.abc import Iterable

    from seqviz.assembly.structure import Assembly
    from seqviz.scene.choice import Choice

__all__ = ["chosen"]


def chosen(assembly: Assembly, names: Iterable[str]) -> Choice:
    """Return what the names mean.

    Raises
    ------
    Stop
        One of them means nothing here.
    """
    from seqviz.scene.choice import choose, near_names

    found = choose(assembly, names)
    if found.unknown:
        name = found.unknown[0]
        near = near_names(assembly, name)
        meant = f" Did you mean {' or '.join(near)}?" if near else ""
        raise Stop(
            f"There is no part, row or hole called {name} that is placed.{meant} "
            "A name with spaces needs quotation marks around it."
        )
    return found
