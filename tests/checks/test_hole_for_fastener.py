from pathlib import Path

import pytest

from tests.checks.expect import MODEL, SEQUENCE, built, found_as_marked

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"
SMALL = "  small: {diameter: 3.3, with: blind rivet 3.2}\n"
MARK = "  # expect: hole-for-fastener"


def sized(diameter: str, fastener: str, *, mark: bool, more: str = "") -> str:
    size = f"  small: {{diameter: {diameter}, with: {fastener}}}{MARK if mark else ''}\n"
    return MODEL.replace(SMALL, size).replace("parts:\n", f"{more}parts:\n", 1) + PLACED


@pytest.mark.parametrize(
    ("fastener", "narrow", "least", "most", "wide"),
    [
        # ISO 15977: 4.8 + 0.1 = 4.9 to 4.8 + 0.2 = 5.0; a drill's 0.05 on both sides.
        ("blind rivet 4.8", "4.84", "4.85", "5.05", "5.06"),
        # 3.2 mm: ISO 3.3 to 3.4, Army .128 in = 3.2512 to .132 in = 3.3528: 3.2012 to 3.45.
        ("blind rivet 3.2", "3.2", "3.21", "3.45", "3.46"),
        # 5/32 in: Army .160 to .164 in, ISO 3.96875 + 0.2 = 4.16875: 4.014 to 4.21875.
        ("blind rivet 5/32", "4.0", "No. 21", "4.21", "4.23"),
        # FAA-H-8083-31: 3.175 + .002 in = 3.2258 to + .004 in = 3.2766; a drill's 0.05: 3.1758 to 3.3266.
        ("solid rivet 1/8", "3.175", "3.18", "3.32", "3.33"),
        # Both customs: No. 41 = .096 in, No. 40 = .098 in = 2.4892, and a drill's 0.05: 2.5392.
        ("solid rivet 3/32", "2.38", "No. 41", "2.53", "2.55"),
        # Army TM 1-1520-240-BD: up to .197 in = 5.0038, a drill's 0.05; as tight as 3/16 in = 4.7625.
        ("bolt AN3", "4.76", "4.7625", "5.05", "5.06"),
    ],
)
def test_a_hole_at_the_edges_of_what_is_published(
    tmp_path: Path, fastener: str, narrow: str, least: str, most: str, wide: str
) -> None:
    for diameter in (least, most):
        assert found_as_marked(tmp_path, sized(diameter, fastener, mark=False)) == []
    for diameter in (narrow, wide):
        found = found_as_marked(tmp_path, sized(diameter, fastener, mark=True))
        assert [(f.severity, len(f.holes)) for f in found] == [("error", 5)]


def test_both_customs_for_5_32_pass_and_are_named(tmp_path: Path) -> None:
    # FAA: No. 21 = .159 in; 1940s manual: No. 22 = .157 in = 3.9878.
    for drill in ("No. 21", "No. 22"):
        assert found_as_marked(tmp_path, sized(drill, "solid rivet 5/32", mark=False)) == []
    finding = found_as_marked(tmp_path, sized("4.3", "solid rivet 5/32", mark=True))[0]
    assert finding.message == "Holes of size small are 4.3 mm wide, too wide for solid rivet 5/32."
    assert (
        "FAA-H-8083-31, chapter 4, from memory; aircraft repair manual of the Army Air Forces" in finding.why
    )


def test_the_makers_hole_goes_before_the_tables(tmp_path: Path) -> None:
    # 3.5 is 0.05 too wide by ISO 15977; a maker who asks for 3.5 lets 3.4 to 3.6 pass.
    wide = "hardware:\n  pull wide: {kind: blind rivet, diameter: 3.2, hole: 3.5}\n"
    for diameter in ("3.4", "3.6"):
        assert found_as_marked(tmp_path, sized(diameter, "pull wide", mark=False, more=wide)) == []
    for diameter, beyond in (("3.38", 0.02), ("3.63", 0.03)):
        finding = found_as_marked(tmp_path, sized(diameter, "pull wide", mark=True, more=wide))[0]
        assert finding.figure == pytest.approx(beyond)
        assert "The maker's hole" in finding.why


def test_no_maker_makes_a_rivet_enter_less_than_its_own_width(tmp_path: Path) -> None:
    # 3.25 less 0.1 is 3.15; the rivet is 3.2 thick.
    tight = "hardware:\n  tight: {kind: blind rivet, diameter: 3.2, hole: 3.25}\n"
    assert found_as_marked(tmp_path, sized("3.2", "tight", mark=False, more=tight)) == []
    assert len(found_as_marked(tmp_path, sized("3.18", "tight", mark=True, more=tight))) == 1


def test_where_nothing_is_published_only_what_does_not_go_in_is_told(tmp_path: Path) -> None:
    for fastener, diameter in (("bolt 5", "7"), ("solid rivet 3", "3.4"), ("bolt 5", "5")):
        assert found_as_marked(tmp_path, sized(diameter, fastener, mark=False)) == []
    finding = found_as_marked(tmp_path, sized("4.9", "bolt 5", mark=True))[0]
    assert finding.message == "Holes of size small are 4.9 mm wide, and bolt 5 is 5 mm thick."
    assert "It does not go in." in finding.why


def test_what_a_step_uses_is_looked_at_there(tmp_path: Path) -> None:
    # 3.26 takes a rivet of 3.2, and one of 1/8 in; a maker's that wants 3.4 it does not.
    model = sized("3.26", "blind rivet 3.2", mark=False).replace(
        "parts:\n", "hardware:\n  fat: {kind: blind rivet, diameter: 3.2, hole: 3.4}\nparts:\n", 1
    )
    steps = "  - place: rail\n  - rivet: rail.foot\n    use: fat  # expect: hole-for-fastener\n"
    finding = found_as_marked(tmp_path, model, SEQUENCE + steps)[0]
    assert finding.holes == tuple(f"rail.foot.{k}" for k in range(1, 6))
    assert finding.message == "rail.foot 1-5: the holes are 3.26 mm wide, too narrow for fat."


def test_holes_that_join_nothing_or_name_nothing_are_left_alone(tmp_path: Path) -> None:
    alone = MODEL.replace("blind rivet 3.2", "blind rivet 4.8")
    assert not built(tmp_path, alone).assembly.stacks[0].joins
    assert found_as_marked(tmp_path, alone) == []
    unnamed = MODEL.replace("count: 5, size: small", "count: 5, diameter: 4.5") + PLACED
    assert found_as_marked(tmp_path, unnamed) == []
