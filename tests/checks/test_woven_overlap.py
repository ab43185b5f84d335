from pathlib import Path

from tests.checks.expect import FLOOR, found_as_marked

STRIPS = """\
parts:
  floor:
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [200, 0], [200, 200], [0, 200]]
    holes:
      south: {at: [[45, 20], [155, 20]], diameter: 3.3}
      north: {at: [[45, 180], [155, 180]], diameter: 3.3}
      west:  {at: [[20, 45], [20, 155]], diameter: 3.3}
      east:  {at: [[180, 45], [180, 155]], diameter: 3.3}
  strip:
    shape: plate
    thickness: 0.5
    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]
    holes:
      eye: {at: [[35, 10], [145, 10]], diameter: 3.3}
placed:
  a: {part: strip, match: {eye.1: floor.south.1, eye.2: floor.south.2}, over: b}
  b: {part: strip, match: {eye.1: floor.east.1, eye.2: floor.east.2}, over: c}
  c: {part: strip, match: {eye.1: floor.north.1, eye.2: floor.north.2}, over: d}
"""
LAST = "  d: {part: strip, match: {eye.1: floor.west.1, eye.2: floor.west.2}, "


def strips(last: str, over: str = "d", shut: str = "") -> str:
    """Four strips round the floor's edge; those of which ``shut`` is the first lie at most 1 mm over it."""
    text = (FLOOR + STRIPS + LAST + last).replace(", over: d}", f", over: {over}}}" if over else "}")
    lines = [
        line + "  # expect: gap-drawn-shut" if line[:5] in [f"  {name}: " for name in shut] else line
        for line in text.splitlines()
    ]
    return "\n".join(lines) + "\n"


def test_four_strips_like_the_flaps_of_a_carton(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, strips("over: a}  # expect: woven-overlap", shut="a"))[0]
    assert finding.message == (
        "The lay-up goes round in a circle: a over b, b over c, c over d, d over a. "
        "These parts cannot be laid one after the other; a must be slid in under d."
    )
    assert finding.parts == ("d", "a", "b", "c")
    # At the word `a` behind `over: `.
    assert finding.at.column == len(LAST) + len("over: ") + 1


def test_under_says_it_too(tmp_path: Path) -> None:
    # Both words of the last name are ignored, so both ends of d are slid in.
    text = strips("over: a, under: c}  # expect: woven-overlap", over="", shut="b")
    finding = found_as_marked(tmp_path, text)[0]
    assert finding.severity == "warning"
    assert finding.message.endswith("; d must be slid in under c, a must be slid in under d.")


def test_without_a_circle_there_is_nothing(tmp_path: Path) -> None:
    text = strips("under: [a, c]}", shut="a")
    assert [finding.kind for finding in found_as_marked(tmp_path, text)] == ["gap-drawn-shut"]
