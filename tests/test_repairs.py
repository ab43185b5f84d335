"""Moving steps and turning the work over mends the planted mistakes in the order of work, and no others."""

from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.checks.run import run
from tests.checks.expect import expected
from tests.moving import moved

ROOT = Path(__file__).parents[1]
SHELF = (
    ("rivet: shelf skin.rail right.27", "place: [aft gusset left"),
    ("rivet: shelf skin.rail left.12-14", "open no longer: shelf skin.rail left.13-14"),
    ("pull pins: shelf skin.rail left.3", "place: [rail left, rail right]"),
    ("rivet: name plate.rim", "drill: name plate.rim"),
    ("rivet: label plate.rim", "place: [name plate, label plate]"),
    ("place: shim", "place: bracket doubler"),
    ("rivet: strap bracket.strap", "place: strap doubler"),
    ("rivet: shelf skin.stiffener", "turn over: sideways"),
    ("rivet: everything ready\nexcept: shelf skin.rail right.14\n", "place: [foot left, foot right]"),
)
"""Step, and the one behind which it belongs."""
BAY = (
    ("rivet: [keel channel.keel", "turn over: {up: lower"),
    ("place: [bottom skin left", "turn over: {up: upper"),
    ("rivet: strut fitting.locate", "take off: drill template"),
    ("bolt: strut fitting.bolts", "deburr: strut fitting.bolts"),
    ("pull pins: forward side skin left.gunwale.3", "place: [gunwale angle left"),
    ("rivet: forward side skin left.lap", "open no longer"),
    ("rivet: aft side skin left.gunwale.8", "open no longer"),
    ("rivet: chine angle right.bottom.6-7", "open no longer"),
    ("take off: spreader", "place: [spreader"),
    ("inspect: every solid rivet", "take off: spreader"),
    ("place: float bag", "inspect: every solid rivet"),
)


def repaired(name: str, moves: tuple[tuple[str, str], ...]) -> str:
    """Return the sequence once its steps are moved."""
    text = (ROOT / "sequences" / f"{name}.yaml").read_text(encoding="utf-8")
    for step, behind in moves:
        text = moved(text, step, behind)
    return text


def unmoved(file: str, text: str) -> set[tuple[str, int, str]]:
    """Return the marks on lines that say that moving does not help."""
    lines = [line if "# not by moving" in line else "" for line in text.splitlines()]
    return expected(file, "\n".join(lines))


@pytest.mark.parametrize(
    ("name", "moves"), [("battery_shelf_mistakes", SHELF), ("float_bay_mistakes", BAY)], ids=["shelf", "bay"]
)
def test_moving_steps_leaves_what_is_marked_so(
    tmp_path: Path, name: str, moves: tuple[tuple[str, str], ...]
) -> None:
    model = (ROOT / "models" / f"{name}.yaml").read_text(encoding="utf-8")
    steps = repaired(name, moves)
    for folder, text in (("models", model), ("sequences", steps)):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    findings = run(build(str(tmp_path / "sequences" / f"{name}.yaml")))
    found = {(Path(f.at.file).resolve().parent.name, f.at.line, f.kind) for f in findings}
    assert found == unmoved("models", model) | unmoved("sequences", steps)
