"""The battery shelf in the short entry is the shelf of the plain long form, with much less to type."""

import re
from pathlib import Path

from seqviz.assembly.structure import Stack
from seqviz.build import Build, build
from seqviz.report.stack_document import stacks_as_json

ROOT = Path(__file__).parents[1]
SHORT = ROOT / "models" / "battery_shelf.yaml"
LONG = ROOT / "tests" / "examples" / "battery_shelf_long.yaml"

COMMENT = re.compile(r"(^|\s)#.*")
NUMBER = re.compile(r"\d+(?:\.\d+)?")


def typed(path: Path) -> tuple[int, int]:
    """Return how many lines hold more than a comment, and how many numbers stand in them (names too)."""
    written = [COMMENT.sub("", line) for line in path.read_text(encoding="utf-8").splitlines()]
    lines = [line for line in written if line.strip()]
    return len(lines), sum(len(NUMBER.findall(line)) for line in lines)


def as_json(made: Build) -> str:
    return stacks_as_json("shelf", made.assembly.stacks, made.assembly.contacts)


def through(stacks: list[Stack], hole: str) -> tuple[str, ...]:
    return next(stack.parts for stack in stacks if hole in stack.holes)


def test_both_forms_are_the_same_structure_byte_by_byte() -> None:
    short, long = build(str(SHORT)), build(str(LONG))
    assert [finding.message for finding in (*short.noticed, *long.noticed)] == []
    assert as_json(short) == as_json(long)


def test_the_stacks_are_those_of_the_drawing() -> None:
    stacks = list(build(str(SHORT)).assembly.stacks)
    assert len(stacks) == 162
    assert through(stacks, "shelf skin.rail left.3") == (
        "cross 1",
        "rail left",
        "shelf skin",
        "aft gusset left",
    )
    assert through(stacks, "cross 4.cross 4.2") == ("cross 4", "shelf skin", "forward gusset right")
    assert through(stacks, "shelf skin.bracket.7") == (
        "strap bracket",
        "bracket packing",
        "bracket doubler",
        "shelf skin",
    )
    assert through(stacks, "strap bracket.strap.2") == ("strap doubler", "strap bracket")
    assert through(stacks, "shelf skin.stiffener right.14") == ("shelf skin", "stiffener right")


def test_the_short_entry_takes_half_of_the_lines_and_two_fifths_of_the_numbers() -> None:
    (lines, numbers), (long_lines, long_numbers) = typed(SHORT), typed(LONG)
    counts = f"{lines} of {long_lines} lines, {numbers} of {long_numbers} numbers"
    assert lines <= 0.5 * long_lines, counts
    assert numbers <= 0.4 * long_numbers, counts
