"""Every edge, opening and bend of every layer, on the limit and on both sides of it."""

from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.checks.run import broken_rules
from tests.checks.expect import found_as_marked
from tests.checks.sheets import HEAD, mine, pair

EDGE = "  # expect: edge-distance"


def two(y: float, size: str = "small", mark: str = "") -> str:
    """Two holes 20 apart at 20 and 40 of the strap, ``y`` from its lower edge."""
    row = f"{{from: [120, {100 + y}], to: [140, {100 + y}], count: 2, size: {size}}}"
    return pair(row, f"{{from: [20, {y}], to: [40, {y}], count: 2, size: {size}}}{mark}")


def test_two_diameters_of_the_rivet_pass_and_less_does_not(tmp_path: Path) -> None:
    # D is the rivet's 3.2, not the hole's 3.3: 2 x 3.2 = 6.4.
    assert mine(tmp_path, two(6.4)) == []
    assert mine(tmp_path, two(6.4 - 1e-7)) == []
    (finding,) = mine(tmp_path, two(6.0, mark=EDGE))
    assert (finding.severity, finding.parts) == ("warning", ("strap",))
    assert finding.holes == ("strap.eye.1", "strap.eye.2")
    assert finding.figure == pytest.approx(0.4)
    assert finding.message == (
        "strap.eye 1-2: down to 6 mm from the middle of these holes to the edge of face, in the layer strap; "
        "6.4 mm is asked, 2 times 3.2 mm. 0.4 mm is lacking."
    )
    assert "FAA AC 43.13-1B, paragraph 4-57c(1) (secondary)" in finding.why
    assert "Army TM 10-5410-229-13&P" in finding.why


def test_without_a_named_fastener_the_hole_counts(tmp_path: Path) -> None:
    # 2 x 3.3 = 6.6.
    text = two(6.5, mark=EDGE).replace(", with: blind rivet 3.2}", "}")
    assert mine(tmp_path, text)[0].figure == pytest.approx(0.1)
    assert mine(tmp_path, two(6.6).replace(", with: blind rivet 3.2}", "}")) == []


def test_under_a_countersunk_head_two_and_a_half(tmp_path: Path) -> None:
    # 2.5 x 3.2 = 8.
    assert mine(tmp_path, two(8.0, "flush")) == []
    (finding,) = mine(tmp_path, two(7.5, "flush", EDGE))
    assert finding.figure == pytest.approx(0.5)
    assert "8 mm is asked under a countersunk head, 2.5 times 3.2 mm" in finding.message
    # The sources disagree: the stricter first, then those that ask for less.
    assert "2.5 D: FAA-H-8083-31, chapter 4, from memory; 2 D: FAA AC 43.13-1B" in finding.why


def test_each_layer_is_asked_by_itself(tmp_path: Path) -> None:
    # The floor's row lies 5 from its lower edge, the strap's 20 from its own.
    row = "{from: [120, 5], to: [140, 5], count: 2, size: small}"
    text = pair(f"{row}{EDGE}", "{from: [20, 20], to: [40, 20], count: 2, size: small}")
    (finding,) = mine(tmp_path, text)
    assert finding.parts == ("floor",)
    assert finding.figure == pytest.approx(1.4)


def test_an_opening_is_an_edge_and_has_its_name(tmp_path: Path) -> None:
    # The opening's lower side is at 26, the row at 20: 6 from it.
    opening = "    openings: {window: {outline: [[10, 26], [60, 26], [60, 35], [10, 35]]}}\n"
    row = "{from: [120, 120], to: [140, 120], count: 2, size: small}"
    text = pair(row, f"{{from: [20, 20], to: [40, 20], count: 2, size: small}}{EDGE}", more=opening)
    (finding,) = mine(tmp_path, text)
    assert "6 mm from the middle of these holes to the opening window" in finding.message
    assert mine(tmp_path, text.replace("26]", "26.4]").replace(EDGE, "")) == []


ANGLE = """\
parts:
  floor:
    shape: skin
    thickness: 1.2
    outline: [[0, 0], [300, 0], [300, 200], [0, 200]]
    holes:
      mid: {from: [120, 100], to: [180, 100], count: 4, size: small}
  rail:
    shape: angle
    thickness: 1.2
    length: 100
    legs: [25, 25]
    bend radius: 2
    holes:
      foot: {flat: leg 1, from: [20, AT], to: [80, AT], count: 4, size: small}MARK
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.4: floor.mid.4}, standing leg: right}
"""


def test_the_bend_begins_at_its_tangent(tmp_path: Path) -> None:
    # Tangent at radius + thickness = 3.2 from the corner: 3.2 + 6.4 = 9.6.
    assert mine(tmp_path, HEAD + ANGLE.replace("AT", "9.6").replace("MARK", "")) == []
    (finding,) = mine(tmp_path, HEAD + ANGLE.replace("AT", "9").replace("MARK", EDGE))
    assert finding.message.startswith(
        "rail.foot 1-4: down to 5.8 mm from the middle of these holes to the bend of leg 1, in the layer rail"
    )
    assert finding.figure == pytest.approx(0.6)
    # And the free edge at 25: 25 - 19 = 6.
    (finding,) = mine(tmp_path, HEAD + ANGLE.replace("AT", "19").replace("MARK", EDGE))
    assert "to the edge of leg 1" in finding.message


