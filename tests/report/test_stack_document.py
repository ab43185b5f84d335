from __future__ import annotations

import json

from seqviz.report.stack_document import stacks_as_json
from tests.scene.assembly_by_hand import tray


def test_the_document() -> None:
    made = tray()
    text = stacks_as_json("models/tray.yaml", [made.stacks[2], made.stacks[5]], made.contacts[1:2])
    assert json.loads(text) == {
        "format": 1,
        "model": "models/tray.yaml",
        "units": "mm",
        "stacks": [
            {
                "holes": ["strap.end.1", "rail left.foot.3", "skin.edge left.3"],
                "layers": [
                    {"part": "strap", "hole": "strap.end.1", "thickness": 1.0},
                    {"part": "rail left", "hole": "rail left.foot.3", "thickness": 1.6},
                    {"part": "skin", "hole": "skin.edge left.3", "thickness": 0.8},
                ],
                "gaps": [0.4, 0.0],
                "grip": 3.4,
                "diameter": 3.3,
                "pin": 3.2,
                "size": "small",
                "fastener": "blind rivet 3.2",
                "length": None,
                "choice": None,
                "located": True,
                "set": None,
            },
            {
                "holes": ["rail right.foot.1"],
                "layers": [
                    {"part": "rail right", "hole": "rail right.foot.1", "thickness": 1.6},
                    {"part": "skin", "hole": None, "thickness": 0.8},
                ],
                "gaps": [0.0],
                "grip": 2.4,
                "diameter": 3.3,
                "pin": 3.2,
                "size": "small",
                "fastener": "blind rivet 3.2",
                "length": None,
                "choice": None,
                "located": True,
                "set": None,
            },
        ],
        "contacts": [{"upper": "strap", "lower": "rail left", "area": 225.0, "gap": 0.4}],
    }
