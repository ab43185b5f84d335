from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked


def test_one_hole_lets_a_part_turn(tmp_path: Path) -> None:
    text = MODEL + "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1}}  # expect: loose-part\n"
    assert found_as_marked(tmp_path, text)[0].parts == ("rail",)


def test_two_holes_hold_it(tmp_path: Path) -> None:
    text = MODEL + "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.2: floor.mid.2}}\n"
    assert found_as_marked(tmp_path, text) == []


def test_twins_are_one_finding(tmp_path: Path) -> None:
    text = MODEL.replace(
        "to: [180, 50], count: 5, size: small}",
        "to: [180, 50], count: 5, size: small}\n"
        "      edge: {from: [20, 80], to: [180, 80], count: 5, size: small, both sides: yes}",
    )
    entry = "rail: {part: rail, match: {foot.1: floor.edge.1}, both sides: same part}"
    text += f"placed:\n  {entry}  # expect: loose-part\n"
    finding = found_as_marked(tmp_path, text)[0]
    assert finding.parts == ("rail left", "rail right")
    assert finding.message.endswith("The same goes for rail right.")
