from pathlib import Path

import pytest

from tests.checks.expect import MODEL, SEQUENCE, found_as_marked

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
FOOT = "foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
MARK = "  # expect: two-fasteners-named"
PLACE = "  - place: rail\n"


def rails(other: str, row: str, mark: str = MARK) -> str:
    sizes = f"  other: {{diameter: 3.3, with: {other}}}\nparts:\n"
    return MODEL.replace("parts:\n", sizes, 1).replace(FOOT, row + mark) + PLACED


def test_one_finding_for_a_row_and_its_partner(tmp_path: Path) -> None:
    row = FOOT.replace("small}", "small, 2-4: other}")
    finding = found_as_marked(tmp_path, rails("solid rivet 1/8", row))[0]
    assert (finding.severity, finding.parts) == ("error", ("rail", "floor"))
    assert finding.holes == ("rail.foot.2", "rail.foot.3", "rail.foot.4")
    assert finding.message == (
        "rail.foot 2-4: its size other is for solid rivet 1/8, "
        "size small in floor.mid is for blind rivet 3.2."
    )


@pytest.mark.parametrize("other", ["blind rivet 3.2", "Blind rivet 3.2 mm", "blind rivet 3.20"])
def test_another_size_for_the_same_fastener_is_no_mistake(tmp_path: Path, other: str) -> None:
    row = FOOT.replace("small}", "other}")
    assert found_as_marked(tmp_path, rails(other, row, mark="")) == []


def test_two_entries_of_hardware_are_two_fasteners(tmp_path: Path) -> None:
    hardware = (
        "hardware:\n  long: {kind: blind rivet, diameter: 3.2}\n  flat: {kind: blind rivet, diameter: 3.2}\n"
    )
    text = rails("long", FOOT.replace("small}", "other}")).replace("with: blind rivet 3.2", "with: flat", 1)
    assert len(found_as_marked(tmp_path, text.replace("parts:\n", f"{hardware}parts:\n", 1))) == 1


def test_holes_of_different_widths_are_one_other_mistake(tmp_path: Path) -> None:
    row = FOOT.replace("small}", "big}")
    found_as_marked(tmp_path, rails("blind rivet 4.0", row, mark="  # expect: hole-size-differs"))


@pytest.mark.parametrize(
    ("use", "told"),
    [
        ("solid rivet 1/8", True),  # another kind
        ("blind rivet 3.26", True),  # 0.06 thicker, and 3.3 is 0.01 wider than it wants at least
        ("blind rivet 3.25", False),  # 0.05 thicker
        ("blind rivet 1/8", False),  # 3.175 mm
    ],
)
def test_a_step_that_uses_another_fastener(tmp_path: Path, use: str, told: bool) -> None:
    steps = f"{PLACE}  - rivet: rail.foot\n    use: {use}{MARK if told else ''}\n"
    found = found_as_marked(tmp_path, MODEL + PLACED, SEQUENCE + steps)
    assert [f.steps for f in found] == ([(2,)] if told else [])
    if told:
        assert found[0].message == (f"rail.foot 1-5: the step uses {use}, size small is for blind rivet 3.2.")
