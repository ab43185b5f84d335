"""A file as text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from seqviz.findings import At

__all__ = ["Source", "Unreadable", "read_source"]

# The line breaks of YAML, which are not those of str.splitlines.
_LINE_BREAK = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_NOT_TEXT = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


class Unreadable(Exception):  # noqa: N818 - it is what the file is
    """Nothing can be checked: no such file, not text, not YAML. ``message`` is for the builder.

    Attributes
    ----------
    message
        Place, reason and way out, in one line.
    at
        The place, where there is one.
    """

    def __init__(self, message: str, at: At | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.at = at


@dataclass(frozen=True, kw_only=True)
class Source:
    """The text of one file, named as reached from the path given."""

    path: str
    text: str

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """The lines without their ends; line 1 is ``lines[0]``."""
        return tuple(_LINE_BREAK.split(self.text))

    def at(self, line: int, column: int) -> At:
        """Return the place, both counted from 1."""
        return At(file=self.path, line=line, column=column)


def read_source(path: str) -> Source:
    """Read the file at ``path``; a byte order mark is passed over.

    Raises
    ------
    Unreadable
        There is no such file, or it is not UTF-8 text.
    """
    try:
        content = Path(path).read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "this is no path"
        raise Unreadable(f"{path}: cannot be read ({reason}). Check the path.") from error
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise Unreadable(
            f"{path}:{line}: is not UTF-8 text. Save it as plain text in UTF-8.",
            At(file=path, line=line, column=1),
        ) from error
    source = Source(path=path, text=text)
    _refuse_control_characters(source)
    return source


def _refuse_control_characters(source: Source) -> None:
    found = _NOT_TEXT.search(source.text)
    if found is None:
        return
    before = _LINE_BREAK.split(source.text[: found.start()])
    at = source.at(len(before), len(before[-1]) + 1)
    code = f"U+{ord(found[0]):04X}"
    raise Unreadable(f"{at}: there is a control character ({code}). Is this a text file? Delete it.", at)
