"""Templates (parts with ``tool: yes``): what may and what may not name them."""

from __future__ import annotations

from collections.abc import Mapping

from seqviz.records.model import HoleChoice, Model, Name, PartRecord, Placed
from seqviz.records.reading import Reading

__all__ = ["no_layer", "no_template", "seats_nothing", "template_as_base", "templates_of"]

_WHY = "A template (a part with `tool: yes`) leads the drill and is taken off again."


def templates_of(model: Model, made: Mapping[str, tuple[str, ...]]) -> frozenset[str]:
    """Return the placed parts that are templates, common names of twins too."""
    tools = {name for name, part in model.parts.items() if part.tool}
    found = {entry.name for entry in model.placed.values() if entry.part and entry.part.text in tools}
    return frozenset(found | {name for entry in found for name in made.get(entry, ())})


def seats_nothing(reading: Reading, entry: Placed, templates: frozenset[str]) -> bool:
    """Say whether an entry of ``placed`` hangs on a template, or lies over or under one, and note it."""
    targets: list[Name | HoleChoice] = [pair.target for pair in entry.match]
    targets += [entry.along] if entry.along else []
    for target in (*targets, *entry.over, *entry.under):
        name = target.text if isinstance(target, Name) else target.placed
        if name in templates:
            reading.bad(
                target.at,
                f"`{name}` is a template: no part lies on it.",
                f"{_WHY} Nothing in the structure hangs on it.",
                "Name the part beneath.",
            )
            return True
    return False


def template_as_base(reading: Reading, base: Name, parts: Mapping[str, PartRecord]) -> bool:
    """Say whether the base is a template, and note it."""
    if base.text not in parts or not parts[base.text].tool:
        return False
    reading.bad(
        base.at,
        f"`{base.text}` is a template, so it cannot be the base.",
        f"{_WHY} The base stays, and everything is placed on it.",
        "Name another part, or delete its `tool: yes`.",
    )
    return True


def no_layer(reading: Reading, name: Name, templates: frozenset[str]) -> bool:
    """Say whether ``name``, which stands where a layer belongs, is a template, and note it."""
    if name.text not in templates:
        return False
    reading.bad(
        name.at,
        f"`{name.text}` is a template: it is no layer of any stack.",
        _WHY,
        f"Write the row that leads the drill: `drill: ..` with `through: {name.text}.ROW`; or name a part.",
    )
    return True


def no_template(reading: Reading, choice: HoleChoice, templates: frozenset[str]) -> bool:
    """Say whether a drill is led through a part that is no template, and note it."""
    if choice.placed in templates:
        return False
    reading.bad(
        choice.at,
        f"`{choice.placed}` is no template.",
        f"{_WHY} Parts that only have to be layers of the stack are named without a row.",
        f"Give its part `tool: yes` if it is a template, or write `through: {choice.placed}`.",
    )
    return True
