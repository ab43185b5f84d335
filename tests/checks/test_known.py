from dataclasses import replace
from pathlib import Path

from seqviz.checks.known import settle
from seqviz.checks.summary import summary
from seqviz.findings import Finding
from tests.checks.expect import MODEL, SEQUENCE, built, found_as_marked
from tests.checks.rails import STRAPPED

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\nknown:\n"
WIDE = "count: 5, size: small, 2-4: big}"


def wide(known: str, mark: str = "") -> str:
    """Holes 2 to 4 of the rail are 0.8 wider than those of the floor."""
    foot = "foot: {from: [10, 10], to: [170, 10], "
    return MODEL.replace(foot + "count: 5, size: small}", foot + WIDE + mark) + PLACED + known


def test_a_row_settles_what_lies_in_it(tmp_path: Path) -> None:
    for at in ("rail.foot", "rail.foot.1-5", "floor.mid.2-4", "rail", "floor"):
        known = f"  - {{kind: hole-size-differs, at: {at}, why: opened by hand}}\n"
        (finding,) = found_as_marked(tmp_path, wide(known))
        assert finding.known == "opened by hand"


def test_settled_findings_count_as_known_only(tmp_path: Path) -> None:
    known = "  - {kind: hole-size-differs, at: rail.foot, why: opened by hand}\n"
    text = wide(known)
    counts = summary(built(tmp_path, text), found_as_marked(tmp_path, text))
    assert (counts["errors"], counts["known"]) == (0, 1)


def test_one_hole_settles_itself_and_not_the_rest(tmp_path: Path) -> None:
    known = "  - {kind: hole-size-differs, at: rail.foot.3, why: opened by hand}\n"
    findings = found_as_marked(tmp_path, wide(known, "  # expect: hole-size-differs"))
    assert {(f.holes, f.known) for f in findings} == {
        (("rail.foot.3",), "opened by hand"),
        (("rail.foot.2", "rail.foot.4"), None),
    }


def test_a_worse_figure_opens_it_again(tmp_path: Path) -> None:
    same = "  - {kind: hole-size-differs, at: rail.foot, why: opened, figure: 0.8}\n"
    assert found_as_marked(tmp_path, wide(same))[0].known == "opened"
    known = "  - {kind: hole-size-differs, at: rail.foot, why: opened, figure: 0.7}\n"
    finding = found_as_marked(tmp_path, wide(known, "  # expect: hole-size-differs"))[0]
    assert finding.message.endswith("It was settled at 0.7 mm; now it is 0.8 mm.")
    assert finding.related[-1].message == "Settled here: opened"


def test_a_part_name_means_every_occurrence(tmp_path: Path) -> None:
    text = wide("  - {kind: hole-size-differs, at: runner.foot, why: opened by hand}\n")
    text = text.replace("  rail:\n    shape", "  runner:\n    shape").replace("part: rail", "part: runner")
    assert found_as_marked(tmp_path, text)[0].known == "opened by hand"


def test_a_grave_kind_is_settled_too_once_it_is_sure(tmp_path: Path) -> None:
    steps = "  - place: [floor, rail]\n  - rivet: rail.foot\n  - place: strap\n"
    known = "known:\n  - {kind: layer-missing, at: strap, why: it has slots, sure: yes}\n"
    assert found_as_marked(tmp_path, STRAPPED + known, SEQUENCE + steps)[0].known == "it has slots"


def test_the_sequence_may_know_too(tmp_path: Path) -> None:
    steps = SEQUENCE + "  - place: [floor, rail, strap]\n  - rivet: strap.eye\n"
    steps += "known:\n  - {kind: never-set, at: rail.foot.1, why: the lamp}\n"
    steps += "  - {kind: never-set, at: rail.foot.5, why: the lamp}\n"
    findings = found_as_marked(tmp_path, STRAPPED, steps)
    assert sorted((f.holes, f.known) for f in findings) == [
        (("rail.foot.1",), "the lamp"),
        (("rail.foot.5",), "the lamp"),
    ]


def test_an_entry_must_hold_all_the_holes(tmp_path: Path) -> None:
    known = "  - {kind: holes-off, at: rail.foot.1-2, why: reamed}\n"
    made = built(tmp_path, MODEL + PLACED + known)
    told = Finding(
        kind="holes-off",
        severity="error",
        at=made.model.at,
        message="",
        why="",
        fix="",
        holes=("rail.foot.1",),
    )
    more = replace(told, holes=("rail.foot.2", "rail.foot.3"))
    assert [finding.known for finding in settle(made, [told, more])] == ["reamed", None]
