"""The JSON Schema and the docs, both from the tables."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from seqviz.records.actions import ACTIONS
from seqviz.records.schema import file_format, schema
from tests.records.written import MODEL, changed

DOCS = Path(__file__).parents[2] / "docs" / "file-format.md"


def fits(value: Any, form: dict[str, Any]) -> bool:
    """Say whether ``value`` fits a schema, as far as ours use JSON Schema."""
    if "$ref" in form:
        # Steps within steps are the only ones that refer to others.
        assert form["$ref"] == "#/properties/steps"
        return fits(value, schema("sequence")["properties"]["steps"])
    if "anyOf" in form and not any(fits(value, one) for one in form["anyOf"]):
        return False
    if "oneOf" in form and sum(fits(value, one) for one in form["oneOf"]) != 1:
        return False
    if "enum" in form and value not in form["enum"]:
        return False
    if "const" in form and value != form["const"]:
        return False
    kinds = form.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    if kinds and not any(_is(value, kind) for kind in kinds):
        return False
    if isinstance(value, str) and not re.search(form.get("pattern", ""), value):
        return False
    if isinstance(value, int | float) and not (
        form.get("minimum", value) <= value <= form.get("maximum", value)
        and form.get("exclusiveMinimum", value - 1) < value
    ):
        return False
    if isinstance(value, list):
        right = form.get("minItems", 0) <= len(value) <= form.get("maxItems", len(value))
        return right and all(fits(item, form.get("items", {})) for item in value)
    return _map_fits(value, form) if isinstance(value, dict) else True


def _is(value: Any, kind: str) -> bool:
    types: dict[str, Any] = {
        "object": dict,
        "array": list,
        "string": str,
        "integer": int,
        "number": (int, float),
    }
    return isinstance(value, types[kind]) and not isinstance(value, bool)


def _map_fits(value: dict[Any, Any], form: dict[str, Any]) -> bool:
    if not set(form.get("required", ())) <= set(value) or len(value) < form.get("minProperties", 0):
        return False
    for key, inner in value.items():
        forms = [form["properties"][key]] if key in form.get("properties", {}) else []
        patterns = form.get("patternProperties", {})
        forms += [one for pattern, one in patterns.items() if re.search(pattern, str(key))]
        other = form.get("additionalProperties", True)
        if not forms and other is False:
            return False
        forms = forms or ([other] if isinstance(other, dict) else [])
        if not all(fits(inner, one) for one in forms):
            return False
    return True


@pytest.mark.parametrize("which", ["model", "sequence"])
def test_every_example_fits(which: Any) -> None:
    found = sorted((DOCS.parents[1] / f"{which}s").glob("*.yaml"))
    assert found
    for path in found:
        assert fits(yaml.safe_load(path.read_text(encoding="utf-8")), schema(which)), path


def test_the_model_of_these_tests_fits() -> None:
    assert fits(yaml.safe_load(MODEL), schema("model"))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("base: skin\n", ""),
        ("shape: skin", "shape: skinn"),
        ("thickness: 0.8", "thicknes: 0.8"),
        ("thickness: 0.8", "thickness: 0,8"),
        ("thickness: 0.8", "thickness: 0"),
        ("legs: [20, 25]", "legs: [20]"),
        ("count: 30, size: small, both", "count: few, size: small, both"),
        ("7-8: none", "7+8: none"),
        ("both sides: other hand", "both sides: mirrored"),
        ("skin.rail.30}", "30}"),
    ],
)
def test_mistakes_do_not_fit(old: str, new: str) -> None:
    assert not fits(yaml.safe_load(changed(old, new)), schema("model"))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("both sides: other hand", "both_sides: other hand"),
        ("thickness: 0.8", "thickness: 1/32 in"),
        ("legs: [20, 25]", "legs: [20, 25]\n    bend-radius: 2.4 mm"),
        ("outline: [[0, 0], [620, 0], [620, 360], [0, 360]]", "half outline: [[0, 180], [0, 0], [620, 180]]"),
        ("from: [100, 55], to: [100, 305], pitch: 25", "across_at: 40, from centre: 3 in, count: 4"),
        ("from: [100, 55], to: [100, 305], pitch: 25", "grid: [9, 9], columns: 2, rows: 3, at: [1, 1]"),
        (
            "legs: [20, 25]\n    holes:",
            "legs: [20, 25]\n    measured to: 1 mm\n    holes:\n      same as: skin",
        ),
        ("base: skin", "base: skin\nrows from: [a.csv, b.csv]\nmeasured_to: 0.5"),
    ],
)
def test_other_ways_of_writing_fit(old: str, new: str) -> None:
    assert fits(yaml.safe_load(changed(old, new)), schema("model"))


def test_every_action_is_in_the_schema() -> None:
    steps = schema("sequence")["properties"]["steps"]["items"]["anyOf"]
    assert [next(iter(step["properties"])) for step in steps] == [*ACTIONS, "apart"]


STEPS = """\
- place: [a, b]
  pins: ends and every 2nd
- take off: a
- pins: all
  of: a
- apart: set
  up: a.leg 1 outside
  steps:
    - drill: a.foot
      through: guide.lead
    - apart: inner
      sequence: parts/inner.yaml
- turn over: {up: lower, bench: blocks, over the edge: a}
- bolt: everything ready
  finger_tight: yes
- drill out: a.foot.1
- prime: [a, b.foot]
- check: square
  who: JK
  value: 2
"""


def test_every_action_fits() -> None:
    steps = yaml.safe_load(STEPS)
    assert fits({"format": 1, "model": "a.yaml", "steps": steps}, schema("sequence"))
    # A file that another one names at `apart` needs no model.
    assert fits({"format": 1, "steps": steps, "up": "a.web inside", "bench": "blocks"}, schema("sequence"))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("finger_tight: yes", "finger_tight: loose"),
        ("bench: blocks", "bench: table"),
        ("up: a.leg 1 outside", "up: a.leg 1"),
        ("through: guide.lead", "thru: guide.lead"),
        ("who: JK", "whom: JK"),
        ("      sequence: parts/inner.yaml", "      steps: [{plce: a}]"),
    ],
)
def test_mistakes_in_steps_do_not_fit(old: str, new: str) -> None:
    assert old in STEPS
    steps = yaml.safe_load(STEPS.replace(old, new))
    assert not fits({"format": 1, "model": "a.yaml", "steps": steps}, schema("sequence"))


def test_the_docs_are_up_to_date() -> None:
    command = 'python -c "from seqviz.records.schema import file_format as f; print(f(), end=str())"'
    assert DOCS.read_text(encoding="utf-8") == file_format(), f"run: {command} > docs/file-format.md"


def test_the_docs_show_every_table_once() -> None:
    titles = [line for line in file_format().splitlines() if line.startswith("### ")]
    assert len(titles) == len(set(titles))
    assert {"### Skin", "### Row of holes", "### Placed part", "### Step `rivet`", "### Tool"} <= set(titles)
