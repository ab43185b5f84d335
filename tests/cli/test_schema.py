from __future__ import annotations

import json
from typing import Literal

import pytest

from seqviz.cli.program import run
from seqviz.records.schema import schema


@pytest.mark.parametrize("which", ["model", "sequence"])
def test_the_schema_is_printed_as_json(
    which: Literal["model", "sequence"], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["schema", which]) == 0
    assert json.loads(capsys.readouterr().out) == schema(which)
