"""What must not matter: where the structure stands, how entries are ordered, how free steps are ordered."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from seqviz.assembly.assemble import assemble, place_all, structure_of
from seqviz.assembly.axes import shared_axes
from seqviz.assembly.entries import entries
from seqviz.assembly.flats import standing_flats
from seqviz.assembly.lay_up import lay_up
from seqviz.assembly.pairing import targets_of
from seqviz.assembly.site import Site
from seqviz.assembly.structure import Assembly, PlacedPart
from seqviz.build import Build, build
from seqviz.checks.run import run
from seqviz.findings import Finding
from seqviz.geometry.pose import Array, Pose, frozen, turn_about, unit
from seqviz.parts.make import make_parts
from seqviz.records.model import HoleChoice, Model
from seqviz.records.steps import LeaveOpen, PullPins, Rivet, Sequence, Step
from seqviz.sequence.replay import replay

ROOT = Path(__file__).parents[2]
NAMES = ["practice_tray", "practice_tray_mistakes", "practice_tray_mistakes_order"]

numbers = st.floats(-1.0, 1.0, allow_nan=False, width=32)


@cache
def example(name: str) -> Build:
    return build(str(ROOT / "sequences" / f"{name}.yaml"))


def told(findings: tuple[Finding, ...]) -> list[tuple[object, ...]]:
    """Return everything that a finding says, figures rounded."""
    return [
        (f.kind, f.severity, f.at, f.message, f.why, f.fix, f.steps, f.parts, f.holes, f.related)
        for f in findings
    ]


def site_of(model: Model) -> Site:
    parts, _ = make_parts(model)
    assert model.base is not None
    known = entries(model)
    base = model.base.text
    targets = {name: targets_of(entry, known, base) for name, entry in known.items()}
    return place_all(model, parts, known, lay_up(known, targets, base), base)[0]


def moved(part: PlacedPart, motion: Pose) -> PlacedPart:
    return replace(part, pose=motion.after(part.pose), side=frozen(motion.vectors(part.side)))


def moved_build(start: Build, motion: Pose) -> Build:
    """Carry every pose, and compute everything downstream again."""
    site = site_of(start.model)
    placed = {name: moved(part, motion) for name, part in site.placed.items()}
    flats = {name: standing_flats(name, part.part, part.pose) for name, part in placed.items()}
    there = replace(site, placed=placed, flats=flats)
    assembly = structure_of(there, shared_axes(there.placed), start.assembly.muted)
    played, _ = replay(start.model, assembly, start.sequence)
    return replace(start, assembly=assembly, replay=played)


@settings(max_examples=12, deadline=None)
@given(
    name=st.sampled_from(NAMES),
    axis=st.tuples(numbers, numbers, numbers).filter(lambda v: np.linalg.norm(v) > 0.1),
    degrees=st.floats(-180, 180),
    shift=st.tuples(numbers, numbers, numbers),
)
def test_where_the_structure_stands(
    name: str, axis: tuple[float, ...], degrees: float, shift: tuple[float, ...]
) -> None:
    turn: Array = turn_about(unit(np.array(axis)), degrees)
    motion = Pose(rotation=frozen(turn), translation=frozen(1000.0 * np.array(shift)))
    start = example(name)
    assert told(run(moved_build(start, motion))) == told(run(start))


def geometry_of(assembly: Assembly) -> tuple[object, ...]:
    poses = {
        name: (p.pose.rotation.round(9).tolist(), p.pose.translation.round(9).tolist())
        for name, p in sorted(assembly.placed.items())
    }
    stacks = [(s.holes, s.layers, s.size, s.fastener, round(s.pin, 9)) for s in assembly.stacks]
    return poses, stacks, assembly.contacts, assembly.muted


@settings(max_examples=15, deadline=None)
@given(data=st.data(), name=st.sampled_from(NAMES))
def test_the_order_of_the_entries(data: st.DataObject, name: str) -> None:
    start = example(name)
    order = data.draw(st.permutations(list(start.model.placed)))
    model = replace(start.model, placed={key: start.model.placed[key] for key in order})
    parts, part_findings = make_parts(model)
    assembly, findings = assemble(model, parts)
    assert geometry_of(assembly) == geometry_of(start.assembly)
    played, _ = replay(model, assembly, start.sequence)
    again = replace(start, model=model, assembly=assembly, replay=played, noticed=(*part_findings, *findings))
    assert told(run(again)) == told(run(start))


def without_steps(findings: tuple[Finding, ...], sequence: Sequence) -> list[tuple[object, ...]]:
    """Return kind, place, parts and holes: all that a finding says but for step numbers."""
    lines = {step.number: step.at.line for step in sequence.steps}
    return sorted(
        (f.kind, f.at.file, f.at.line, f.parts, f.holes, tuple(sorted(lines[s] for s in f.steps)))
        for f in findings
    )


def touched(choice: tuple[HoleChoice, ...] | None, assembly: Assembly) -> set[int] | None:
    """Return the stacks that a choice by name touches; None: it depends on all that went before."""
    if choice is None:
        return None
    found: set[int] = set()
    for one in choice:
        rows = assembly.placed[one.placed].part.twins.get(one.row, (one.row,))
        found |= {
            index
            for name, index in assembly.stack_of.items()
            if any(name.startswith(f"{one.placed}.{row}.") for row in rows)
            and (one.first is None or one.first <= int(name.rpartition(".")[2]) <= (one.last or one.first))
        }
    return found


def may_swap(first: Step, second: Step, assembly: Assembly) -> bool:
    """Say whether two steps only do something to holes, and to different ones."""
    hole_actions = (Rivet, LeaveOpen, PullPins)
    if not isinstance(first.action, hole_actions) or not isinstance(second.action, hole_actions):
        return False
    a, b = touched(first.action.holes, assembly), touched(second.action.holes, assembly)
    return a is not None and b is not None and not a & b


@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_the_order_of_independent_steps(data: st.DataObject) -> None:
    start = example("practice_tray_mistakes_order")
    assert start.sequence is not None
    steps = list(start.sequence.steps)
    swaps = [k for k in range(len(steps) - 1) if may_swap(steps[k], steps[k + 1], start.assembly)]
    for k in data.draw(st.lists(st.sampled_from(swaps), min_size=1, max_size=4)):
        if may_swap(steps[k], steps[k + 1], start.assembly):
            steps[k], steps[k + 1] = steps[k + 1], steps[k]
    sequence = replace(
        start.sequence, steps=tuple(replace(step, number=k) for k, step in enumerate(steps, start=1))
    )
    played, _ = replay(start.model, start.assembly, sequence)
    again = replace(start, sequence=sequence, replay=played)
    assert without_steps(run(again), sequence) == without_steps(run(start), start.sequence)
