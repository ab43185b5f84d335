"""What a builder did where a text is no YAML, in plain words; and the line repaired where it is clear what was meant."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

import yaml

__all__ = ["YamlSlip", "slip_of", "tab_slip"]

_NO_SPACE = re.compile(r"( *(?:- +)*[^\W\d_][\w -]*):(?=[^\s:/#])(?!.*: )")
_HASH = re.compile(r"(?<![^\s:,\[{])#")
_INDENT = re.compile(r"[ \t]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class YamlSlip:
    """A place (from 1), what is wrong, why, the way out; ``repaired``: the line as it was meant, if that is clear."""

    line: int
    column: int
    message: str
    why: str
    fix: str
    repaired: str | None = None


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
    for number in range(min(begin[0], end[0]), end[0] + 1) if end[0] - begin[0] < 3 else (end[0] - 1, end[0]):
        slip = _colon_without_space(lines, number)
        if slip is not None:
            return slip
    if "expected ',' or" in problem:
        return _bracket(lines, begin, end)
    return _by_words(lines, problem, begin, end)


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


def _bracket(lines: Sequence[str], begin: tuple[int, int], end: tuple[int, int]) -> YamlSlip:
    for number in range(begin[0], end[0] + 1):
        from_column = begin[1] if number == begin[0] else 1
        found = _HASH.search(lines[number - 1], from_column - 1)
        if found is not None and lines[number - 1][: found.start()].strip():
            return YamlSlip(
                line=number,
                column=found.start() + 1,
                message=f"`{lines[number - 1][found.start() :].strip()}` is lost: `#` makes it a comment.",
                why="With it the bracket was lost that closes the list or map.",
                fix="Put the value in quotes (a drill is `No. 30`).",
            )
    opened = lines[begin[0] - 1][begin[1] - 1 : begin[1]]
    return YamlSlip(
        line=begin[0],
        column=begin[1],
        message=f"The bracket `{opened}` opened here is not closed, or a comma is missing before line {end[0]}, column {end[1]}.",
        why="A list is [a, b], a map {word: value, word: value}.",
        fix="Close the bracket, or put the comma.",
    )


def _by_words(lines: Sequence[str], problem: str, begin: tuple[int, int], end: tuple[int, int]) -> YamlSlip:
    """Return the slip for the parser's own words ``problem``."""
    place, rest = (
        end,
        ("This is not YAML.", f"The YAML reader says: {problem}.", "Compare with the lines around it."),
    )
    sign = lines[end[0] - 1][end[1] - 1 : end[1]]
    if "mapping values are not allowed" in problem:
        rest = (
            "A second colon stands here, or the line is indented too far.",
            "A value in quotes may hold `: `; without them it ends there. Lines of one depth begin in one column.",
            "Put the text in quotes, or begin the line in the column of its neighbours.",
        )
    elif "expected ':'" in problem:
        place, rest = (
            begin,
            (
                "This line has no colon.",
                "Every line of this depth is `word: value`.",
                "Put a colon and a space behind the word.",
            ),
        )
    elif "cannot start any token" in problem:
        rest = (
            f"A value cannot begin with `{sign}`.",
            "YAML keeps this sign for itself.",
            "Put the text in quotes.",
        )
    elif "end of stream" in problem or "document indicator" in problem:
        place, rest = (
            begin,
            (
                "The quote opened here is not closed.",
                "A text in quotes ends with the same quote.",
                "Close it; an inch mark behind a number needs no other quotes.",
            ),
        )
    elif "escape" in problem:
        rest = (
            "A backslash stands in double quotes.",
            "There it begins a special sign.",
            "Use single quotes, or write the backslash twice.",
        )
    elif "alias" in problem or "anchor" in problem or "tag" in problem:
        place, rest = (
            end,
            (
                "A text begins with `*`, `&` or `!`.",
                "YAML keeps these signs for itself.",
                "Put the text in quotes.",
            ),
        )
    elif "expected key" in problem or "expected '-'" in problem or "expected <block end>" in problem:
        rest = (
            "This line does not fit the lines above it.",
            "Lines of one depth begin in one column, and are all `word: value` or all begin with a dash.",
            "Begin it in the column of its neighbours; a text behind a closing quote or bracket goes inside.",
        )
    message, why, fix = rest
    return YamlSlip(line=place[0], column=place[1], message=message, why=why, fix=fix)
