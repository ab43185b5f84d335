"""YAML text -> a tree of nodes: the text as written, with line and column; nothing is converted or lost."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import yaml

from seqviz.findings import Finding
from seqviz.records.comments import Comments, comments_of, tab_outside
from seqviz.records.nodes import Items, Mapping, Node, Scalar, Spoiled
from seqviz.records.reading import Reading
from seqviz.records.source import Source, Unreadable
from seqviz.records.yaml_slips import YamlSlip, slip_of, tab_slip

__all__ = ["DEEPEST", "Document", "compose"]

DEEPEST = 50
_REPAIRS = 20
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Document:
    """A composed file: its ``root``, its ``comments``, and the mistakes found on the way."""

    root: Node
    comments: Comments
    findings: list[Finding]


def compose(source: Source) -> Document:
    """Compose the nodes of a file.

    Slips after which it is clear what was meant (a tab, a colon without a space) are noted and repaired.

    Raises
    ------
    Unreadable
        The text is not YAML; the message has the place, the reason and the way out.
    """
    reading = Reading(file=source.path)
    text, tabs = source.text, "\t" in source.text
    if tabs:
        mixed = tab_slip(source.lines)
        if mixed is not None:
            raise _unreadable(source, mixed)
        text = text.replace("\t", " ")
    repaired = Source(path=source.path, text=text)
    tree = _tree_of(repaired, reading)
    if tree.root is None:
        raise Unreadable(f"{source.path}: there is nothing in this file but blanks and comments.")
    comments = comments_of(tree.lines, tree.scalars, reading)
    if tabs:
        tab_outside(source.lines, tree.scalars, comments, reading)
    reading.findings.extend(tree.reading.findings)
    return Document(root=tree.root, comments=comments, findings=reading.findings)


def _tree_of(source: Source, reading: Reading) -> _Tree:
    """Compose, and where the text is no YAML repair one slip after another."""
    lines = list(source.lines)
    text = source.text
    lost: list[YamlSlip] = []
    for _ in range(_REPAIRS):
        tree = _Tree(reading=Reading(file=source.path), lines=lines)
        try:
            _take_all(tree, text)
        except yaml.YAMLError as error:
            slip = slip_of(lines, error)
            if slip.repaired is None:
                raise _unreadable(source, slip) from error
            kind = "value-lost" if slip.lost else "bad-value"
            reading.report(kind, source.at(slip.line, slip.column), slip.message, slip.why, slip.fix)
            lost += [slip] if slip.lost else []
            lines[slip.line - 1] = slip.repaired
            text = "\n".join(lines)
        else:
            tree.lose(lost)
            return tree
    at = reading.findings[0].at
    raise Unreadable(
        f"{at}: {reading.findings[0].message} There are many like it. {reading.findings[0].fix}", at
    )


def _take_all(tree: _Tree, text: str) -> None:
    """Feed the tree with the parser's events, one at a time, so that no depth of nesting can hurt."""
    loader = _LOADER(text)
    try:
        while (event := loader.get_event()) is not None:
            tree.take(event)
    finally:
        loader.dispose()


def _unreadable(source: Source, slip: YamlSlip) -> Unreadable:
    at = source.at(slip.line, slip.column)
    return Unreadable(f"{at}: {slip.message} {slip.why} {slip.fix}", at)


def _from_one(mark: Any) -> tuple[int, int]:
    """Return a mark's line and column, counted from 1."""
    return mark.line + 1, mark.column + 1


