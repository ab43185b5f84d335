from pathlib import Path

from tests.checks.expect import STEPS, built, found_as_marked
from tests.checks.rails import with_parts

# The heads of 3.2 rivets reach more than 2 mm from their axes at y = 50. The cover lies on the rail, at
# z = 0.8 + 1.6, and ends 1.7 mm before the axes: no hole of the rail runs into it, the heads do.
COVER = with_parts(
    "  cover: {shape: plate, thickness: 1.2, outline: [[0, 0], [100, 0], [100, 8.2], [0, 8.2]]}\n",
    "  cover: {part: cover, at: [5, 40.1, 2.4], x along: forward, y along: left}\n",
)


def test_heads_stand_where_the_part_lies(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - rivet: rail.foot
    head: upper
  - place: cover  # expect: head-under-part
"""
    finding = found_as_marked(tmp_path, COVER, STEPS + steps)[0]
    # The cover covers x = 5 to 105: over the holes at 20, 60 and 100.
    assert finding.holes == ("rail.foot.1", "rail.foot.2", "rail.foot.3")
    assert finding.steps == (2, 3)
    assert finding.message == "cover cannot lie flat in step 3: rivets in rail.foot 1-3 stand out under it."
    assert [place.at.line for place in finding.related] == [10]


def test_placed_first_there_is_nothing_under_it(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - place: cover  # expect: last-chance\n"
    found_as_marked(tmp_path, COVER, STEPS + steps)


def test_an_opening_takes_the_head(tmp_path: Path) -> None:
    openings = ", ".join(f"head {x}: {{center: [{x}, 9.9], diameter: 12}}" for x in (15, 55, 95))
    text = COVER.replace("[100, 0], ", "[110, 0], ").replace(
        "[100, 8.2], [0, 8.2]]}", f"[110, 20], [0, 20]], openings: {{{openings}}}}}"
    )
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n    head: upper\n  - place: cover\n"
    assert found_as_marked(tmp_path, text, STEPS + steps) == []


def test_what_was_laid_on_heads_comes_off_again_without_a_second_finding(tmp_path: Path) -> None:
    steps = """\
  - place: [floor, rail]
  - rivet: rail.foot
    head: upper
  - place: cover  # expect: head-under-part
  - take off: cover
"""
    found_as_marked(tmp_path, COVER, STEPS + steps)


def test_flush_heads_are_laid_over(tmp_path: Path) -> None:
    # 1.8 x 3.2 = 5.76 wide, 2.56 / 2 / tan 50 = 1.074 deep in the rail of 1.6; tails stand out below.
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n    head: upper\n  - place: cover\n"
    sunk = COVER.replace("with: blind rivet 3.2}", "with: blind rivet 3.2, countersunk: yes}")
    assert found_as_marked(tmp_path, sunk, STEPS + steps) == []
    # The tails of the same rivets set from below stand out as ever.
    below = STEPS.replace("bench: flat", "bench: trestles") + steps.replace("head: upper", "head: lower")
    marked = below.replace("- place: cover", "- place: cover  # expect: head-under-part")
    floor = sunk.replace("size: small}\n  rail", "size: small}  # expect: countersink-too-deep\n  rail")
    kinds = {finding.kind for finding in found_as_marked(tmp_path, floor, marked)}
    assert kinds == {"head-under-part", "countersink-too-deep"}


def test_a_part_without_holes_covers_flush_heads(tmp_path: Path) -> None:
    # The cover lies over the axes at x = 20, 60 and 100; the rail's row says that the heads lie in it.
    wide = COVER.replace("[100, 8.2], [0, 8.2]", "[100, 20], [0, 20]")
    foot = "foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
    sunk = wide.replace(foot, foot.replace("size: small}", "size: small, countersunk: yes}"))
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n    head: upper\n  - place: cover\n"
    assert found_as_marked(tmp_path, sunk, STEPS + steps) == []
    # Where only the size says so nobody knows in which part the head lies: a hole may be missing.
    size = wide.replace("with: blind rivet 3.2}", "with: blind rivet 3.2, countersunk: yes}")
    entry = "  cover: {part: cover, at: [5, 40.1, 2.4], x along: forward, y along: left}"
    marked = size.replace(entry, f"{entry}  # expect: layer-undrilled")
    kinds = {finding.kind for finding in found_as_marked(tmp_path, marked)}
    assert kinds == {"layer-undrilled"}


def test_heads_lie_where_the_row_says(tmp_path: Path) -> None:
    # The floor of 0.8 is the far layer; heads in it are set from below, and the rail's side is free.
    mid = "mid: {from: [20, 50], to: [180, 50], count: 5, size: small}"
    sunk = COVER.replace(mid, mid.replace("size: small}", "size: small, countersunk: yes}"))
    steps = (
        STEPS.replace("bench: flat", "bench: trestles") + "  - place: [floor, rail]\n  - rivet: rail.foot\n"
    )
    build = built(tmp_path, sunk, steps)
    assert build.replay is not None
    assert [build.replay.states[1].head_sides[stack.index] for stack in build.assembly.stacks] == [-1] * 5
    plain = built(tmp_path, COVER, steps)
    assert plain.replay is not None
    assert set(plain.replay.states[1].head_sides.values()) == {1}
