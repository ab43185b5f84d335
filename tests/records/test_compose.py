"""YAML text -> nodes: nothing converted, nothing lost without a word."""

from __future__ import annotations

import pytest

from seqviz.records.compose import compose
from seqviz.records.nodes import Items, Mapping, Node, Scalar
from seqviz.records.source import Source, Unreadable


def shape(node: Node) -> object:
    """Return a tree as plain lists, dicts and texts."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Items):
        return [shape(item) for item in node.items]
    if isinstance(node, Mapping):
        return {key.text: shape(value) for key, value in node.pairs}
    return None


def composed(text: str) -> tuple[object, list[tuple[str, int, int]]]:
    document = compose(Source(path="f", text=text))
    return shape(document.root), [(f.kind, f.at.line, f.at.column) for f in document.findings]


def test_texts_stay_as_written() -> None:
    text = "a: 010\nb: 1:30\nc: no\nd: 3_2\ne: 1e-3\non: ~\nf: 2024-01-01\n"
    assert composed(text) == (
        {"a": "010", "b": "1:30", "c": "no", "d": "3_2", "e": "1e-3", "on": "~", "f": "2024-01-01"},
        [],
    )


def test_columns_count_characters_from_1() -> None:
    document = compose(Source(path="f", text="é: {ü: 1, 木: x}\n"))
    assert isinstance(document.root, Mapping)
    inner = document.root.pairs[0][1]
    assert isinstance(inner, Mapping)
    assert [(key.column, getattr(value, "column", 0)) for key, value in inner.pairs] == [(5, 8), (11, 14)]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("note: use #30 drill\n", [("value-lost", 1, 11)]),
        ("diameter: #30\n", [("value-lost", 1, 11)]),
        ("a: {d: #30\n }\n", [("value-lost", 1, 8)]),
        ("a: {d: #30}\nb: 1\n", [("value-lost", 1, 8)]),
        ("a: {d: use #30 drill, e: 1}\n", [("value-lost", 1, 12)]),
        ("a: [1, #2, 3]\nb: [#4]\n", [("value-lost", 2, 5), ("value-lost", 1, 8)]),
        ("a: #b\n  c: 1\n", [("value-lost", 1, 4)]),
        ("a: '#30' # in quotes\n", []),
        ("a: b#c\n", []),
        ("#whole line\na: 1\n  #another\n", []),
        ("a: 1 # good\nb: 2 #\nc: 3 ## good\n", []),
        ("a: |\n  x #y\n  # z\nb: 1 #c\n", [("value-lost", 4, 6)]),
        ('a: "x\n  #y z"\n', []),
    ],
)
def test_what_a_hash_swallows(text: str, places: list[tuple[str, int, int]]) -> None:
    assert composed(text)[1] == places


@pytest.mark.parametrize(
    ("text", "root", "places"),
    [
        ("a: &x 1\n", {"a": "1"}, [("bad-value", 1, 4)]),
        ("a: &x 1\nb: *x\n", {"a": "1", "b": None}, [("bad-value", 1, 4), ("bad-value", 2, 4)]),
        ("a: !!str 4\n", {"a": "4"}, [("bad-value", 1, 4)]),
        ("a:\n  <<: {b: 1}\n  c: 2\n", {"a": {"c": "2"}}, [("bad-value", 2, 3)]),
        ("? [a]\n: b\n", {}, [("bad-value", 1, 3)]),
        ("a: 1\n---\nb: 2\n", {"a": "1"}, [("bad-value", 2, 1)]),
        ("a:\tb\n", {"a": "b"}, [("bad-value", 1, 3)]),
        ("a:\n\tb: 1\n\tc: 2\n", {"a": {"b": "1", "c": "2"}}, [("bad-value", 2, 1)]),
        ("a: 'b\tc' # d\te\n", {"a": "b c"}, []),
        ("a:\n  b:1\n  c: 2\n", {"a": {"b": "1", "c": "2"}}, [("bad-value", 2, 4)]),
        (
            "a:\n  b:1\n  c:2\n  d: 3\n",
            {"a": {"b": "1", "c": "2", "d": "3"}},
            [("bad-value", 3, 4), ("bad-value", 2, 4)],
        ),
        # Glued lines alone are one text for YAML; it is told where a map is wanted.
        ("a:\n  b:1\n  c:2\n", {"a": "b:1 c:2"}, []),
    ],
)
def test_what_is_refused(text: str, root: object, places: list[tuple[str, int, int]]) -> None:
    assert composed(text) == (root, places)


def test_levels_are_read_down_to_50() -> None:
    assert composed("[" * 50 + "]" * 50)[1] == []
    assert composed("[" * 51 + "]" * 51)[1] == [("bad-value", 1, 51)]
    assert composed("[" * 900 + "]" * 900)[1] == [("bad-value", 1, 51)]


def test_a_very_deep_text_does_not_hurt() -> None:
    with pytest.raises(Unreadable):
        composed("[" * 200_000)


@pytest.mark.parametrize(
    ("text", "line", "column", "message"),
    [
        ("", 0, 0, "there is nothing in this file"),
        ("# only a comment\n", 0, 0, "there is nothing in this file"),
        ("a: b: c\n", 1, 5, "A second colon stands here"),
        ("a: {d: #30\nb: 1\n", 1, 8, "`#30` is lost"),
        ("a: {d: # one}\nb: 1\n", 1, 8, "`# one}` is lost"),
        ("a: [1, 2\nb: 3\n", 1, 4, "The bracket `[` is not closed"),
        ("a:\n  b: 1\n c: 2\n", 3, 2, "does not fit the lines above"),
        ("a: 'x\nb: 2\n", 1, 4, "The quote opened here is not closed"),
        ("a: @x\n", 1, 4, "A value cannot begin with `@`"),
        ("a: *important*\n", 1, 4, "A text begins with `*`"),
        ('a: "x\\q"\n', 1, 6, "A backslash stands in double quotes"),
        ("a:\n  b: 1\n\tc: 2\n", 3, 1, "A tab stands here, and other lines are indented by spaces"),
        ("a:\n  just words\n  b: 1\n", 2, 3, "This line has no colon"),
    ],
)
def test_what_is_no_yaml(text: str, line: int, column: int, message: str) -> None:
    with pytest.raises(Unreadable) as caught:
        composed(text)
    assert message in caught.value.message
    if line:
        assert caught.value.at is not None
        assert (caught.value.at.line, caught.value.at.column) == (line, column)
        assert caught.value.message.startswith(f"f:{line}:{column}: ")
