"""``seqviz stack --flat``: flat patterns as files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from seqviz.cli.output import Stop, say
from seqviz.cli.writing import free_to_write, write_aside

if TYPE_CHECKING:
    from seqviz.assembly.kinds import Kind
    from seqviz.build import Build

__all__ = ["write_flat"]

_ALL = "all"
_ENDINGS = (".svg", ".dxf")


def write_flat(made: Build, name: str, out: str | None, *, force: bool) -> None:
    """Write the flat pattern of the part called ``name``, or of all parts, and say where it is."""
    from seqviz.assembly.kinds import kinds_of

    kinds = kinds_of(made.parts, made.assembly)
    if name.strip().lower() == _ALL and _ALL not in {kind.name for kind in kinds}:
        _write_all(made, kinds, out, force=force)
        return
    chosen = _called(made, kinds, name)
    texts = {path: _drawn(made, kind, path) for path, kind in _paths(chosen, out).items()}
    for path in texts:
        free_to_write(path, force=force)
    for path, text in texts.items():
        write_aside(path, text)
        say(f"{path}\n")


def _called(made: Build, kinds: tuple[Kind, ...], name: str) -> list[Kind]:
    """Return the kinds called ``name``: one, or both hands of a part; all with a flat pattern."""
    from seqviz.drawing.flat_facts import why_not_flat
    from seqviz.parts.flat_pattern import flat_pattern

    plain = _folded(name)
    found = [kind for kind in kinds if plain in {_folded(kind.name), *map(_folded, kind.placed)}]
    found = found or [kind for kind in kinds if _folded(kind.entry) == plain]
    if not found:
        raise Stop(_no_such_part(made, kinds, name))
    bare = [kind for kind in found if flat_pattern(kind.part) is None]
    if bare:
        raise Stop(f"There is no flat pattern to draw: {why_not_flat(bare[0])}")
    return found


def _no_such_part(made: Build, kinds: tuple[Kind, ...], name: str) -> str:
    import difflib

    broken = {_folded(entry) for entry in (*made.model.parts, *made.model.broken)}
    if _folded(name) in broken:
        return (
            f"{name} has a mistake in its description, so that it cannot be drawn. Look first: seqviz check."
        )
    known = {_folded(text): text for kind in kinds for text in (kind.name, kind.entry, *kind.placed)}
    near = [known[text] for text in difflib.get_close_matches(_folded(name), known, n=3, cutoff=0.6)]
    meant = f" Did you mean {' or '.join(near)}?" if near else ""
    return f"There is no part called {name}.{meant} A name with spaces needs quotation marks around it."


def _paths(kinds: list[Kind], out: str | None) -> dict[Path, Kind]:
    if out is None:
        return {Path(f"{kind.name} flat.svg"): kind for kind in kinds}
    if len(kinds) > 1:
        names = " or ".join(kind.name for kind in kinds)
        raise Stop(f"Both hands are needed, and each is a drawing of its own. With --out say which: {names}.")
    path = Path(out)
    if path.suffix.lower() not in _ENDINGS:
        raise Stop(f"--out {out}: the name of the file ends in .svg or .dxf.")
    return {path: kinds[0]}


def _write_all(made: Build, kinds: tuple[Kind, ...], out: str | None, *, force: bool) -> None:
    """Write every flat pattern there is into a folder, and name the parts that have none."""
    from seqviz.drawing.flat_facts import why_not_flat
    from seqviz.parts.flat_pattern import flat_pattern

    folder = Path(out or f"{Path(made.model.path).stem} flat patterns")
    if folder.suffix.lower() in _ENDINGS or (folder.exists() and not folder.is_dir()):
        raise Stop(f"{folder}: all flat patterns go into a folder. Give the name of one.")
    flat = [kind for kind in kinds if flat_pattern(kind.part) is not None]
    if not flat:
        raise Stop("No part has a flat pattern. " + " ".join(map(why_not_flat, kinds)))
    folder.mkdir(parents=True, exist_ok=True)
    paths = {folder / f"{kind.name} flat.svg": kind for kind in flat}
    for path in paths:
        free_to_write(path, force=force)
    for path, kind in paths.items():
        write_aside(path, _drawn(made, kind, path))
        say(f"{path}\n")
    for kind in kinds:
        if kind not in flat:
            say(f"No flat pattern: {why_not_flat(kind)}\n")


def _drawn(made: Build, kind: Kind, path: Path) -> str:
    """Return the text of the file."""
    from seqviz.drawing.flat_facts import flat_facts
    from seqviz.drawing.flat_sheet import flat_sheet

    facts = flat_facts(made, kind)
    assert facts is not None
    if path.suffix.lower() == ".svg":
        return flat_sheet(facts)
    from seqviz.drawing.dxf import NoDxf, flat_dxf

    try:
        return flat_dxf(facts.pattern)
    except NoDxf as reason:
        raise Stop(str(reason)) from reason


def _folded(name: str) -> str:
    return " ".join(name.replace("_", " ").split()).casefold()
