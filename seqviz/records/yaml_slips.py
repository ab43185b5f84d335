"""What went wrong where a text is no YAML, in plain words; and the line repaired where that is clear."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import yaml

__all__ = ["YamlSlip", "slip_of", "tab_slip"]

_NO_SPACE = re.compile(r"( *(?:- +)*[^\W\d_][\w -]*):(?=[^\s:/#])(?!.*: )")
_HASH = re.compile(r"(?<![^\s:,\[{])#")
_VALUE_IN_BRACKETS = re.compile(r"#[^\s,\]}][^,\]}]*(?=[,\]}])")
_WORDS_ALONE = re.compile(r" *[^\s:#\-\[{'\"][^:#]*")
_INDENT = re.compile(r"[ \t]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class YamlSlip:
    """A place (from 1), what is wrong, why, the way out; ``repaired``: the line as it was meant.

    ``lost``: a `#` swallowed the value at the place; the repaired line has a `~` there.
    """

    line: int
    column: int
    message: str
    why: str
    fix: str
    repaired: str | None = None
    lost: bool = False


def tab_slip(lines: Sequence[str]) -> YamlSlip | None:
    """Return the slip of a file in which some lines are indented by tabs and some by spaces."""
    first_tab, spaces = None, False
    for number, line in enumerate(lines, start=1):
        indent = _INDENT.match(line)
        rest = line.strip()
        if indent is None or not indent[0] or not rest or rest.startswith("#"):
            continue
        if "\t" in indent[0]:
            first_tab = first_tab or (number, indent[0].index("\t") + 1)
        else:
            spaces = True
    if first_tab is None or not spaces:
        return None
    return YamlSlip(
        line=first_tab[0],
        column=first_tab[1],
        message="A tab stands here, and other lines are indented by spaces.",
        why="How far a tab reaches differs from editor to editor, so what belongs to what is unclear.",
        fix="Put spaces in place of all tabs.",
    )


def slip_of(lines: Sequence[str], error: yaml.YAMLError) -> YamlSlip:
    """Return the slip behind a parser's ``error`` in ``lines``."""
    problem = " ".join(str(getattr(error, word, "") or "") for word in ("context", "problem")).strip()
    mark = getattr(error, "problem_mark", None)
    context = getattr(error, "context_mark", None) or mark
    if mark is None or context is None:
        return YamlSlip(
            line=1, column=1, message="This is not YAML.", why=str(error), fix="Save the file as plain text."
        )
    end, begin = _place(mark, lines), _place(context, lines)
    if "mapping values are not allowed" in problem:
        # A line that is no `word: value` runs on into the next, and the parser stumbles there.
        begin = (_above(lines, end[0]), 1)
    for number in {begin[0], end[0] - 1, end[0]}:
        slip = _colon_without_space(lines, number)
        if slip is not None:
            return slip
    if "expected ',' or" in problem:
        return _bracket(lines, begin, end)
    if "flow node" in problem:
        return _bracket(lines, _last_opened(lines, end), end)
    if begin[0] < end[0] and "mapping values" in problem and _WORDS_ALONE.fullmatch(lines[begin[0] - 1]):
        column = len(lines[begin[0] - 1]) - len(lines[begin[0] - 1].lstrip()) + 1
        return _by_words(lines, "expected ':'", (begin[0], column), end)
    return _by_words(lines, problem, begin, end)


def _above(lines: Sequence[str], number: int) -> int:
    """Return the nearest line above that holds something, or ``number`` where there is none."""
    above = (line for line in range(number - 1, 0, -1) if lines[line - 1].strip())
    return next(above, number)


def _place(mark: yaml.error.Mark, lines: Sequence[str]) -> tuple[int, int]:
    """Return a mark's line and column from 1, pulled back into the text."""
    if mark.line >= len(lines):
        return len(lines), len(lines[-1]) + 1
    return mark.line + 1, mark.column + 1


def _colon_without_space(lines: Sequence[str], number: int) -> YamlSlip | None:
    if not 1 <= number <= len(lines):
        return None
    line = lines[number - 1]
    found = _NO_SPACE.match(line)
    if found is None:
        return None
    return YamlSlip(
        line=number,
        column=found.end(),
        message=f"A colon without a space after it: `{line.strip()}`.",
        why="Word and value are told apart by a colon and a space.",
        fix=f"Write `{found[1].strip()}: {line[found.end() :].strip()}`.",
        repaired=f"{found[1]}: {line[found.end() :]}",
    )


