"""Writing files that a person may keep: nothing is overwritten unasked, and nothing is left half written."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from seqviz.cli.output import Stop

__all__ = ["free_to_write", "write_aside"]

_NEAR = 1000  # signs


def free_to_write(path: Path, *, force: bool, marker: str | None = None, option: str = "--out") -> None:
    """Stop where a file must not be written over, or its folder is not there.

    Parameters
    ----------
    marker
        What stands near the beginning of a file that we wrote ourselves: such a one may be written over.
    option
        What another path is given with.
    """
    if path.is_dir():
        raise Stop(f"{path} is a folder. Give the name of a file.")
    ours = marker is not None and path.is_file() and marker in _beginning(path)
    if (path.exists() or path.is_symlink()) and not force and not ours:
        raise Stop(
            f"{path} is there already; nothing was written. Write over it with --force, or use {option}."
        )
    if not path.parent.is_dir():
        raise Stop(f"{path.parent}: no such folder. Make it first, or give another path.")


def write_aside(path: Path, content: str | bytes) -> None:
    """Write text, or bytes, beside ``path`` and let it take its place when it is complete."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    aside = Path(name)
    try:
        with os.fdopen(handle, "wb") as written:
            written.write(content.encode("utf-8") if isinstance(content, str) else content)
        aside.chmod(0o666 & ~_umask())
        os.replace(aside, path)
    finally:
        aside.unlink(missing_ok=True)


def _beginning(path: Path) -> str:
    with path.open(encoding="utf-8", errors="replace") as written:
        return written.read(_NEAR)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
