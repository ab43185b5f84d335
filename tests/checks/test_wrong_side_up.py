from pathlib import Path

from tests.checks.expect import STEPS, found_as_marked
from tests.checks.rails import STRAPPED, with_parts


def test_a_rivet_from_below_needs_the_work_turned(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail, strap]
  - rivet: rail.foot.1  # expect: wrong-side-up
    head: lower
"""
    finding = found_as_marked(tmp_path, STRAPPED, STEPS + steps)[0]
    assert (finding.holes, finding.steps) == (("rail.foot.1",), (2,))
    assert (
        finding.message == "rail.foot 1: the side from which this rivet is set lies on the bench in step 2."
    )


def test_turned_over_or_on_trestles_it_goes(tmp_path: Path) -> None:
    rivet = "  - rivet: rail.foot.1\n    head: lower\n"
    place = "  - place: [floor, rail, strap]\n    pins: [rail.foot.2-3, rail.foot.5]\n"
    assert found_as_marked(tmp_path, STRAPPED, STEPS + place + "  - turn over: sideways\n" + rivet) == []
    trestles = STEPS.replace("bench: flat", "bench: trestles")
    assert found_as_marked(tmp_path, STRAPPED, trestles + place + rivet) == []


def test_a_part_that_goes_in_from_below_only(tmp_path: Path) -> None:
    # A well of four walls hangs under the floor round x = 5 to 35, y = 0 to 30; the slug stands in it.
    parts = """\
  slug: {shape: block, length: 10, width: 10, height: 10}
  long wall: {shape: block, length: 40, width: 5, height: 20}
  short wall: {shape: block, length: 5, width: 30, height: 20}
"""
    placed = """\
  wall a: {part: long wall, at: [0, -5, -20], x along: forward, y along: left}
  wall b: {part: long wall, at: [0, 30, -20], x along: forward, y along: left}
  wall c: {part: short wall, at: [0, 0, -20], x along: forward, y along: left}
  wall d: {part: short wall, at: [35, 0, -20], x along: forward, y along: left}
  slug: {part: slug, at: [15, 10, -10], x along: forward, y along: left}
"""
    model = with_parts(parts, placed)
    turn = "  - turn over: sideways\n"
    walls = f"  - place: floor\n{turn}  - place: [wall a, wall b, wall c, wall d]\n"
    assert found_as_marked(tmp_path, model, STEPS + walls + "  - place: slug\n") == []
    marked = STEPS + walls + turn + "  - place: slug  # expect: wrong-side-up\n"
    finding = found_as_marked(tmp_path, model, marked)[0]
    assert finding.parts == ("slug",)
    assert finding.message.startswith("slug: the only way in is from below")
    off = STEPS + walls + "  - place: slug\n" + turn + "  - take off: slug  # expect: wrong-side-up\n"
    finding = found_as_marked(tmp_path, model, off)[0]
    assert finding.message.startswith("slug: the only way out is downwards, and the work lies on the bench")


def test_what_is_in_the_way_above_is_named(tmp_path: Path) -> None:
    # A block stands 8 mm over the rivet: from above no puller goes on, from below there is the bench.
    parts = "  roof: {shape: block, length: 60, width: 60, height: 20}\n"
    placed = "  roof: {part: roof, at: [0, 20, 10], x along: forward, y along: left}\n"
    steps = "  - place: [floor, rail, roof]\n  - rivet: rail.foot.1  # expect: wrong-side-up\n"
    finding = found_as_marked(tmp_path, with_parts(parts, placed), STEPS + steps)[0]
    assert finding.why.startswith("From the side that is up, roof is in the way of every tool.")


def test_a_solid_rivet_is_not_helped_by_turning(tmp_path: Path) -> None:
    model = STRAPPED.replace("blind rivet 3.2", "solid rivet 3.2")
    steps = STEPS.replace("for: blind rivet", "for: solid rivet")
    steps += "  - place: [floor, rail, strap]\n  - rivet: rail.foot.1  # expect: wrong-side-up\n"
    finding = found_as_marked(tmp_path, model, steps)[0]
    assert finding.fix.startswith("A solid rivet needs both ends free: say bench: trestles")
