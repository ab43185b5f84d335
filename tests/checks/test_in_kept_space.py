from pathlib import Path

import pytest

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED

# The strap's upper side is at 0.8 + 1.6 + 1.2 = 3.6 mm, the rail's at 2.4.
STRAP = "  strap: {part: strap, match: {eye.1: rail.foot.2, eye.3: rail.foot.4}}"
KEPT = "keep clear:\n  cable: {{cylinder: 20, from: [0, 50, {z}], to: [200, 50, {z}], why: the lamp}}\n"


# A space 20 across about z = 13.60 ends at 3.6 and only touches; at 13.54 it is met by 0.06.
@pytest.mark.parametrize(("z", "mark"), [(13.6, ""), (13.54, "  # expect: in-kept-space")])
def test_a_part_stands_at_its_entry(tmp_path: Path, z: float, mark: str) -> None:
    model = STRAPPED.replace(STRAP, STRAP + mark) + KEPT.format(z=z)
    for finding in found_as_marked(tmp_path, model):
        assert finding.parts == ("strap",)
        assert finding.message == "strap reaches 0.06 mm into the space cable."
        assert finding.why == "The space cable is to stay clear: the lamp."
        assert [place.message for place in finding.related] == ["The space cable is kept clear here."]


def test_heads_of_rivets_count_once_they_are_set(tmp_path: Path) -> None:
    # From 4.0 mm on: 0.4 above the strap, where heads of 3.2 rivets stand out more.
    model = STRAPPED.replace(STRAP, f"{STRAP}  # expect: in-kept-space") + KEPT.format(z=14)
    steps = "  - place: [floor, rail, strap]\n  - rivet: rail.foot\n    head: upper\n"
    finding = found_as_marked(tmp_path, model, STEPS + steps)[0]
    assert finding.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3")
    assert "the head or tail of these rivets reaches" in finding.message
    free = STRAPPED + KEPT.format(z=14)
    assert found_as_marked(tmp_path, free, STEPS + "  - place: [floor, rail, strap]\n") == []


# A hole of 15 in the floor lets a cable of 15 through, and none of 15.2: 0.1 on every side.
@pytest.mark.parametrize(("diameter", "count"), [(15, 0), (15.2, 1)])
def test_a_hole_that_is_wide_enough_lets_it_through(tmp_path: Path, diameter: float, count: int) -> None:
    way = "      way: {at: [[100, 20]], diameter: 15}\n"
    model = STRAPPED.replace("      mid:", f"{way}      mid:")
    if count:
        model = model.replace("  floor:\n", "  floor:  # expect: in-kept-space\n")
    space = f"{{cylinder: {diameter}, from: [100, 20, -30], to: [100, 20, 30]}}"
    model += f"keep clear:\n  cable: {space}\nlater:\n  - {{holes: floor.way, why: cable}}\n"
    assert len(found_as_marked(tmp_path, model)) == count


def test_a_worse_figure_opens_it_again(tmp_path: Path) -> None:
    known = "known:\n  - {kind: in-kept-space, at: strap, why: soft cable, figure: FIGURE}\n"
    model = STRAPPED + KEPT.format(z=13.5)
    (finding,) = found_as_marked(tmp_path, model + known.replace("FIGURE", "0.1"))
    assert finding.known == "soft cable"
    assert finding.figure == pytest.approx(0.1, abs=0.006)
    marked = model.replace(STRAP, f"{STRAP}  # expect: in-kept-space")
    found_as_marked(tmp_path, marked + known.replace("FIGURE", "0.05"))
