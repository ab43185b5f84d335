"""Inside radii against table 4-6 of AC 43.13-1B, at its columns and between them."""

from pathlib import Path

import pytest

from tests.checks.sheets import mine

MODEL = """\
format: 1
name: Trial
base: clip
made by: me
parts:
  clip:
    shape: SHAPE
    thickness: THICK in
    bend radius: RADIUS in
    material: METAL
"""
ANGLE = "angle\n    length: 40\n    legs: [30, 30]"
TIGHT = "  # expect: bend-radius"


def clip(metal: str, thick: float, radius: float, shape: str = ANGLE, mark: str = "") -> str:
    """An angle, or another shape, with its mark on the line of its name."""
    text = MODEL.replace("SHAPE", shape).replace("THICK", str(thick)).replace("RADIUS", str(radius))
    return text.replace("METAL", metal).replace("  clip:\n", f"  clip:{mark}\n")


@pytest.mark.parametrize(
    ("metal", "thick", "least"),
    [
        ("2024-T3", 0.032, 0.064),  # 2 t
        ("6061-T6", 0.032, 0.016),  # 0.5 t
        ("5052-H32", 0.064, 0.032),  # 0.5 t
        ("7075-T6 clad", 0.064, 0.256),  # 4 t
        ("2024-T3", 0.040, 0.120),  # between .032 (2 t) and .064 (3 t): 3 t
    ],
)
def test_the_lesser_multiple_is_the_limit(tmp_path: Path, metal: str, thick: float, least: float) -> None:
    assert mine(tmp_path, clip(metal, thick, least)) == []
    (finding,) = mine(tmp_path, clip(metal, thick, least - 0.002, mark=TIGHT))
    assert (finding.severity, finding.parts) == ("warning", ("clip",))
    assert finding.figure == pytest.approx(0.0508)
    assert "FAA AC 43.13-1B, table 4-6" in finding.why


def test_between_two_columns_it_says_so(tmp_path: Path) -> None:
    (finding,) = mine(tmp_path, clip("2024-T3", 0.040, 0.06, mark=TIGHT))
    # 3 x 1.016 = 3.048; 0.06 in is 1.524.
    assert finding.message == (
        "clip: the inside radius of its bend is 1.52 mm; 3.05 mm is asked, 3 times the thickness of 1.02 mm. "
        "1.52 mm is lacking."
    )
    assert "the next thicker with its larger multiples counts (project choice)" in finding.why
    (exact,) = mine(tmp_path, clip("2024-T3", 0.032, 0.06, mark=TIGHT))
    assert "project choice" not in exact.why


def test_what_the_table_does_not_list_is_passed_over(tmp_path: Path) -> None:
    for metal in ("2024", "mild steel", "6061-T651", "2219-T87"):
        assert mine(tmp_path, clip(metal, 0.064, 0.0)) == []
    # Thicker than the last column, .258.
    assert mine(tmp_path, clip("2024-T3", 0.3, 0.1)) == []
    nothing_said = clip("2024-T3", 0.064, 0.0).replace("    material: 2024-T3\n", "")
    assert mine(tmp_path, nothing_said) == []


def test_frames_channels_and_pieces_of_fittings_bend_too(tmp_path: Path) -> None:
    channel = "channel\n    length: 40\n    flanges: [20, 20]\n    web: 40"
    (finding,) = mine(tmp_path, clip("2024-T3", 0.032, 0.02, channel, TIGHT))
    assert "the inside radius of its bends is 0.51 mm" in finding.message
    frame = (
        "frame\n    outline: [[0, 0], [100, 0], [100, 60], [0, 60]]\n    flanges: {left edge: {width: 15}}"
    )
    assert len(mine(tmp_path, clip("2024-T3", 0.032, 0.02, frame, TIGHT))) == 1
    flat = frame.partition("\n    flanges")[0] + "\n    flanges: {}"
    assert mine(tmp_path, clip("2024-T3", 0.032, 0.02, flat)) == []
    piece = "{shape: angle, thickness: 1, length: 30, legs: [20, 20], bend radius: 0.5}"
    text = MODEL.partition("    thickness")[0].replace(
        "SHAPE", "fitting\n    material: 2024-T3\n    pieces:\n      lug: "
    )
    (finding,) = mine(tmp_path, text.rstrip() + f" {piece}{TIGHT}\n")
    # Between .032 and .064: 3 x 1 = 3.
    assert "its bend of lug is 0.5 mm; 3 mm is asked" in finding.message


def test_a_roll_is_a_bend(tmp_path: Path) -> None:
    sheet = (
        "skin\n    outline: [[0, 0], [100, 0], [100, 60], [0, 60]]\n"
        f"    rolled: {{radius: 2, about: [[50, 0], [50, 60]], angle: 40}}{TIGHT}"
    )
    text = clip("2024-T3", 0.064, 0.0, sheet).replace("    bend radius: 0.0 in\n", "")
    (finding,) = mine(tmp_path, text)
    # 3 x 1.6256 = 4.877.
    assert finding.figure == pytest.approx(3 * 0.064 * 25.4 - 2)


def test_known_settles_it_until_it_is_worse(tmp_path: Path) -> None:
    known = "known:\n  - {kind: bend-radius, at: clip, why: annealed first, figure: 0.02 in}\n"
    assert mine(tmp_path, clip("2024-T3", 0.032, 0.044) + known)[0].known == "annealed first"
    assert mine(tmp_path, clip("2024-T3", 0.032, 0.043, mark=TIGHT) + known)[0].known is None