def test_left_and_right_of_one_entry_are_one_finding(tmp_path: Path) -> None:
    text = HEAD.replace("base: floor\n", "base: floor\nmirror line: y=100\n") + ANGLE
    text = text.replace(
        "[120, 100], to: [180, 100], count: 4, size: small",
        "[120, 30], to: [180, 30], count: 4, size: small, both sides: yes",
    )
    text = text.replace("standing leg: right", "standing leg: outboard, both sides: other hand")
    (finding,) = mine(tmp_path, text.replace("AT", "9").replace("MARK", EDGE))
    assert finding.parts == ("rail left", "rail right")
    assert len(finding.holes) == 8


def edges(folder: Path, words: str) -> dict[str, float | None]:
    """Return hole -> what is lacking, of the angle with further ``words``."""
    text = HEAD + ANGLE.replace("AT", "12").replace("MARK", "")
    (folder / "model.yaml").write_text(text.replace("    bend radius: 2\n", f"    bend radius: 2\n{words}"))
    made = build(str(folder / "model.yaml"))
    assert made.assembly.placed["rail"].part.worked is not None, [f.message for f in made.noticed]
    found = [finding for finding in broken_rules(made) if finding.kind == "edge-distance"]
    return {hole: finding.figure for finding in found for hole in finding.holes}


def test_kinks_and_joggles_are_no_edges_and_cut_ends_are(tmp_path: Path) -> None:
    # Holes at 20, 40, 60 and 80 of the rail. The ramp of the joggle goes from 63 to 67: 3 from a hole.
    joggle = "    joggles: [{at: end, length: 33, depth: 1.2, run: 4, flat: leg 1, towards: inside}]\n"
    assert edges(tmp_path, joggle) == {}
    # A corner cut off from (70, 25) to (100, 5) is (30 x 13 - 20 x 10) / sqrt(30^2 + 20^2) from (80, 12).
    cut = "    cut ends: {end: {leg 1: [30, 20]}}\n"
    assert edges(tmp_path, cut) == {"rail.foot.4": pytest.approx(6.4 - 190 / 1300**0.5)}


def test_single_holes_and_those_that_are_off_are_not_asked(tmp_path: Path) -> None:
    alone = two(6.0).partition("placed:")[0]
    assert found_as_marked(tmp_path, alone) == []


def test_known_settles_it_until_it_is_worse(tmp_path: Path) -> None:
    known = "known:\n  - {kind: edge-distance, at: strap.eye, why: drawn so, figure: FIGURE mm}\n"
    (settled,) = mine(tmp_path, two(6.0) + known.replace("FIGURE", "0.4"))
    assert settled.known == "drawn so"
    (open_again,) = mine(tmp_path, two(5.5, mark=EDGE) + known.replace("FIGURE", "0.4"))
    assert open_again.known is None
    assert open_again.message.endswith("It was settled at 0.4 mm; now it is 0.9 mm.")


def test_inches_are_told_in_inches(tmp_path: Path) -> None:
    text = two(6.0, mark=EDGE).replace("made by: me\n", "made by: me\nunits: in\n")
    text = text.replace("diameter: 3.3, with: blind rivet 3.2", "diameter: 3.3 mm, with: blind rivet 1/8")
    # 0.2 in to the edge; 2 x 0.125 = 0.25.
    for old, new in {
        "120, 106.0": "4.8, 4.2",
        "140, 106.0": "5.6, 4.2",
        "20, 6.0": "0.8, 0.2",
        "40, 6.0": "1.6, 0.2",
        "[[0, 0], [300, 0], [300, 200], [0, 200]]": "[[0, 0], [12, 0], [12, 8], [0, 8]]",
        "[[0, 0], [100, 0], [100, 40], [0, 40]]": "[[0, 0], [4, 0], [4, 2], [0, 2]]",
        "thickness: 1.2": "thickness: 0.05",
    }.items():
        assert old in text, old
        text = text.replace(old, new)
    (finding,) = mine(
        tmp_path, text.replace("4.9, with", "4.9 mm, with").replace("6.4, with", "6.4 mm, with")
    )
    assert "0.25 in is asked, 2 times 0.125 in. 0.05 in is lacking" in finding.message


STEPS = """\
format: 1
model: model.yaml
up: upper
finished: no
steps:
  - place: strap
  - drill: floor.mid
"""


def test_what_a_step_drills_through_a_part_is_asked_there(tmp_path: Path) -> None:
    # The strap has two holes to be matched by, and no holes where the floor's other two are: 5 from its edge.
    row = "{at: [[120, 120], [140, 120], [160, 105], [180, 105]], size: small}"
    text = pair(row, "{from: [20, 20], to: [40, 20], count: 2, size: small}")
    assert mine_of(tmp_path, text) == []
    text = text.replace("floor.mid.2}}", f"floor.mid.2}}}}{EDGE}")
    (finding,) = [f for f in found_as_marked(tmp_path, text, STEPS) if f.kind == "edge-distance"]
    assert finding.parts == ("strap",)
    assert finding.holes == ("floor.mid.3", "floor.mid.4")
    assert finding.figure == pytest.approx(1.4)


def mine_of(folder: Path, text: str) -> list[str]:
    """Return the parts at which an edge is too near, of a model alone: there nobody drills."""
    (folder / "model.yaml").write_text(text)
    found = broken_rules(build(str(folder / "model.yaml")))
    return [part for finding in found if finding.kind == "edge-distance" for part in finding.parts]
