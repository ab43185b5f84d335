from __future__ import annotations

from pathlib import Path

from seqviz.assembly.kinds import kinds_of
from seqviz.build import build

SHELF = Path(__file__).parents[2] / "models" / "battery_shelf.yaml"


def test_every_piece_of_the_shelf_has_its_kind() -> None:
    made = build(str(SHELF))
    kinds = kinds_of(made.parts, made.assembly)
    found = {kind.name: (kind.entry, kind.part.mirrored, kind.placed) for kind in kinds}
    assert found["shelf skin"] == ("shelf skin", False, ("shelf skin",))
    # One piece of each hand: they are called as they are placed.
    assert found["rail left"] == ("rail", True, ("rail left",))
    assert found["rail right"] == ("rail", False, ("rail right",))
    # Two of each hand: the part's own name.
    assert found["gusset"] == ("gusset", False, ("aft gusset left", "forward gusset left"))
    assert found["gusset other hand"] == ("gusset", True, ("aft gusset right", "forward gusset right"))
    # Pieces of stock have no entry under parts.
    assert found["cross 1"] == ("cross 1", False, ("cross 1",))
    assert sorted(name for kind in kinds for name in kind.placed) == sorted(made.assembly.placed)


def test_what_is_not_placed_yet_is_a_kind_all_the_same(tmp_path: Path) -> None:
    path = tmp_path / "m.yaml"
    path.write_text(
        "format: 1\nname: s\nbase: p\nparts:\n  p: {shape: bar, length: 9, width: 9, thickness: 1}\n"
        "  q: {shape: bar, length: 9, width: 9, thickness: 1}\n",
        encoding="utf-8",
    )
    made = build(str(path))
    assert [(kind.name, kind.placed) for kind in kinds_of(made.parts, made.assembly)] == [
        ("p", ("p",)),
        ("q", ()),
    ]
