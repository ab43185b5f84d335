"""Puts the page together: one file with everything in it, that fetches nothing."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib import resources
from importlib.resources.abc import Traversable

from seqviz.build import Build
from seqviz.page.contract import Work
from seqviz.page.data import Told, told_of
from seqviz.page.library import Library, library
from seqviz.page.packing import packed_bytes

__all__ = ["MARKER", "Page", "Picture", "page_of", "page_text"]

MARKER = '<meta name="generator" content="seqviz">'
"""By this a file is known to be a page of ours, which a newer one may replace."""

_POLICY = "default-src 'none'; script-src 'unsafe-inline' data:; style-src 'unsafe-inline'; img-src data:"
_START = "bench/main"
_UNSAFE = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&"}
"""Signs that could end the script element in which JSON stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A small picture of a step: ``kind`` as in ``image/KIND``, its bytes, its size in pixels."""

    kind: str
    data: bytes
    size: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page but for its pictures."""

    told: Told
    library: Library


def page_of(build: Build) -> Page:
    """Return the page of a build, with its checks run.

    Raises
    ------
    seqviz.page.library.NoLibrary
        The installed packages do not carry the 3D library as expected.
    """
    found = library()
    return Page(told=told_of(build), library=found)


def page_text(page: Page, pictures: Mapping[int, Picture], no_pictures: str = "") -> str:
    """Return the page as HTML.

    Parameters
    ----------
    pictures
        Step number -> its picture.
    no_pictures
        Why there are none, in one line; it stands on the page.
    """
    import jinja2

    loader = jinja2.PackageLoader("seqviz.page", "web")
    shelf = jinja2.Environment(loader=loader, autoescape=True, undefined=jinja2.StrictUndefined)
    shelf.trim_blocks = shelf.lstrip_blocks = True
    return shelf.get_template("page.html").render(
        marker=MARKER,
        policy=_POLICY,
        work=page.told.work,
        work_packed=packed_bytes(_json(page.told.work).encode()),
        meshes=page.told.meshes,
        style="\n".join(text for _, text in _files(".css")),
        import_map=_json({"imports": dict(_modules())}).translate(_UNSAFE),
        start=_START,
        library=page.library,
        pictures={number: (_data_url(one), *one.size) for number, one in pictures.items()},
        no_pictures=no_pictures,
    )


def _json(document: Work | Mapping[str, object]) -> str:
    return json.dumps(document, ensure_ascii=False, separators=(",", ":"))


def _modules() -> Iterator[tuple[str, str]]:
    """Yield ``bench/NAME`` and the address of each module of ours: its own text."""
    for name, text in _files(".js"):
        known_as = f"{text}\n//# sourceURL=bench/{name}.js\n".encode()
        yield f"bench/{name}", f"data:text/javascript;base64,{base64.b64encode(known_as).decode('ascii')}"


def _files(ending: str) -> list[tuple[str, str]]:
    """Return the name without its ending, and the text, of each of our files for the page, by name."""
    found: list[Traversable] = [one for one in _web().iterdir() if one.name.endswith(ending)]
    return sorted((one.name.removesuffix(ending), one.read_text(encoding="utf-8")) for one in found)


def _web() -> Traversable:
    return resources.files("seqviz.page") / "web"


def _data_url(picture: Picture) -> str:
    return f"data:image/{picture.kind};base64,{base64.b64encode(picture.data).decode('ascii')}"
