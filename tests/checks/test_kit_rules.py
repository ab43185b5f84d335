"""On parts of a kit the rules of spacing are one note; each by itself on one's own, or where asked for."""

from pathlib import Path

import pytest

from seqviz.checks.run import broken_rules, run
from tests.checks.expect import built, found_as_marked
from tests.checks.sheets import SPACING, of_kind, pair

NEAR = "{from: [20, 5], to: [40, 5], count: 2, size: small}"


def near(head: str = "kit", strap: str = "", mark: str = "") -> str:
    """The strap's row of two holes is 5 from its edge, the floor's well inside, both of 1.2."""
    row = "{from: [120, 105], to: [140, 105], count: 2, size: small}"
    text = pair(row, f"{NEAR}{mark}", more=strap)
    return text.replace("made by: me", f"made by: {head}", 1)


MINE = "    made by: me\n"
KITS = "    made by: kit\n"
EDGE = "  # expect: edge-distance"


def test_on_a_kit_it_is_a_note_on_ones_own_a_warning(tmp_path: Path) -> None:
    (note,) = found_as_marked(tmp_path, near(mark=EDGE))
    (warning,) = found_as_marked(tmp_path, near("me", mark=EDGE))
    assert (note.severity, warning.severity) == ("note", "warning")
    assert note.message == (
        f"The handbooks' rules are not kept at 2 places on parts of the kit: edge-distance 2. "
        f"The worst: {warning.message}"
    )
    assert note.why.startswith("On parts of a kit the maker's drawing governs")
    assert "--rules" in note.fix


def test_a_part_says_who_made_it_against_its_model(tmp_path: Path) -> None:
    assert found_as_marked(tmp_path, near("kit", MINE, EDGE))[0].severity == "warning"
    assert found_as_marked(tmp_path, near("me", KITS, EDGE))[0].severity == "note"


def test_where_nobody_says_the_kit_made_it(tmp_path: Path) -> None:
    text = near(mark=EDGE).replace("made by: kit\n", "")
    assert found_as_marked(tmp_path, text)[0].severity == "note"


def test_all_kinds_of_all_parts_are_one_note_of_the_worst_kind(tmp_path: Path) -> None:
    # Rows of 4 holes 8 apart (9.6 asked) and 5 from the edge, rivets of 3.2 in sheets of 0.5 (6.4 times).
    row = "{from: [120, 105], to: [144, 105], pitch: 8, size: small}"
    text = pair(row, "{from: [20, 5], to: [44, 5], pitch: 8, size: small}" + EDGE)
    text = text.replace("made by: me", "made by: kit").replace("thickness: 1.2", "thickness: 0.5")
    (note,) = found_as_marked(tmp_path, text)
    assert (
        "at 12 places on parts of the kit: edge-distance 4, hole-pitch 4 and rivet-for-sheet 4."
        in note.message
    )
    assert note.holes == ("strap.eye.1", "strap.eye.2", "strap.eye.3", "strap.eye.4")


def test_rules_shows_each_by_itself(tmp_path: Path) -> None:
    made = built(tmp_path, near())
    (each,) = of_kind(list(run(made, rules=True)), *SPACING)
    assert (each.severity, each.holes) == ("warning", ("strap.eye.1", "strap.eye.2"))
    assert broken_rules(made) == (each,)


def test_rules_of_thumb_alone_are_not_told_of_a_kit(tmp_path: Path) -> None:
    # 28 apart is 8.75 D, 3.2 in 0.64 is 5 t and listed in table 4-10: notes on one's own parts.
    row = "{from: [120, 120], to: [176, 120], count: 3, size: small}"
    text = pair(row, "{from: [20, 20], to: [76, 20], count: 3, size: small}").replace(
        "thickness: 1.2", "thickness: 0.64"
    )
    kit = built(tmp_path, text.replace("made by: me", "made by: kit"))
    assert run(kit) == ()
    assert [finding.kind for finding in broken_rules(kit)] == ["hole-pitch", "rivet-for-sheet"]
    own = built(tmp_path, text)
    assert [(f.kind, f.severity) for f in run(own)] == [("hole-pitch", "note"), ("rivet-for-sheet", "note")]


def test_a_rivet_that_no_table_lists_for_its_sheet_is_told_of_a_kit(tmp_path: Path) -> None:
    row = "{from: [120, 120], to: [140, 120], count: 2, size: big}"
    text = pair(row, "{from: [20, 20], to: [40, 20], count: 2, size: big}  # expect: rivet-for-sheet")
    text = text.replace("made by: me", "made by: kit").replace("thickness: 1.2", "thickness: 0.5")
    assert found_as_marked(tmp_path, text)[0].severity == "note"


def test_what_is_settled_is_out_of_the_note_and_counts_as_known(tmp_path: Path) -> None:
    known = "known:\n  - {kind: edge-distance, at: strap.eye, why: the drawing, figure: FIGURE}\n"
    (settled,) = found_as_marked(tmp_path, near() + known.replace("FIGURE", "1.4"))
    assert settled.known == "the drawing"
    (note,) = found_as_marked(tmp_path, near(mark=EDGE) + known.replace("FIGURE", "1.3"))
    assert "It was settled at 1.3 mm; now it is 1.4 mm." in note.message


NORMAL = """\
format: 1
name: A bay of a floor
base: skin
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  skin:
    shape: skin
    thickness: 0.64
    outline: [[0, 0], [440, 0], [440, 200], [0, 200]]
    holes:
      aft: {from: [20, 50], to: [420, 50], pitch: 40, size: small}
      forward: {from: [20, 150], to: [420, 150], pitch: 40, size: small}
  stringer:
    shape: angle
    material: 2024-T3
    thickness: 0.64
    length: 440
    legs: [20, 20]
    bend radius: 1.6
    holes:
      foot: {flat: leg 1, from: [20, 10], to: [420, 10], pitch: 40, size: small}
placed:
  aft stringer: {part: stringer, match: {foot.1: skin.aft.1, foot.11: skin.aft.11}}
  forward stringer: {part: stringer, match: {foot.1: skin.forward.1, foot.11: skin.forward.11}}
"""


@pytest.mark.parametrize("maker", ["kit", "me"])
def test_normal_light_sheet_raises_no_warning(tmp_path: Path, maker: str) -> None:
    # 40 mm pitch, 3.2 mm rivets in two sheets of 0.64.
    made = built(tmp_path, NORMAL.replace("base: skin\n", f"base: skin\nmade by: {maker}\n"))
    findings = run(made)
    assert [finding for finding in findings if finding.severity != "note"] == []
    assert {f.kind for f in findings} == (set() if maker == "kit" else {"hole-pitch", "rivet-for-sheet"})
