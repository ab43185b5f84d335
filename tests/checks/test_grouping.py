from pathlib import Path

from seqviz.build import Build
from seqviz.checks.grouping import Sighting, Words, grouped
from seqviz.findings import At
from tests.checks.expect import MODEL, built

HERE = At(file="model.yaml", line=3, column=1)
RAIL = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\n"


def seen(made: Build, number: int, *, key: str = "k", figure: float = 0.1, at: At = HERE) -> Sighting[int]:
    stack = made.assembly.stack_of[f"rail.foot.{number}"]
    return Sighting(key=(key,), seen=number, at=at, parts=("rail", "floor"), stack=stack, figure=figure)


def test_equal_sightings_become_one_with_sorted_numbers(tmp_path: Path) -> None:
    made = built(tmp_path, MODEL + RAIL)
    (group,) = grouped(made, "holes-off", [seen(made, n, figure=n / 10) for n in (5, 1, 2, 3)])
    assert group.holes == tuple(f"rail.foot.{n}" for n in (1, 2, 3, 5))
    assert (group.named, group.first, group.figure, group.one) == ("rail.foot 1-3, 5", 5, 0.5, False)
    finding = group.finding("holes-off", "error", Words(message="m", why="w", fix="f"), steps=[2, 2, 4])
    assert (finding.at, finding.parts, finding.figure, finding.steps) == (
        HERE,
        ("rail", "floor"),
        0.5,
        (2, 4),
    )


def test_another_key_or_place_is_another_mistake(tmp_path: Path) -> None:
    made = built(tmp_path, MODEL + RAIL)
    below = At(file="model.yaml", line=4, column=1)
    groups = grouped(made, "holes-off", [seen(made, 1), seen(made, 2, key="l"), seen(made, 3, at=below)])
    assert [group.holes for group in groups] == [("rail.foot.1",), ("rail.foot.2",), ("rail.foot.3",)]


def test_what_is_known_is_kept_apart(tmp_path: Path) -> None:
    known = "known:\n  - {kind: holes-off, at: floor.mid.2-3, why: reamed, figure: 0.2}\n"
    made = built(tmp_path, MODEL + RAIL + known)
    sightings = [seen(made, 1), seen(made, 2), seen(made, 3, figure=0.3), seen(made, 4)]
    groups = grouped(made, "holes-off", sightings)
    # Hole 3 is worse than the 0.2 at which it was settled.
    assert [group.named for group in groups] == ["rail.foot 1, 3-4", "rail.foot 2"]
    (group,) = grouped(made, "never-set", sightings)
    assert group.named == "rail.foot 1-4"
