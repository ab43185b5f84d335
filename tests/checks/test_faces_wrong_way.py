from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked

ANGLE = (
    MODEL.replace("    shape: plate\n", "    shape: angle\n")
    .replace("    outline: [[0, 0], [180, 0], [180, 20], [0, 20]]\n", "    length: 180\n    legs: [20, 20]\n")
    .replace("foot: {from", "foot: {flat: leg 1, from")
    + """\
placed:
  rail:MARK
    part: rail
    match: {foot.1: floor.mid.1, foot.5: floor.mid.5}
    standing leg: SIDE
"""
)


def test_the_leg_stands_on_the_other_side(tmp_path: Path) -> None:
    wrong = {}
    for side in ("left", "right"):
        text = ANGLE.replace("SIDE", side)
        try:
            found_as_marked(tmp_path, text.replace("MARK", ""))
            wrong[side] = False
        except AssertionError:
            found = found_as_marked(tmp_path, text.replace("MARK", "  # expect: faces-wrong-way"))
            assert found[0].parts == ("rail",)
            wrong[side] = True
    # y of leg 1 runs from the outer corner: the corner lies on the right (y = 0), so the leg stands there.
    assert wrong == {"left": True, "right": False}
