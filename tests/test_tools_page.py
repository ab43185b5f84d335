"""The set of tools on the page is the built-in one."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from seqviz.records.load import load
from seqviz.sequence.built_in_tools import BUILT_IN_TOOLS, TYPICAL

PAGE = Path(__file__).parents[1] / "docs" / "tools.md"
MODEL = "format: 1\nunits: mm\nbase: skin\nparts: {skin: {thickness: 1}}\n"


def test_the_page_shows_the_built_in_tools(tmp_path: Path) -> None:
    found = re.search(r"```yaml\n(tools:\n.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None
    (tmp_path / "model.yaml").write_text(MODEL, encoding="utf-8")
    path = tmp_path / "order.yaml"
    path.write_text(f"format: 1\nmodel: model.yaml\nsteps: []\n{found[1]}", encoding="utf-8")
    loaded = load(str(path))
    assert [finding.message for finding in loaded.findings if finding.at.file == str(path)] == []
    assert loaded.sequence is not None
    assert loaded.sequence.tools is not None
    at = BUILT_IN_TOOLS[0].at
    assert tuple(replace(tool, at=at) for tool in loaded.sequence.tools) == BUILT_IN_TOOLS
    assert {tool.note for tool in BUILT_IN_TOOLS} == {TYPICAL}
