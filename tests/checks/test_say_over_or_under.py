from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked

# The second rail lies across the first: both lie on the floor, both cover x = 90 to 110, y = 40 to 60.
CROSSING = (
    MODEL.replace(
        "  rail:\n    shape", "      cross: {at: [[100, 20], [100, 80]], size: small}\n  rail:\n    shape"
    )
    + """\
  tie:
    shape: plate
    thickness: 1.0
    outline: [[0, 0], [20, 0], [20, 80], [0, 80]]
    holes:
      eye: {at: [[10, 10], [10, 40], [10, 70]], size: small}
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}
  tie: {part: tie, match: {eye.1: floor.cross.1, eye.3: floor.cross.2}OVER}MARK
"""
)


def test_who_lies_over_whom(tmp_path: Path) -> None:
    text = CROSSING.replace("OVER", "").replace("MARK", "  # expect: say-over-or-under")
    assert found_as_marked(tmp_path, text)[0].parts == ("tie", "rail")


def test_said_there_is_only_the_gap_that_follows(tmp_path: Path) -> None:
    # Over a rail of 1.6 with 10 - 30 mm to bend: the tie's outer holes hang in the air.
    text = CROSSING.replace("OVER", ", over: rail").replace("MARK", "  # expect: gap-in-stack")
    assert found_as_marked(tmp_path, text)[0].holes == ("tie.eye.1", "tie.eye.3")
