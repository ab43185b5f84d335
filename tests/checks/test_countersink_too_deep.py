from pathlib import Path

import pytest

from tests.checks.expect import MODEL, SEQUENCE, found_as_marked

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
SMALL = "  small: {diameter: 3.3, with: blind rivet 3.2}\n"
FOOT = "foot: {from: [10, 10], to: [170, 10], count: 5, size: small}"
MARK = "  # expect: countersink-too-deep"


def flush(thick: str, mark: bool, fastener: str = "solid rivet 1/8", hole: str = "No. 30") -> str:
    """Return rail (layer 1) of that thickness on the floor of 0.8, with flush heads."""
    size = f"  small: {{diameter: {hole}, with: {fastener}, countersunk: yes}}\n"
    text = MODEL.replace(SMALL, size).replace("thickness: 1.6", f"thickness: {thick}")
    return text.replace(FOOT, FOOT + (MARK if mark else "")) + PLACED


def test_a_sheet_as_thick_as_the_head_is_high_passes(tmp_path: Path) -> None:
    # MS20426, 1/8 in: head .042 in high.
    assert found_as_marked(tmp_path, flush(".042 in", mark=False)) == []
    finding = found_as_marked(tmp_path, flush(".041 in", mark=True))[0]
    assert (finding.severity, finding.parts) == ("warning", ("rail",))
    assert finding.figure == pytest.approx(0.001 * 25.4)
    assert "MS20426, from memory" in finding.why


def test_the_knife_edge_is_told(tmp_path: Path) -> None:
    # .032 of .042 in deep: the cone is .225 in wide at the face, .125 at its foot;
    # .225 - .100 x .032 / .042 = .14881 in = 3.780 mm on the far side.
    finding = found_as_marked(tmp_path, flush(".032 in", mark=True))[0]
    assert finding.message == (
        "rail.foot 1-5: the flush head of solid rivet 1/8 is 1.07 mm high, "
        "and rail under it is 0.81 mm thick."
    )
    assert "leaves a knife edge, and the hole is 3.78 mm wide" in finding.why
    assert finding.fix.startswith("Dimple rail and what lies under it instead, lay something")


def test_the_makers_head_is_computed_from_width_and_angle(tmp_path: Path) -> None:
    # (6.0 - 3.2) / 2 / tan 60 = 1.4 / 1.73205 = 0.8083 mm.
    hardware = "hardware:\n  cone: {kind: blind rivet, diameter: 3.2, head diameter: 6.0, head angle: 120}\n"

    def text(thick: str, mark: bool) -> str:
        return flush(thick, mark, "cone", "3.3").replace("parts:\n", f"{hardware}parts:\n", 1)

    assert found_as_marked(tmp_path, text("0.81", mark=False)) == []
    finding = found_as_marked(tmp_path, text("0.8", mark=True))[0]
    assert finding.figure == pytest.approx(0.0083, abs=1e-4)
    # A head with an angle lies flush whatever the size says.
    found_as_marked(tmp_path, text("0.8", mark=True).replace(", countersunk: yes", ""))
    # The maker's height goes before what is computed.
    told = text("0.9", mark=True).replace("head angle: 120", "head angle: 120, head height: 1.0")
    assert found_as_marked(tmp_path, told)[0].figure == pytest.approx(0.1)


def test_of_other_rivets_the_proportions_count(tmp_path: Path) -> None:
    # 1.8 x 4.0 = 7.2; (7.2 - 4.0) / 2 / tan 50 = 1.6 / 1.191754 = 1.34256 mm.
    assert found_as_marked(tmp_path, flush("1.343", mark=False, fastener="blind rivet 4.0", hole="4.1")) == []
    found_as_marked(tmp_path, flush("1.342", mark=True, fastener="blind rivet 4.0", hole="4.1"))


def test_a_row_says_it_or_takes_it_back(tmp_path: Path) -> None:
    plain = flush("0.8", mark=True).replace(", countersunk: yes", "")
    row = FOOT.replace("size: small}", "size: small, countersunk: yes}")
    found_as_marked(tmp_path, plain.replace(FOOT, row))
    neither = flush("0.8", mark=False).replace("size: small}", "size: small, countersunk: no}")
    assert found_as_marked(tmp_path, neither) == []


def test_the_layer_under_the_head_is_asked(tmp_path: Path) -> None:
    # The rail of 1.6 is layer 1 and thick enough; heads from below lie in the floor of 0.8.
    model = flush("1.6", mark=False)
    steps = "  - place: rail\n  - rivet: rail.foot\n    head: {}\n"
    tools = SEQUENCE.replace(
        "  puller: {for: blind rivet,",
        "  squeezer: {for: solid rivet, body: [{cylinder: 10, from: 0, to: 20}]}\n"
        "  puller: {for: blind rivet,",
    )
    trestles = tools.replace("bench: flat", "bench: trestles")
    assert found_as_marked(tmp_path, model, trestles + steps.format("upper")) == []
    mid = "mid: {from: [20, 50], to: [180, 50], count: 5, size: small}"
    finding = found_as_marked(tmp_path, model.replace(mid, mid + MARK), trestles + steps.format("lower"))[0]
    assert (finding.parts, finding.holes[0]) == (("floor",), "floor.mid.1")
