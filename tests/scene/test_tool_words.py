from __future__ import annotations

import pytest

from seqviz.scene.tool_words import with_tools


@pytest.mark.parametrize(
    ("tools", "words"),
    [
        ((), ""),
        (("hand puller",), "with the hand puller"),
        (("hammer", "bar"), "with the hammer at the head and the bar at the tail"),
        (("wrench", "wrench"), "with the wrench at both ends"),
    ],
)
def test_tools_by_their_ends(tools: tuple[str, ...], words: str) -> None:
    assert with_tools(tools) == words
