from __future__ import annotations

from seqviz.scene.hole_names import split_hole


def test_the_number_is_read_from_the_right() -> None:
    assert split_hole("float.keel.web.3") == ("float.keel.web", 3)
