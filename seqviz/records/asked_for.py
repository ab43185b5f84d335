"""What the maker asks for: orders (``after``), preparations, spaces that stay free (``keep clear``)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from seqviz.records.kinds import Choice, Length, Text
from seqviz.records.lists import Entries, ListOf, NameList, Numbers
from seqviz.records.model import Before, KeptSpace, Model, Name, Preparation
from seqviz.records.names import Found, Names, Scope
from seqviz.records.nodes import Node
from seqviz.records.reading import Reading
from seqviz.records.tables import Field, Record, Values, by_name
from seqviz.records.words import as_word

__all__ = ["AFTER", "KEEP_CLEAR", "PREPARATION", "after_linked", "preparation_linked"]


def _after(reading: Reading, values: Values) -> Before | None:
    if values.failed:
        return None
    first, then = values.get("first"), values.get("then")
    both = [name for name in then if name.text in {one.text for one in first}]
    if both:
        reading.bad(
            both[0].at,
            f"`{both[0].text}` cannot come after itself.",
            "`first` and `then` name different parts.",
            "Delete it from one of them.",
        )
        return None
    return Before(first=first, then=then, why=values.get("why", ""), at=reading.at(values.place))


def _preparation(reading: Reading, values: Values) -> Preparation | None:
    if values.failed:
        return None
    return Preparation(
        between=values.get("between"),
        what=values.get("what"),
        why=values.get("why"),
        at=reading.at(values.place),
    )


def _space(reading: Reading, values: Values) -> KeptSpace | None:
    if values.failed:
        return None
    start, end = values.get("from"), values.get("to")
    if start == end:
        reading.bad(
            values.nodes["to"],
            "The space ends where it begins.",
            "It is a cylinder about the line from `from` to `to`.",
            "Write another point.",
        )
        return None
    return KeptSpace(
        name=values.name,
        diameter=values.get("cylinder"),
        start=start,
        end=end,
        why=values.get("why"),
        at=reading.at(values.place),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class What:
    """What is done to surfaces: the action's word, or what is put on."""

    label: str = "what is done: prime, seal or deburr"
    unit: str = ""

    def read(self, reading: Reading, node: Node) -> str | None:
        """Return the action's word."""
        text = reading.text(node, self.label)
        if text is None:
            return None
        put_on = {"primer": "prime", "sealant": "seal", "sealer": "seal"}.get(as_word(text))
        return put_on or _WHAT.of_text(reading, node, text)

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema."""
        return {"enum": [*_WHAT.words, "primer", "sealant", "sealer"]}


_WHAT = Choice(words=("prime", "seal", "deburr"), label="a preparation")
_SPOT = Numbers(count=3, label="a point [x, y, z]")
_WHY = Field(word="why", kind=Text(), help="The reason.")

_AFTER = Record(
    title="an entry of `after`",
    help="An order that the maker asks for. Read, not used yet.",
    fields=(
        Field(
            word="first",
            kind=NameList,
            help="What comes first: placed parts, or sub-assemblies of the sequence.",
            required=True,
        ),
        Field(word="then", kind=NameList, help="What comes after it.", required=True),
        _WHY,
    ),
    build=_after,
)
_PREPARATION = Record(
    title="an entry of `preparation`",
    help="What goes between placed parts before they are joined; `prep-missed` says where no step does it.",
    fields=(
        Field(
            word="between",
            kind=ListOf(each=NameList.each, label="a list of two or more placed parts", least=2),
            help="The parts.",
            required=True,
        ),
        Field(word="what", kind=What(), help="prime, seal or deburr: the step that does it.", required=True),
        _WHY,
    ),
    build=_preparation,
)
_KEEP_CLEAR = Record(
    title="an entry of `keep clear`",
    help="A space of the finished structure that stays free: for a cable, a control, a hand.",
    fields=(
        Field(word="cylinder", kind=Length(above=0.0), help="Its diameter.", required=True),
        Field(
            word="from", kind=_SPOT, help="Where its middle line begins, in the base's frame.", required=True
        ),
        Field(word="to", kind=_SPOT, help="Where it ends.", required=True),
        _WHY,
    ),
    build=_space,
)

AFTER = ListOf(each=_AFTER, label="a list of orders", least=0, keep=True)
"""``after``."""

PREPARATION = ListOf(each=_PREPARATION, label="a list of preparations", least=0, keep=True)
"""``preparation``."""

KEEP_CLEAR = Entries(entry=by_name(_KEEP_CLEAR), value=_KEEP_CLEAR, label="spaces by name")
"""``keep clear``."""


def preparation_linked(
    reading: Reading, entries: tuple[Preparation, ...], names: Names
) -> tuple[Preparation, ...]:
    """Return the entries whose placed parts are there."""
    return tuple(
        entry
        for entry in entries
        if Found.WRONG not in [names.placed.look_up(reading, name) for name in entry.between]
    )


def after_linked(reading: Reading, model: Model, pieces: Scope) -> Model:
    """Return the model with the orders whose placed parts and sub-assemblies (``pieces``) are there.

    Only with a sequence it is known which sub-assemblies there are; a model alone keeps all.
    """
    good = tuple(entry for entry in model.after if _stands(reading, entry, pieces))
    return replace(model, after=good)


def _stands(reading: Reading, entry: Before, pieces: Scope) -> bool:
    named: tuple[Name, ...] = (*entry.first, *entry.then)
    return Found.WRONG not in [pieces.look_up(reading, name) for name in named]
