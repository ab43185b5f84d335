"""The page of shapes: its models are clean, its pictures are there, what it shows is what the models hold."""

from pathlib import Path

import pytest

from seqviz.build import build
from seqviz.checks.run import run
from seqviz.records.shapes import FLATS

DOCS = Path(__file__).parents[1] / "docs"
PAGE = (DOCS / "shapes.md").read_text(encoding="utf-8")
SEQUENCES = sorted((DOCS / "shapes").glob("*_steps.yaml"))


@pytest.mark.parametrize("sequence", SEQUENCES, ids=lambda path: path.stem)
def test_a_shape_is_shown_as_it_is_modelled(sequence: Path) -> None:
    built = build(str(sequence))
    assert [finding.message for finding in run(built)] == []
    shape = sequence.stem.removesuffix("_steps")
    placed = [one for name, one in built.assembly.placed.items() if name != built.assembly.base]
    # `angle_notched` is an angle as well.
    assert [one.part.shape for one in placed] == [shape.partition("_")[0]]
    # The five holes of its foot lie on the five of the floor.
    assert sum(len(stack.layers) == 2 for stack in built.assembly.stacks) == 5
    model = sequence.with_name(f"{shape}.yaml").read_text(encoding="utf-8")
    shown = PAGE.partition(f"(shapes/{shape}.png)")[2].partition("```yaml\n")[2].partition("```")[0]
    part, _, entry = shown.removeprefix("parts:\n").partition("placed:\n")
    assert len(part.splitlines()) > 4
    assert model.endswith(f"{part}placed:\n{entry}")
    assert sequence.with_name(f"{shape}.png").exists()


def test_every_shape_has_its_picture() -> None:
    shown = {path.stem.removesuffix("_steps") for path in SEQUENCES}
    # A skin is the floor of every picture; a sketch has nothing to draw.
    assert set(FLATS) - {"skin"} <= shown | {"sketch"}
