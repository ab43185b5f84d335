"""The 3D library of the page, three.js: taken out of the installed trimesh package, never kept here."""

from __future__ import annotations

import zipfile
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

__all__ = ["Library", "NoLibrary", "library"]

_ARCHIVE = Path("resources", "templates", "viewer.zip")
_TEMPLATE = "viewer.html.template"
_BEGIN, _END = "<script>", "var camera,controls,scene"
_NAMES = "THREE={}", "Copyright 2010-2022 Three.js Authors"
_BREAKS_OUT = ("</script", "<script", "<!--")

LICENCE = """\
The MIT License

Copyright © 2010-2022 Three.js Authors

Permission is hereby granted, free of charge, to any person obtaining a copy of this software and
associated documentation files (the "Software"), to deal in the Software without restriction,
including without limitation the rights to use, copy, modify, merge, publish, distribute,
sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial
portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT
NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND
NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES
OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN
CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.
"""
"""The library's file says MIT and whose it is; these are that licence's words."""


class NoLibrary(Exception):  # noqa: N818 - the machine's state, told in words
    """The installed trimesh package does not hold the library as expected; the words say what to install."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """A classic script that makes the global ``THREE``, and its licence in full."""

    code: str
    licence: str


def library() -> Library:
    """Return the library.

    Raises
    ------
    NoLibrary
        It is not where it was in the versions of trimesh that this was tried with.
    """
    code = _between(_template())
    if any(word not in code for word in _NAMES) or any(word in code.lower() for word in _BREAKS_OUT):
        raise NoLibrary(_missing())
    return Library(code=code, licence=LICENCE)


def _template() -> str:
    """Return the text of the viewer's page, found without importing trimesh."""
    spec = find_spec("trimesh")
    folders = list(spec.submodule_search_locations or ()) if spec else []
    for folder in folders:
        try:
            with zipfile.ZipFile(Path(folder) / _ARCHIVE) as archive:
                return archive.read(_TEMPLATE).decode("utf-8")
        except (OSError, KeyError, zipfile.BadZipFile, UnicodeDecodeError):
            continue
    raise NoLibrary(_missing())


def _between(template: str) -> str:
    _, begin, rest = template.partition(_BEGIN)
    code, end, _ = rest.partition(_END)
    if not begin or not end:
        raise NoLibrary(_missing())
    return code


def _missing() -> str:
    return (
        "The page needs the 3D library three.js, which the package trimesh carries, and the trimesh that is "
        "installed here does not have it as expected. Install another: pip install 'trimesh>=4.9,<6'"
    )
