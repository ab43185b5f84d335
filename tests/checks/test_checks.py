"""The list of checks is the one of the design, in its order."""

import importlib
import pkgutil

import seqviz.checks
from seqviz.checks import CHECKS
from seqviz.checks.check import Check

SEVERITIES = {
    "error": [
        "unknown-word",
        "bad-value",
        "missing-word",
        "unknown-name",
        "duplicate-name",
        "value-lost",
        "say-over-or-under",
        "faces-wrong-way",
        "lay-up-differs",
        "holes-off",
        "layer-undrilled",
        "hole-size-differs",
        "parts-interfere",
        "loose-part",
        "single-layer",
        "layer-missing",
        "not-drilled",
        "tool-blocked",
        "no-way-in",
        "under-set-layer",
        "head-under-part",
        "wrong-side-up",
        "fills-left-open",
        "taken-off-when-set",
        "way-out-blocked",
        "never-set",
        "left-open-forever",
        "part-unplaced",
        "still-finger-tight",
        "placed-twice",
        "two-fasteners-named",
        "hole-for-fastener",
        "grip-out-of-range",
    ],
    "warning": [
        "known-unused",
        "gap-in-stack",
        "woven-overlap",
        "rides-the-radius",
        "two-of-one-hand",
        "in-kept-space",
        "pin-in-the-way",
        "pin-out-of-reach",
        "pins-too-far-apart",
        "loose-at-turn-over",
        "stands-on-weak",
        "set-twice",
        "closing-unchecked",
        "drill-hits",
        "countersink-too-deep",
        "prep-missed",
        "edge-distance",
        "hole-pitch",
        "bend-radius",
    ],
    "note": [
        "gap-drawn-shut",
        "measured-loosely",
        "meshed-roughly",
        "last-chance",
        "rivet-for-sheet",
        "bare-joint",
    ],
}


def test_every_kind_weighs_what_the_design_says() -> None:
    assert {check.kind: check.severity for check in CHECKS} == {
        kind: severity for severity, kinds in SEVERITIES.items() for kind in kinds
    }
    assert len(CHECKS) == 58


def test_a_check_lives_in_the_module_of_its_name_and_every_check_is_listed() -> None:
    found = {}
    for module in pkgutil.iter_modules(seqviz.checks.__path__):
        check = getattr(importlib.import_module(f"seqviz.checks.{module.name}"), "CHECK", None)
        if isinstance(check, Check):
            found[module.name.replace("_", "-")] = check
    assert found == {check.kind: check for check in CHECKS}
