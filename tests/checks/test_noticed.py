from dataclasses import replace
from pathlib import Path

from seqviz.checks.noticed import noticed
from seqviz.findings import At, Finding
from tests.checks.expect import MODEL, built

HERE = At(file="model.yaml", line=7, column=3)


def told(kind: str, *parts: str, figure: float | None = None, at: At = HERE) -> Finding:
    return Finding(
        kind=kind, severity="error", at=at, message="Wrong.", why="", fix="", parts=parts, figure=figure
    )


PLACED = """\
placed:
  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}, both sides: same part}
"""


def test_only_its_own_kind_is_yielded(tmp_path: Path) -> None:
    made = replace(built(tmp_path, MODEL), noticed=(told("bad-value"), told("holes-off"), told("bad-value")))
    assert [finding.kind for finding in noticed("bad-value")(made)] == ["bad-value", "bad-value"]


def test_left_and_right_of_one_entry_are_one(tmp_path: Path) -> None:
    pair = (told("holes-off", "rail left", figure=0.3), told("holes-off", "rail right", figure=0.4))
    (finding,) = noticed("holes-off")(replace(built(tmp_path, MODEL + PLACED), noticed=pair))
    assert finding.message == "Wrong. The same goes for rail right."
    assert (finding.parts, finding.figure) == (("rail left", "rail right"), 0.4)


def test_other_places_and_other_parts_stay_apart(tmp_path: Path) -> None:
    below = At(file="model.yaml", line=8, column=3)
    three = (
        told("holes-off", "rail left"),
        told("holes-off", "rail right", at=below),
        told("holes-off", "floor"),
    )
    made = replace(built(tmp_path, MODEL + PLACED), noticed=three)
    assert tuple(noticed("holes-off")(made)) == three


def test_settling_the_left_does_not_settle_the_right(tmp_path: Path) -> None:
    known = "known:\n  - {kind: holes-off, at: rail left, why: reamed}\n"
    pair = (told("holes-off", "rail left"), told("holes-off", "rail right"))
    made = replace(built(tmp_path, MODEL + PLACED + known), noticed=pair)
    assert tuple(noticed("holes-off")(made)) == pair
