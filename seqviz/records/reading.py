"""What is carried along while one file is read: its unit, its comments, and the mistakes found so far."""

from __future__ import annotations

from collections.abc import Mapping as MappingType
from dataclasses import dataclass, field

from seqviz.findings import At, Finding, Related
from seqviz.records.model import MirrorLine
from seqviz.records.nodes import Items, Mapping, Node, Scalar, Spoiled
from seqviz.units import Slip

__all__ = ["Located", "Reading"]

Located = Node | At


@dataclass(slots=True, eq=False)
class Reading:
    """One file that is being read.

    Attributes
    ----------
    file
        Its name in findings.
    emptied
        (line, column) of an empty value -> the ``#`` that stands in its place.
    units
        ``mm`` or ``in``: what a plain number means.
    base
        The name of the model's base, where it is known.
    mirror_line, mirror_lost
        The model's mirror line; whether one is written that cannot be read.
    made_by
        ``kit`` or ``me``: who made the parts that do not say so themselves.
    findings
        All mistakes so far.
    """

    file: str
    emptied: MappingType[tuple[int, int], Spoiled] = field(default_factory=dict)
    units: str = "mm"
    base: str | None = None
    mirror_line: MirrorLine | None = None
    mirror_lost: bool = False
    made_by: str = "kit"
    findings: list[Finding] = field(default_factory=list)

    def at(self, place: Located) -> At:
        """Return the place of a node."""
        if isinstance(place, At):
            return place
        # What comes from another file says so itself.
        file: str = getattr(place, "file", self.file)
        return At(file=file, line=place.line, column=place.column)

    def report(  # one argument for each thing that a finding says
        self, kind: str, place: Located, message: str, why: str, fix: str, related: tuple[Related, ...] = ()
    ) -> None:
        """Note a mistake."""
        self.findings.append(
            Finding(
                kind=kind,
                severity="error",
                at=self.at(place),
                message=message,
                why=why,
                fix=fix,
                related=related,
            )
        )

    def bad(self, place: Located, message: str, why: str, fix: str) -> None:
        """Note a ``bad-value``."""
        self.report("bad-value", place, message, why, fix)

    def slip(self, place: Located, slip: Slip) -> None:
        """Note a value that is not written as it should be."""
        self.bad(place, slip.message, slip.why, slip.fix)

    def duplicate(self, what: str, second: Located, first: Located) -> None:
        """Note that ``what`` stands twice."""
        at = self.at(first)
        where = f"in line {at.line}" if at.file == self.at(second).file else f"at {at}"
        self.report(
            "duplicate-name",
            second,
            f"{what} stands here a second time; the first is {where}.",
            "Of two with one name it would be unclear which is meant.",
            "Rename or delete one of them.",
            (Related(at=at, message="the first one"),),
        )

    def without_value(self, key: Scalar, value: Node, label: str) -> bool:
        """Say whether ``key`` has no value, and note it."""
        if not isinstance(value, Scalar) or not value.empty:
            return False
        if value.lost:
            return True
        mark = self.emptied.get((value.line, value.column))
        if mark is None:
            self.bad(
                key,
                f"`{key.text}` has no value.",
                f"Here belongs {label}.",
                "Write the value behind the colon.",
            )
        else:
            self.report(
                "value-lost",
                mark,
                f"The value of `{key.text}` is lost: `#` makes the rest of the line a comment.",
                f"Behind `{key.text}:` belongs {label}.",
                "Write the value before the `#`, or put it in quotes; a drill is `No. 30`.",
            )
        return True

    def text(self, node: Node, label: str) -> str | None:
        """Return the text of a single value, None (with its finding) where there is none."""
        if isinstance(node, Scalar):
            if node.lost:
                return None
            if node.text.strip():
                return node.text
            self.bad(node, "There is nothing here.", f"Here belongs {label}.", "Write the value.")
        elif isinstance(node, Items):
            self.bad(
                node,
                "A list stands here.",
                f"Here belongs {label}.",
                "Write one value, without brackets or dashes.",
            )
        elif isinstance(node, Mapping):
            self.bad(node, "Words with values stand here.", f"Here belongs {label}.", "Write one value.")
        return None

    def mapping(self, node: Node, label: str) -> Mapping | None:
        """Return ``node`` where it is words with values, else None (with its finding)."""
        if isinstance(node, Mapping):
            return node
        if isinstance(node, Scalar) and not node.lost:
            self.bad(node, *_no_mapping(node.text, label))
        elif isinstance(node, Items):
            self.bad(
                node,
                "A list stands here.",
                f"Here belongs {label}: words with values.",
                "Write `word: value` lines, without dashes, or {word: value}.",
            )
        return None

    def items(self, node: Node, label: str) -> list[Node] | None:
        """Return the entries where ``node`` is a list, else None (with its finding)."""
        if isinstance(node, Items):
            return node.items
        if not isinstance(node, Spoiled) and not (isinstance(node, Scalar) and node.lost):
            self.bad(
                node,
                "This is no list.",
                f"Here belongs {label}.",
                "Begin each entry with a dash and a space, or write [a, b].",
            )
        return None


def _no_mapping(text: str, label: str) -> tuple[str, str, str]:
    before, colon, behind = text.partition(":")
    why = f"Here belongs {label}: words with values."
    if colon and behind[:1].strip():
        return (
            f"A colon without a space after it: `{before}:{behind.split()[0]}`.",
            "Word and value are told apart by a colon and a space.",
            "Put a space behind the colon.",
        )
    shown = text if len(text) <= 40 else text[:40] + ".."
    return f"`{shown}` stands here alone.", why, "Write `word: value` lines, or {word: value}."
