from pathlib import Path

import pytest

from seqviz.checks.run import run
from seqviz.findings import Finding
from tests.checks.expect import STEPS, built, expected

MODEL = """\
format: 1
name: Trial
base: skin
sizes:
  small: {diameter: DIAMETER, with: the one}
hardware:
  the one: {HARDWARE}
parts:
  skin: {shape: sketch, thickness: 1.0}
  block: {shape: sketch, thickness: THICK}
rows:
  foot: {layers: [block, skin], count: 4, size: small}  # MARK
"""
MAKERS = "kind: blind rivet, diameter: 3.2, lengths: {6: [1.5, 3.5], 8: [4.0, 5.0]}"
SOLID = "kind: solid rivet, diameter: 3.2, lengths: [8, 10]"
BOLT = "kind: bolt, diameter: 3/16 in"


def model(thick: str, hardware: str = MAKERS, *, found: bool = True, diameter: str = "3.3") -> str:
    mark = "expect: grip-out-of-range" if found else "nothing"
    text = MODEL.replace("THICK", thick).replace("HARDWARE", hardware).replace("MARK", mark)
    return text.replace("DIAMETER", diameter)


def found_as_marked(folder: Path, text: str) -> list[Finding]:
    """Return the findings of this kind; other checks have their own say about such thick blocks."""
    found = [one for one in run(built(folder, text)) if one.kind == "grip-out-of-range"]
    assert {(Path(one.at.file).name, one.at.line, one.kind) for one in found} == expected("model.yaml", text)
    return found


@pytest.mark.parametrize(
    ("thick", "message", "why", "fix", "figure"),
    [
        # 1.0 + 2.7 = 3.7: 0.2 over 3.5, 0.3 short of 4.0, 1.3 short of 5.0
        (
            "2.7",
            "block.foot 1-4: no length of the one is made for a grip of 3.7 mm.",
            "Length 6 ends at 3.5, length 8 begins at 4 (the maker's data in the model).",
            "Put a washer or a shim of 0.3 to 1.3 under the tail and take length 8, ",
            0.2,
        ),
        # 1.0 + 0.4 = 1.4
        (
            "0.4",
            "block.foot 1-4: no length of the one is made for a grip of 1.4 mm.",
            "The shortest, length 6, begins at 1.5 (the maker's data in the model).",
            "Put a washer or a shim of 0.1 to 2.1 under the tail and take length 6, ",
            0.1,
        ),
        # 1.0 + 4.01 = 5.01
        (
            "4.01",
            "block.foot 1-4: no length of the one is made for a grip of 5.01 mm.",
            "The longest, length 8, ends at 5 (the maker's data in the model).",
            "Take another rivet, or list the lengths",
            0.01,
        ),
    ],
)
def test_between_before_and_beyond_the_makers_lengths(
    tmp_path: Path, thick: str, message: str, why: str, fix: str, figure: float
) -> None:
    (finding,) = found_as_marked(tmp_path, model(thick))
    assert (finding.severity, finding.message, finding.why) == ("error", message, why)
    assert finding.fix.startswith(fix)
    assert finding.figure == pytest.approx(figure)
    assert finding.holes == tuple(f"block.foot.{number}" for number in range(1, 5))


@pytest.mark.parametrize("thick", ["0.5", "2.5", "3.0", "4.0"])
def test_an_end_of_a_range_is_within_it(tmp_path: Path, thick: str) -> None:
    # 1.5, 3.5, 4.0, 5.0
    assert found_as_marked(tmp_path, model(thick, found=False)) == []


def test_published_ranges_are_named(tmp_path: Path) -> None:
    # ISO 15981: 3.2 begins at 0.5 and ends at 17.0; 1.0 + 16.1 = 17.1
    (finding,) = found_as_marked(tmp_path, model("16.1", "kind: blind rivet, diameter: 3.2"))
    assert finding.why.startswith("The longest, length 20, ends at 17 (ISO 15981:2002")
    # Army table 4-3: 1/8 ends at .500 = 12.7; 1.0 + 11.8 = 12.8
    folder = tmp_path / "inches"
    folder.mkdir()
    (finding,) = found_as_marked(folder, model("11.8", "kind: blind rivet, diameter: 1/8 in"))
    assert finding.why.startswith("The longest, number 48, ends at 12.7 (Army TM 10-5410-221-14/1, table 4-3")


def test_a_solid_rivet_longer_than_all_that_are_listed(tmp_path: Path) -> None:
    # 1.0 + 4.3 + 1.5 x 3.2 = 10.1
    (finding,) = found_as_marked(tmp_path, model("4.3", SOLID))
    assert finding.why == ("Wants 10.1, the longest is 10 (FAA-H-8083-31, chapter 4, figure 4-76).")
    assert finding.fix.startswith("Cut a longer rivet to 10.1 (grip + 1.5 D), take another rivet, ")
    assert finding.figure == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("hardware", "thick", "diameter"),
    [
        ("kind: blind rivet, diameter: 3.5", "40", "3.6"),  # no table lists 3.5
        ("kind: solid rivet, diameter: 1/8 in", "40", "3.26"),  # by number, without end
        ("kind: solid rivet, diameter: 3.2", "40", "3.3"),  # nobody says which lengths there are
        (BOLT, "40", "4.9"),  # beyond our copy of the table
        ("kind: bolt, diameter: 5", "40", "5.1"),
    ],
)
def test_silent_where_nothing_is_known(tmp_path: Path, hardware: str, thick: str, diameter: str) -> None:
    assert found_as_marked(tmp_path, model(thick, hardware, found=False, diameter=diameter)) == []


