"""Findings and files made by hand for the tests of the report."""

from __future__ import annotations

from seqviz.findings import At, Finding, Related

MODEL, SEQUENCE = "models/tray.yaml", "sequences/tray.yaml"

LINES = {
    MODEL: ["format: 1", "placed:", "  strap: {part: strap}"],
    SEQUENCE: ["steps:", "  - place: rail", "  - rivet: rail.foot", "  - place: strap"],
}

LATE = Finding(
    kind="layer-missing",
    severity="error",
    at=At(file=SEQUENCE, line=3, column=5),
    message="rail.foot 1-3 are riveted before strap is there.",
    why="A rivet clamps every layer of its stack.",
    fix="Place strap first.",
    steps=(2, 3),
    parts=("strap",),
    holes=("rail.foot.1", "rail.foot.2", "rail.foot.3"),
    related=(Related(at=At(file=SEQUENCE, line=4, column=12), message="strap comes here"),),
)
GAP = Finding(
    kind="gap-in-stack",
    severity="warning",
    at=At(file=MODEL, line=3, column=3),
    message="1.2 mm under strap.",
    why="Too wide to be drawn shut.",
    fix="Shim it.",
    figure=1.23456789,
    known="the drawing shows no joggle",
)
DRAWN = Finding(
    kind="gap-drawn-shut",
    severity="note",
    at=At(file=MODEL, line=2, column=1),
    message="0.4 mm under strap is drawn shut.",
    why="",
    fix="",
)

SUMMARY = {
    "parts": 3,
    "placed": 4,
    "holes": 60,
    "stacks": 40,
    "fasteners": 30,
    "steps": 3,
    "errors": 1,
    "warnings": 0,
    "notes": 1,
    "known": 1,
}
