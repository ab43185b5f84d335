from pathlib import Path

from tests.checks.expect import MODEL, SEQUENCE, found_as_marked
from tests.checks.rails import PLACED

SCREWED = (
    MODEL.replace("with: blind rivet 3.2", "with: screw").replace(
        "parts:\n", "hardware: {screw: {kind: bolt, diameter: 3.2}}\nparts:\n", 1
    )
    + PLACED
)
FINISHED = SEQUENCE.replace("bench: flat", "bench: trestles").replace("for: blind rivet", "for: bolt")
LOOSE = "  - place: rail\n  - bolt: rail.foot{mark}\n    finger tight: yes\n"


def test_bolts_never_tightened_stand_where_they_were_run_on(tmp_path: Path) -> None:
    steps = LOOSE.format(mark="  # expect: still-finger-tight") + "  - bolt: rail.foot.1-3\n"
    finding = found_as_marked(tmp_path, SCREWED, FINISHED + steps)[0]
    assert (finding.holes, finding.steps) == (("rail.foot.4", "rail.foot.5"), (2,))
    assert finding.message == (
        "rail.foot 4-5: step 2 runs these bolts on finger tight, and no step tightens them."
    )
    assert finding.fix == "Add a bolt step for these bolts after step 2, without finger tight."


def test_tightened(tmp_path: Path) -> None:
    steps = FINISHED + LOOSE.format(mark="") + "  - bolt: everything ready\n"
    assert found_as_marked(tmp_path, SCREWED, steps) == []


def test_while_the_work_goes_on_they_may_be_loose(tmp_path: Path) -> None:
    steps = FINISHED.replace("finished: yes", "finished: no") + LOOSE.format(mark="")
    assert found_as_marked(tmp_path, SCREWED, steps) == []


def test_a_step_that_could_not_be_read_may_tighten_them(tmp_path: Path) -> None:
    steps = FINISHED + LOOSE.format(mark="") + "  - bolt: rail.feet  # expect: unknown-name\n"
    found_as_marked(tmp_path, SCREWED, steps)