def test_a_step_that_uses_another_rivet_is_asked_for_that_one(tmp_path: Path) -> None:
    text = model("2.7", found=False).replace(
        "parts:", "  other: {diameter: 3.2, lengths: {9: [3.6, 4]}}\nparts:"
    )
    wrong = text.replace("{9: [3.6, 4]}", "{9: [3.8, 4]}")
    steps = STEPS + "  - place: block\n  - rivet: block.foot\n    use: other"
    work = built(tmp_path, text, steps)
    assert [finding.kind for finding in run(work) if finding.severity == "error"] == []
    found = [one for one in run(built(tmp_path, wrong, steps)) if one.kind == "grip-out-of-range"]
    assert [(Path(one.at.file).name, one.at.line) for one in found] == [("sequence.yaml", 11)]
    assert found[0].message == "block.foot 1-4: no length of other is made for a grip of 3.7 mm."


def test_what_is_known_is_known(tmp_path: Path) -> None:
    known = "known:\n  - {kind: grip-out-of-range, at: block.foot, why: the maker said so, figure: FIGURE}\n"
    for figure, reason in (("0.2 mm", "the maker said so"), ("0.1 mm", None)):
        work = built(tmp_path, model("2.7", found=False) + known.replace("FIGURE", figure))
        (finding,) = [one for one in run(work) if one.kind == "grip-out-of-range"]
        assert finding.known == reason


PLUG = """\
format: 1
base: floor
sizes: {small: {diameter: 3.3, with: pull}}
hardware: {pull: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.0, 2.0]}}}
parts:
  floor:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      mid: {at: [[90, 50], [110, 50]], diameter: 3.3}
      corner: {at: [[60, 10], [140, 90]], diameter: 3.3}
  sheet:
    shape: plate
    thickness: 0.5
    outline: [[0, 0], [90, 0], [90, 90], [0, 90]]
    holes: {corner: {at: [[5, 5], [85, 85]], size: small}MORE}
  plug:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [40, 0], [40, 40], [0, 40]]
    holes: {eye: {at: [[10, 20], [30, 20]], size: small}}
placed:
  sheet: {part: sheet, match: {corner.1: floor.corner.1, corner.2: floor.corner.2}}
  plug: {part: plug, match: {eye.1: floor.mid.1, eye.2: floor.mid.2}, over: sheet}
"""
"""A plug of 1.2 over a sheet of 0.5 over a floor of 1.0: 2.7, over 2.0."""

STRAP = """\
format: 1
base: floor
sizes: {small: {diameter: 3.3, with: pull}}
hardware: {pull: {kind: blind rivet, diameter: 3.2, lengths: {6: [1.0, 5.0]}}}
parts:
  floor:
    shape: skin
    thickness: 1.0
    outline: [[0, 0], [200, 0], [200, 100], [0, 100]]
    holes:
      one: {at: [[20, 50], [60, 50]], diameter: 3.3}
      two: {at: [[100, 50]], diameter: 3.3}
  pad:
    shape: plate
    thickness: 2.0
    outline: [[0, 0], [80, 0], [80, 40], [0, 40]]
    holes: {eye: {at: [[10, 20], [50, 20]], diameter: 3.3}}
  strap:
    shape: plate
    thickness: 1.8
    outline: [[0, 0], [120, 0], [120, 20], [0, 20]]
    holes: {eye: {at: [[10, 10], [50, 10], [90, 10]], size: small}}
placed:
  pad: {part: pad, match: {eye.1: floor.one.1, eye.2: floor.one.2}}
  strap: {part: strap, match: {eye.1: floor.one.1, eye.2: floor.one.2, eye.3: floor.two.1}, over: pad}
"""
"""A strap of 1.8 on a pad of 2.0 on a floor of 1.0, 4.8; beyond the pad 2.8 and a gap of 2.0."""


def kinds(folder: Path, text: str) -> list[str]:
    wanted = ("layer-undrilled", "gap-in-stack", "grip-out-of-range")
    return [one.kind for one in run(built(folder, text)) if one.kind in wanted]


def test_an_undrilled_layer_is_told_first(tmp_path: Path) -> None:
    assert kinds(tmp_path, PLUG.replace("MORE", "")) == ["layer-undrilled"]
    drilled = ", mid: {at: [[35, 45], [55, 45]], size: small}"
    assert kinds(tmp_path, PLUG.replace("MORE", drilled)) == ["grip-out-of-range"]


def test_a_gap_that_wants_a_shim_is_told_first(tmp_path: Path) -> None:
    # 2.8 is below 3.0, and with the shim of 2.0 it is 4.8.
    assert kinds(tmp_path, STRAP) == ["gap-in-stack"]
    assert kinds(tmp_path, STRAP.replace("[1.0, 5.0]", "[3.0, 5.0]")) == ["gap-in-stack"]
    # On the pad 4.8 is over 4.7.
    assert kinds(tmp_path, STRAP.replace("[1.0, 5.0]", "[3.0, 4.7]")) == ["grip-out-of-range", "gap-in-stack"]
