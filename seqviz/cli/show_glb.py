"""``seqviz show --glb``: the structure, or what is there after a step, as a binary glTF file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from seqviz.cli.output import Stop, complain, say
from seqviz.cli.writing import free_to_write, write_aside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from seqviz.build import Build
    from seqviz.parts.gltf_file import Solid
    from seqviz.scene.still import Still

__all__ = ["write_glb"]


def write_glb(made: Build, path: Path, *, step: int | None, force: bool) -> None:
    """Write the file, and say where it is and what is not in it."""
    from seqviz.parts.gltf_file import MARKER, glb_file
    from seqviz.scene.still import axes_up, still_of

    if path.suffix.lower() != ".glb":
        raise Stop(f"--glb {path}: the name of the file ends in .glb.")
    _there_is(made, step)
    free_to_write(path, force=force, marker=MARKER, option="another name")
    still = still_of(made, step)
    if not still.items:
        raise Stop("Nothing that is there has dimensions and a place, so that there is nothing to write.")
    write_aside(path, glb_file(_solids(made, still), axes_up(still.lie)))
    say(f"{path}\n")
    if still.undrawn:
        complain(f"Without dimensions, and not in it: {', '.join(still.undrawn)}.")


def _there_is(made: Build, step: int | None) -> None:
    if step is None:
        return
    if made.replay is None:
        raise Stop("--step goes with a sequence: a model alone has no steps.")
    last = len(made.replay.states)
    if not 1 <= step <= last:
        steps = f"The steps are 1 to {last}." if last else "The sequence has no steps yet."
        raise Stop(f"There is no step {step}. {steps}")


def _solids(made: Build, still: Still) -> Iterator[Solid]:
    import numpy as np

    from seqviz.geometry.pose import Pose, any_across, cross, frozen
    from seqviz.parts.gltf_file import Solid, round_mesh
    from seqviz.parts.mesh import mesh_of

    meshes = {item.part: mesh_of(item.part) for item in still.items}
    for item in still.items:
        yield Solid(name=item.name, key=item.part, mesh=meshes[item.part], pose=item.pose)
    for one in still.fixed:
        across = any_across(one.outward)
        rotation = frozen(np.column_stack([across, cross(one.outward, across), one.outward]))
        yield Solid(
            name=f"{one.kind} {made.assembly.stacks[one.stack].holes[0]}",
            key=(round(one.diameter, 3), round(one.height, 3)),
            mesh=round_mesh(one.diameter, one.height),
            pose=Pose(rotation=rotation, translation=one.point),
            fixed=True,
        )
