from __future__ import annotations

import json

from seqviz.report.documents import as_json
from tests.report.findings_by_hand import GAP, LATE, MODEL, SEQUENCE, SUMMARY


def test_the_document_has_exactly_the_form_that_was_agreed() -> None:
    assert json.loads(as_json(MODEL, SEQUENCE, [LATE, GAP], SUMMARY)) == {
        "format": 1,
        "model": "models/tray.yaml",
        "sequence": "sequences/tray.yaml",
        "findings": [
            {
                "kind": "layer-missing",
                "severity": "error",
                "steps": [2, 3],
                "parts": ["strap"],
                "holes": ["rail.foot.1", "rail.foot.2", "rail.foot.3"],
                "message": "rail.foot 1-3 are riveted before strap is there.",
                "why": "A rivet clamps every layer of its stack.",
                "fix": "Place strap first.",
                "at": {"file": "sequences/tray.yaml", "line": 3, "column": 5},
                "related": [
                    {"file": "sequences/tray.yaml", "line": 4, "column": 12, "message": "strap comes here"}
                ],
            },
            {
                "kind": "gap-in-stack",
                "severity": "warning",
                "steps": [],
                "parts": [],
                "holes": [],
                "message": "1.2 mm under strap.",
                "why": "Too wide to be drawn shut.",
                "fix": "Shim it.",
                "at": {"file": "models/tray.yaml", "line": 3, "column": 3},
                "related": [],
                "figure": 1.2346,
                "known": "the drawing shows no joggle",
            },
        ],
        "summary": SUMMARY,
    }


def test_a_model_alone_has_no_sequence() -> None:
    assert json.loads(as_json(MODEL, None, [], SUMMARY))["sequence"] is None


def test_the_keys_come_in_the_order_of_the_description_and_letters_stay_letters() -> None:
    text = as_json("modèle.yaml", None, [], {})
    assert list(json.loads(text)) == ["format", "model", "sequence", "findings", "summary"]
    assert '"modèle.yaml"' in text
    assert text.endswith("}\n")
