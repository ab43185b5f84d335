from pathlib import Path

from tests.checks.expect import SEQUENCE, STEPS, found_as_marked
from tests.checks.test_prep_missed import PLACE, RAILS, RIVET

LAID = "  - place: rail  # expect: bare-joint\n"


def test_parts_that_lie_together_bare(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, RAILS, STEPS + LAID)[0]
    assert (finding.severity, finding.steps, finding.parts) == ("note", (1,), ("rail", "floor"))
    assert finding.message == "Step 1 lays rail on floor, and nothing was primed between them."
    assert finding.why.startswith("The model asks for it: bare 2024.")


def test_primed_when_they_lie_together(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, RAILS, STEPS + LAID + "  - prime: rail\n")[0]
    assert finding.message.endswith("between them. Step 2 came when they lay together.")
    assert finding.steps == (1, 2)


def test_once_they_are_fastened_it_is_the_other_finding(tmp_path: Path) -> None:
    text = STEPS + PLACE + RIVET.replace("\n", "  # expect: prep-missed\n")
    assert [f.kind for f in found_as_marked(tmp_path, RAILS, text)] == ["prep-missed"]


def test_nothing_is_told_once_they_are_apart_again(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, RAILS, f"{STEPS}{PLACE}  - take off: rail\n") == []


def test_a_bolt_that_is_finger_tight_can_come_off_again(tmp_path: Path) -> None:
    model = RAILS.replace("{diameter: 3.3, with: blind rivet 3.2}", "{diameter: 4.8, with: bolt AN3}")
    tools = STEPS.replace("puller: {for: blind rivet,", "spanner: {for: bolt, holds: yes,").replace(
        "bench: flat", "bench: trestles"
    )
    text = f"{tools}{LAID}  - bolt: rail.foot\n    finger tight: yes\n"
    kinds = [f.kind for f in found_as_marked(tmp_path, model, text.replace(", holds: yes", ""))]
    assert kinds == ["bare-joint"]


def test_a_model_alone_and_a_step_that_cannot_be_read_are_silent(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, RAILS) == []
    text = f"{SEQUENCE}  - prime: rial  # expect: unknown-name\n{PLACE}{RIVET}"
    assert [f.kind for f in found_as_marked(tmp_path, RAILS, text)] == ["unknown-name"]
