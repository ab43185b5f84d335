"""One mutation tried: what the simulation says, what ``check`` finds, and whether it names what was moved."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from pathlib import Path

from seqviz.build import Build, build
from seqviz.checks import CHECKS
from seqviz.checks.run import run
from seqviz.findings import Finding
from seqviz.geometry.separation import interfere
from seqviz.records.load import load
from seqviz.sequence.replay import replay_on
from tests.mutations.bench import Facts, facts_of
from tests.mutations.changes import Mutation
from tests.mutations.hands import Hand, fits
from tests.mutations.read import Entry, dumped, lines_of, listed, read
from tests.mutations.simulate import Outcome, simulate

__all__ = ["ROOT", "Demo", "Trial", "hand_trial", "trial", "with_structure"]

ROOT = Path(__file__).parents[2]
SAME = ("gap-in-stack", "gap-drawn-shut")
"""Kinds about the structure alone that take long; it is the same in all mutations of the steps."""


@dataclass(frozen=True, eq=False)
class Demo:
    """A clean sequence with its structure, built once for all its mutations."""

    name: str
    file: Entry
    built: Build
    facts: Facts
    clean: Outcome
    findings: tuple[Finding, ...]


@dataclass(frozen=True, eq=False)
class Trial:
    demo: str
    mutation: Mutation
    outcome: Outcome
    findings: list[Finding]
    names_it: bool

    @property
    def verdict(self) -> str:
        """``wrong``: it cannot be done; ``doubtful``: it can, but look before you start; ``good``."""
        return "wrong" if self.outcome.wrong else "doubtful" if self.outcome.doubts else "good"

    @property
    def error(self) -> bool:
        return any(f.severity == "error" for f in self.findings)

    def __str__(self) -> str:
        said = [f"{number}: {why}" for number, why in [*self.outcome.wrong, *self.outcome.doubts]][:4]
        found = [f"{f.kind} {f.steps}" for f in self.findings][:4]
        return (
            f"{self.demo}, {self.mutation.kind}, {self.mutation.what}: {self.verdict} {said}; found {found}"
        )


def with_structure(name: str) -> Demo:
    path = ROOT / "sequences" / f"{name}.yaml"
    built, file = build(str(path)), read(path)
    facts = facts_of(built)
    return Demo(name, file, built, facts, simulate(facts, file), run(built))


def trial(demo: Demo, mutation: Mutation, folder: Path) -> Trial:
    path = folder / f"{demo.name}.yaml"
    model = str((ROOT / "models" / f"{demo.name}.yaml").resolve())
    path.write_text(dumped({**mutation.file, "model": model}), encoding="utf-8")
    made = _built(demo, path)
    found = [f for check in CHECKS if check.kind not in SAME for f in check.find(made)]
    findings = [f for f in found if f.severity != "note"]
    names = any(_names(demo, mutation, f) for f in findings)
    return Trial(demo.name, mutation, simulate(demo.facts, mutation.file), findings, names)


def hand_trial(demo: Demo, hand: Hand, folder: Path) -> Trial:
    """Try a change in the model: do the parts still fit, do none meet, and can the steps be done?"""
    path, model = folder / f"{demo.name}.yaml", folder / f"{demo.name}_model.yaml"
    path.write_text(dumped({**demo.file, "model": model.name}), encoding="utf-8")
    model.write_text(dumped(hand.model), encoding="utf-8")
    made = build(str(path))
    findings = [f for f in run(made) if f.severity != "note"]
    mutation = Mutation("other hand", hand.what, demo.file, [])
    outcome = Outcome()
    if not fits(demo.built.assembly, made.assembly, hand):
        outcome.wrong.append((0, "the holes do not fit as the words say"))
    placed = list(made.assembly.placed.values())
    for one, other in combinations(placed, 2):
        if interfere(one.solids, other.solids):
            outcome.wrong.append((0, f"{one.name} and {other.name} meet"))
    if not outcome.wrong:
        outcome = simulate(facts_of(made), demo.file)
    names = any(hand.name in f"{part} {f.message}" for f in findings for part in (*f.parts, ""))
    return Trial(demo.name, mutation, outcome, findings, names)


def _built(demo: Demo, path: Path) -> Build:
    """Build as ``build`` does, with the structure and the tables that are there."""
    loaded, old = load(str(path)), demo.built
    assert loaded.sequence is not None
    played, later = replay_on(demo.facts.tables, loaded.model, old.assembly, loaded.sequence)
    noticed = (*loaded.findings, *later)
    return replace(
        old,
        sources=loaded.sources,
        model=loaded.model,
        sequence=loaded.sequence,
        replay=played,
        noticed=noticed,
    )


def _names(demo: Demo, mutation: Mutation, finding: Finding) -> bool:
    """Say whether the finding points at a moved step, at what it brings or fills, or a forgotten turn."""
    numbers = {line.number for line in lines_of(mutation.file) for one in mutation.moved if line.entry is one}
    numbers |= {line.number for line in lines_of(mutation.file) if line.around in mutation.moved}
    parts: set[str] = set()
    stacks: set[int] = set()
    for entry in mutation.moved:
        old = mutation.was.get(id(entry), entry)
        for one in old["steps"] if "apart" in old else [old]:
            did = demo.clean.did.get(id(one), (set(), set()))
            parts, stacks = parts | did[0], stacks | did[1]
    names = {name for one in mutation.moved for word in ("place", "apart") for name in listed(one.get(word))}
    turned = any("turn over" in entry for entry in mutation.moved)
    holes = {demo.built.assembly.stack_of.get(hole) for hole in finding.holes}
    return bool(
        numbers & set(finding.steps)
        or parts & set(finding.parts)
        or stacks & holes
        or any(name in finding.message for name in names | parts)
        or (turned and ("urn the work" in finding.fix or "urn it" in finding.fix))
    )
