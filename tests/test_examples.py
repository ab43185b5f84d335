"""Every file in models/ and sequences/ does what it says of itself."""

import subprocess
import sys
from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.checks.run import run
from tests.checks.expect import expected

ROOT = Path(__file__).parents[1]
MODELS = sorted((ROOT / "models").glob("*.yaml"))
SEQUENCES = sorted((ROOT / "sequences").glob("*.yaml"))

GEOMETRY = {
    "holes-off",
    "layer-undrilled",
    "hole-size-differs",
    "parts-interfere",
    "loose-part",
    "gap-in-stack",
    "gap-drawn-shut",
    "single-layer",
    "woven-overlap",
    "rides-the-radius",
}
ORDER = {
    "layer-missing",
    "tool-blocked",
    "no-way-in",
    "under-set-layer",
    "pin-in-the-way",
    "head-under-part",
    "wrong-side-up",
    "fills-left-open",
    "taken-off-when-set",
    "not-drilled",
    "way-out-blocked",
    "never-set",
    "left-open-forever",
    "part-unplaced",
    "still-finger-tight",
    "pins-too-far-apart",
    "stands-on-weak",
    "loose-at-turn-over",
    "set-twice",
    "closing-unchecked",
    "in-kept-space",
}
TRADE = {
    "edge-distance",
    "hole-pitch",
    "grip-out-of-range",
    "rivet-for-sheet",
    "bend-radius",
    "hole-for-fastener",
    "countersink-too-deep",
    "bare-joint",
    "prep-missed",
    "two-fasteners-named",
}


def marked(sequence: Path) -> set[tuple[str, int, str]]:
    """Return the marks of a sequence and of the model of the same name."""
    model = ROOT / "models" / sequence.name
    return expected(str(sequence), sequence.read_text()) | expected(str(model), model.read_text())


def test_every_model_has_a_sequence_and_the_other_way_round() -> None:
    assert [path.name for path in MODELS] == [path.name for path in SEQUENCES] != []


@pytest.mark.parametrize("sequence", SEQUENCES, ids=lambda path: path.stem)
def test_exactly_what_is_marked_is_found(sequence: Path) -> None:
    findings = run(build(str(sequence)))
    found = {(finding.at.file, finding.at.line, finding.kind) for finding in findings}
    if "mistakes" in sequence.stem:
        assert found == marked(sequence)
    else:
        assert [f.message for f in findings if f.severity != "note"] == []


def test_every_kind_of_geometry_and_order_is_planted() -> None:
    planted = {kind for s in SEQUENCES if "mistakes" in s.stem for _, _, kind in marked(s)}
    assert planted >= GEOMETRY | ORDER


def test_every_rule_of_the_trade_is_broken_once_on_the_trial_strips() -> None:
    sequence = ROOT / "sequences" / "trial_strips_mistakes.yaml"
    assert sorted(kind for _, _, kind in marked(sequence)) == sorted(TRADE)
    assert sorted(finding.kind for finding in run(build(str(sequence)))) == sorted(TRADE)


@pytest.mark.parametrize("name", ["battery_shelf_mistakes", "float_bay_mistakes"])
def test_one_structure_has_mistakes_of_many_kinds(name: str) -> None:
    planted = {kind for _, _, kind in marked(ROOT / "sequences" / f"{name}.yaml")}
    assert len(planted & (GEOMETRY | ORDER)) >= 20
    assert planted & GEOMETRY
    assert planted & ORDER


@pytest.mark.parametrize("sequence", SEQUENCES, ids=lambda path: path.stem)
def test_mistakes_come_with_a_reason_and_a_way_out(sequence: Path) -> None:
    for finding in run(build(str(sequence))):
        assert finding.message.endswith(".")
        assert finding.why.endswith(".")
        assert finding.fix.endswith(".")


@pytest.mark.parametrize("sequence", SEQUENCES, ids=lambda path: path.stem)
def test_the_exit_code_tells_about_errors(sequence: Path) -> None:
    command = [sys.executable, "-m", "seqviz", "check", f"sequences/{sequence.name}"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (1 if "mistakes" in sequence.stem else 0, "")