def _last_opened(lines: Sequence[str], end: tuple[int, int]) -> tuple[int, int]:
    """Return the last bracket before ``end`` that is not closed, or ``end``; quotes are not looked at."""
    opened: list[tuple[int, int]] = []
    for number, line in enumerate(lines[: end[0]], start=1):
        comment = _HASH.search(line)
        seen = line[: comment.start()] if comment else line
        for column, sign in enumerate(seen[: end[1] - 1] if number == end[0] else seen, start=1):
            if sign in "[{":
                opened.append((number, column))
            elif sign in "]}" and opened:
                opened.pop()
    return opened[-1] if opened else end


def _bracket(lines: Sequence[str], begin: tuple[int, int], end: tuple[int, int]) -> YamlSlip:
    for number in range(begin[0], end[0] + 1):
        from_column = begin[1] if number == begin[0] else 1
        found = _HASH.search(lines[number - 1], from_column - 1)
        if found is not None and lines[number - 1][: found.start()].strip():
            return _hash_in_brackets(lines[number - 1], number, found.start())
    opened = lines[begin[0] - 1][begin[1] - 1 : begin[1]]
    return YamlSlip(
        line=begin[0],
        column=begin[1],
        message=f"The bracket `{opened}` is not closed, or a comma is missing before line {end[0]}, "
        f"column {end[1]}.",
        why="A list is [a, b], a map {word: value, word: value}.",
        fix="Close the bracket, or put the comma.",
    )


def _hash_in_brackets(line: str, number: int, start: int) -> YamlSlip:
    """Return the slip of a `#` at ``start`` that takes the end of a bracket with it."""
    value = _VALUE_IN_BRACKETS.match(line, start)
    rest = line[value.end() :] if value else ""
    return YamlSlip(
        line=number,
        column=start + 1,
        message=f"`{line[start:].strip()}` is lost: `#` makes it a comment.",
        why="With it the bracket was lost that closes the list or map.",
        fix="Put the value in quotes (a drill is `No. 30`).",
        repaired=line[:start] + "~".ljust(len(line) - start - len(rest)) + rest if rest else None,
        lost=True,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Words:
    """What the parser's words mean; ``opened``: the slip stands where the thing begins, not ends."""

    parts: tuple[str, ...]
    message: str
    why: str
    fix: str
    opened: bool = False


_MEANINGS = (
    _Words(
        parts=("mapping values are not allowed",),
        message="A second colon stands here, or the line is indented too far.",
        why="A value with `: ` in it needs quotes. Lines of one depth begin in one column.",
        fix="Put the text in quotes, or begin the line in the column of its neighbours.",
    ),
    _Words(
        parts=("expected ':'",),
        message="This line has no colon.",
        why="Every line of this depth is `word: value`.",
        fix="Put a colon and a space behind the word.",
        opened=True,
    ),
    _Words(
        parts=("cannot start any token",),
        message="A value cannot begin with `{sign}`.",
        why="YAML keeps this sign for itself.",
        fix="Put the text in quotes.",
    ),
    _Words(
        parts=("end of stream", "document indicator"),
        message="The quote opened here is not closed.",
        why="A text in quotes ends with the same quote.",
        fix="Close it; an inch mark behind a number needs no other quotes.",
        opened=True,
    ),
    _Words(
        parts=("escape",),
        message="A backslash stands in double quotes.",
        why="There it begins a special sign.",
        fix="Use single quotes, or write the backslash twice.",
    ),
    _Words(
        parts=("alias", "anchor", "tag"),
        message="A text begins with `*`, `&` or `!`.",
        why="YAML keeps these signs for itself.",
        fix="Put the text in quotes.",
        opened=True,
    ),
    _Words(
        parts=("expected key", "expected '-'", "expected <block end>"),
        message="This line does not fit the lines above it.",
        why="Lines of one depth begin in one column, and are all `word: value` or all begin with a dash.",
        fix="Begin it in the column of its neighbours; what stands behind a closing quote goes inside it.",
    ),
)


def _by_words(lines: Sequence[str], problem: str, begin: tuple[int, int], end: tuple[int, int]) -> YamlSlip:
    """Return the slip for the parser's own words ``problem``."""
    sign = lines[end[0] - 1][end[1] - 1 : end[1]]
    for meaning in _MEANINGS:
        if any(part in problem for part in meaning.parts):
            line, column = begin if meaning.opened else end
            message = meaning.message.replace("{sign}", sign)
            return YamlSlip(line=line, column=column, message=message, why=meaning.why, fix=meaning.fix)
    return YamlSlip(
        line=end[0],
        column=end[1],
        message="This is not YAML.",
        why=f"The YAML reader says: {problem}.",
        fix="Compare with the lines around it.",
    )
