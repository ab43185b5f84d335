"""Where a sheet ends, for each shape: what the edges are, and where holes lie on it."""

from pathlib import Path

import numpy as np
import pytest
import shapely

from seqviz.checks.run import broken_rules, run
from seqviz.checks.sheets import edges_of, sheet_of
from tests.checks.expect import built
from tests.checks.sheets import HEAD

Told = list[tuple[tuple[str, ...], float, str]]


def told(folder: Path, text: str) -> Told:
    """Return holes, what is lacking, and where to, of each edge that is too near."""
    made = built(folder, text)
    assert [f.message for f in made.noticed] == []
    return [
        (f.holes, round(f.figure or 0.0, 4), f.message.partition(" to the ")[2].partition(",")[0])
        for f in broken_rules(made)
        if f.kind == "edge-distance"
    ]


def on_plate(part: str, match: str, plate: str = "[[20, 20], [60, 20]]", word: str = "") -> str:
    """Return a part on a plate of 200 x 100 with two holes well inside."""
    return (
        HEAD.replace("base: floor", "base: bed")
        + f"""\
parts:
  bed:
    shape: plate
    thickness: 1.2
    outline: [[-100, -100], [200, -100], [200, 100], [-100, 100]]
    holes:
      bed: {{at: {plate}, size: small}}
  piece:
{part}placed:
  piece: {{part: piece, match: {{{match}}}{word}}}
"""
    )


FRAME = """\
    shape: frame
    thickness: 1
    bend radius: 2
    outline: [[0, 0], [100, 0], [100, 60], [0, 60]]
    flanges: {left edge: {width: 20, side: outside}}
    openings: {light: {center: [70, 30], diameter: 20}}
    holes:
      web: {flat: web, at: [[20, AT], [50, AT]], size: small}
"""


def test_the_web_of_a_frame_ends_at_bends_and_openings(tmp_path: Path) -> None:
    match = "web.1: bed.bed.1, web.2: bed.bed.2"
    at = "[[20, 20], [50, 20]]"
    text = on_plate(FRAME.replace("AT", "52"), match, at)
    # Left edge: the flange's bend takes radius + thickness = 3, from y = 60 to 57: 57 - 52 = 5, 1.4 short.
    assert told(tmp_path, text) == [(("piece.web.1", "piece.web.2"), 1.4, "bend of web")]
    # (50, 30) is 20 from the middle of the opening, 10 from its rim; at 26 both are clear of everything.
    near = on_plate(FRAME.replace("[50, AT]", "[55, AT]").replace("AT", "30"), match, "[[20, 20], [55, 20]]")
    # (55, 30): 15 - 10 = 5 from the rim, whose chord lies within 0.01 mm of it.
    (one,) = told(tmp_path, near)
    assert (one[0], one[2]) == (("piece.web.2",), "opening light")
    assert one[1] == pytest.approx(1.4, abs=0.02)


TUBE = """\
    shape: tube
    length: 100
    diameter: 20
    wall: 1.2
    holes:
      foot: {flat: wall, at: [[AT, 0], [60, 0]], size: small}
"""


def test_a_tube_has_only_its_ends(tmp_path: Path) -> None:
    match = "foot.1: bed.bed.1, foot.2: bed.bed.2"
    clear = on_plate(TUBE.replace("AT", "20"), match)
    assert told(tmp_path, clear) == []
    end = on_plate(TUBE.replace("AT", "5"), match, "[[5, 20], [60, 20]]")
    assert [(holes, lacks) for holes, lacks, _ in told(tmp_path, end)] == [(("piece.foot.1",), 1.4)]


ROLLED = """\
    shape: skin
    thickness: 0.8
    outline: [[0, 0], [100, 0], [100, 100], [0, 100]]
    rolled: {radius: 80, about: [[0, 60], [100, 60]], from: 0, to: 40}
    holes:
      flat: {at: [[20, 50], [60, 50]], size: small}
      edge: {at: [[20, AT], [60, AT]], size: small}
"""


def test_a_rolled_skin_is_measured_on_its_pattern_where_a_roll_is_no_edge(tmp_path: Path) -> None:
    text = HEAD.replace("base: floor", "base: skin") + f"parts:\n  skin:\n{ROLLED.replace('AT', '95')}"
    made = built(tmp_path, text)
    assert made.noticed == ()
    part = made.assembly.placed["skin"].part
    sheet = sheet_of(part, "face")
    # Rolled from y = 60 to 100, the row at 95 lies on the curve; on the pattern it is where it was written.
    spots = sheet.spots(np.array([hole.centre for hole in part.holes]))
    assert spots == pytest.approx(np.array([[20, 50], [60, 50], [20, 95], [60, 95]]), abs=1e-6)
    (edge,) = edges_of(sheet)
    assert edge.line.length == pytest.approx(400)
    assert edge.line.distance(shapely.Point(spots[2])) == pytest.approx(5)


FITTING = """\
    shape: fitting
    pieces:
      foot: {shape: plate, thickness: 1.2, outline: [[0, 0], [80, 0], [80, 40], [0, 40]]}
    holes:
      eye: {flat: foot, at: [[20, AT], [60, AT]], size: small}
"""


def test_a_piece_of_a_fitting_ends_where_the_piece_ends(tmp_path: Path) -> None:
    match = "eye.1: bed.bed.1, eye.2: bed.bed.2"
    assert told(tmp_path, on_plate(FITTING.replace("AT", "6.4"), match)) == []
    (one,) = told(tmp_path, on_plate(FITTING.replace("AT", "5.4"), match))
    assert one == (("piece.eye.1", "piece.eye.2"), 1.0, "edge of face")


INNER = """\
format: 1
base: sheet
made by: MAKER
sizes: {small: {diameter: 3.3, with: blind rivet 3.2}}
parts:
  sheet:
    shape: plate
    thickness: 1.2
    outline: [[0, 0], [80, 0], [80, 40], [0, 40]]
    holes:
      eye: {at: [[20, 5], [60, 5]], size: small}
"""
OUTER = (
    HEAD.replace("base: floor", "base: bed").replace("made by: me", "made by: kit")
    + """\
parts:
  bed:
    shape: plate
    thickness: 1.2
    outline: [[-100, -100], [200, -100], [200, 100], [-100, 100]]
    holes:
      bed: {at: [[20, 20], [60, 20]], size: small}
placed:
  piece: {uses: inner.yaml, match: {sheet.eye.1: bed.bed.1, sheet.eye.2: bed.bed.2}}
"""
)


@pytest.mark.parametrize(("maker", "severity"), [("kit", "note"), ("me", "warning")])
def test_a_part_of_another_model_is_asked_and_its_model_says_who_made_it(
    tmp_path: Path, maker: str, severity: str
) -> None:
    (tmp_path / "inner.yaml").write_text(INNER.replace("MAKER", maker), encoding="utf-8")
    made = built(tmp_path, OUTER)
    assert [f.message for f in made.noticed] == []
    (finding,) = [f for f in run(made) if f.kind == "edge-distance"]
    assert finding.severity == severity
    assert finding.holes == ("piece.sheet.eye.1", "piece.sheet.eye.2")
    assert finding.figure == pytest.approx(1.4)
    assert Path(finding.at.file).name == "inner.yaml"
