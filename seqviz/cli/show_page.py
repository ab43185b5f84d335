"""The page of ``seqviz show``: written, opened, and written again with its pictures."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from seqviz.cli.output import Stop, complain, say
from seqviz.cli.progress import progress
from seqviz.cli.writing import free_to_write, write_aside

if TYPE_CHECKING:
    from collections.abc import Mapping

    from seqviz.build import Build
    from seqviz.page.write import Picture

__all__ = ["page_path", "show_page"]

_FOLDER = "pages"


def show_page(made: Build, file: str, path: Path | None, *, pictures: bool, force: bool) -> None:
    """Write the page and say where it is; open it where no ``path`` is asked for."""
    from seqviz.page.library import NoLibrary
    from seqviz.page.write import MARKER, page_of, page_text

    to = path or page_path(file)
    if path is None:
        to.parent.mkdir(exist_ok=True)
    free_to_write(to, force=force, marker=MARKER, option="--page")
    try:
        page = page_of(made)
    except NoLibrary as reason:
        raise Stop(str(reason)) from reason
    # At once without pictures: drawing them takes longer than all the rest.
    write_aside(to, page_text(page, {}))
    if path is None:
        _open(to)
    if pictures:
        drawn, why_not = _drawn(made)
        write_aside(to, page_text(page, drawn, why_not))
    say(f"{to}\n")


def page_path(file: str) -> Path:
    """Return where the page of a file goes if nobody says where."""
    return Path(_FOLDER) / f"{Path(file).stem}.html"


def _drawn(made: Build) -> tuple[Mapping[int, Picture], str]:
    """Return the pictures, and why there are none."""
    from seqviz.page.write import Picture

    # Where nothing has dimensions there is nothing that this machine would have to be able to draw.
    if made.replay is None or not any(part.located for part in made.assembly.placed.values()):
        return {}, ""
    from seqviz.render.probe import graphics_hint

    hint = graphics_hint()
    if hint is not None:
        complain(f"The page has no pictures of the steps. {hint}")
        return {}, "There are no pictures of the steps: this page was made on a machine that cannot draw."
    from seqviz.render.small import small_pictures

    with progress("Drawing") as tell:
        small = small_pictures(made, tell)
    return {one.number: Picture(kind="webp", data=one.data, size=one.size) for one in small}, ""


def _open(path: Path) -> None:
    """Open the page in the browser where there is one with windows; say so where there is none."""
    import webbrowser

    windows = sys.platform in {"darwin", "win32"} or any(
        os.environ.get(word) for word in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER")
    )
    # Without windows a browser of the terminal would be found, and would keep it.
    if not windows or not webbrowser.open(path.resolve().as_uri()):
        complain(f"There is no browser here. Open this file in one: {path}")