@dataclass(slots=True, eq=False)
class _Tree:
    """The tree as far as the parser's events have come."""

    reading: Reading
    lines: list[str]
    root: Node | None = None
    scalars: list[tuple[Scalar, int, int]] = field(default_factory=list)
    _open: list[Items | Mapping] = field(default_factory=list)
    _keys: list[Node | None] = field(default_factory=list)
    _skipped: int = 0
    _documents: int = 0

    def take(self, event: Any) -> None:
        """Put one event where it belongs."""
        kind = type(event)
        if kind is yaml.ScalarEvent:
            if not self._skipped and self._documents == 1:
                self._put(self._scalar(event))
        elif kind is yaml.SequenceStartEvent or kind is yaml.MappingStartEvent:
            self._begin(event)
        elif kind is yaml.SequenceEndEvent or kind is yaml.MappingEndEvent:
            self._end()
        elif kind is yaml.AliasEvent:
            self._alias(event)
        elif kind is yaml.DocumentStartEvent:
            self._document(event)

    def lose(self, slips: list[YamlSlip]) -> None:
        """Mark the values that a `#` swallowed: it was told already."""
        for scalar, end_line, end_column in self.scalars:
            start, end = (scalar.line, scalar.column), (end_line, end_column)
            if any(start <= (slip.line, slip.column) < end for slip in slips):
                scalar.lost = True

    def _scalar(self, event: Any) -> Scalar:
        start, end = event.start_mark, event.end_mark
        node = Scalar(event.value, start.line + 1, start.column + 1, not event.style)
        if event.anchor or event.tag:
            self._refuse_marks(event)
        self.scalars.append((node, end.line + 1, end.column + 1))
        return node

    def _begin(self, event: Any) -> None:
        if self._skipped or self._documents != 1:
            self._skipped += 1
            return
        line, column = _from_one(event.start_mark)
        if len(self._open) >= DEEPEST:
            self._too_deep(line, column)
            return
        if event.anchor or event.tag:
            self._refuse_marks(event)
        is_list = isinstance(event, yaml.SequenceStartEvent)
        node: Items | Mapping = Items([], line, column) if is_list else Mapping([], line, column)
        self._put(node)
        self._open.append(node)
        self._keys.append(None)

    def _end(self) -> None:
        if self._skipped:
            self._skipped -= 1
            return
        self._open.pop()
        self._keys.pop()

    def _put(self, node: Node) -> None:
        if not self._open:
            self.root = node
            return
        holder = self._open[-1]
        if isinstance(holder, Items):
            holder.items.append(node)
            return
        key = self._keys[-1]
        if key is None:
            self._keys[-1] = node
            return
        self._keys[-1] = None
        if not isinstance(key, Scalar):
            self._no_word(key)
        elif key.plain and key.text == "<<":
            self._refuse(key, "A merge key `<<`", "Write the words out where they belong.")
        else:
            holder.pairs.append((key, node))

    def _no_word(self, key: Node) -> None:
        if not isinstance(key, Spoiled):
            self.reading.bad(
                key,
                "A list or map stands where a word belongs.",
                "Before a colon stands one word or name.",
                "Write `word: value`.",
            )

    def _too_deep(self, line: int, column: int) -> None:
        self._skipped = 1
        node = Spoiled(line, column)
        self.reading.bad(
            node,
            f"More than {DEEPEST} levels deep.",
            f"Lists and maps are read down to {DEEPEST} levels; no file needs more than ten.",
            "Close a bracket, or indent less.",
        )
        self._put(node)

    def _alias(self, event: Any) -> None:
        if self._skipped or self._documents != 1:
            return
        node = Spoiled(*_from_one(event.start_mark))
        self._refuse(
            node, f"An alias `*{event.anchor}`", "Write it out, or put a text that begins with `*` in quotes."
        )
        self._put(node)

    def _refuse_marks(self, event: Any) -> None:
        # The C parser lets an anchor's event begin at the anchor.
        place = Spoiled(*_from_one(event.start_mark))
        if event.anchor:
            self._refuse(
                place,
                f"An anchor `&{event.anchor}`",
                "Delete it, or put a text that begins with `&` in quotes.",
            )
        if event.tag:
            self._refuse(
                place, f"A tag `{event.tag}`", "Delete it, or put a text that begins with `!` in quotes."
            )

    def _refuse(self, node: Node, what: str, fix: str) -> None:
        why = "Every value is read where it stands, as it is written; nothing is referred to or converted."
        self.reading.bad(node, f"{what} stands here.", why, fix)

    def _document(self, event: Any) -> None:
        self._documents += 1
        if self._documents == 2:
            place = Spoiled(*_from_one(event.start_mark))
            self.reading.bad(
                place,
                "A second document begins here (`---`); the rest of the file is not read.",
                "A file holds one model or one sequence.",
                "Delete the `---`, or put the rest into a file of its own.",
            )
