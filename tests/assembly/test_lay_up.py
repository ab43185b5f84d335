"""Who lies over whom, as said, and what a circle of statements does."""

from seqviz.assembly.entries import Entry
from seqviz.assembly.lay_up import Statement, Woven, lay_up
from seqviz.findings import At
from seqviz.records.model import Name, Placed

SPOT = At(file="m.yaml", line=1, column=1)


def entry(name: str, over: tuple[str, ...] = (), under: tuple[str, ...] = ()) -> Entry:
    record = Placed(
        name=name,
        part=None,
        stock=None,
        match=(),
        match_at=SPOT,
        along=None,
        pose=None,
        face=None,
        side=None,
        standing_leg=None,
        over=tuple(Name(text=n, at=SPOT) for n in over),
        under=tuple(Name(text=n, at=SPOT) for n in under),
        both_sides=None,
        at=SPOT,
    )
    return Entry(name=name, record=record, twin=None)


def known(*entries: Entry) -> dict[str, Entry]:
    return {e.name: e for e in entries}


def test_over_and_under_say_the_same() -> None:
    targets = {"rail": ("skin",), "strip": ("skin",)}
    for entries in (
        known(entry("rail", over=("strip",)), entry("strip")),
        known(entry("rail"), entry("strip", under=("rail",))),
    ):
        lay = lay_up(entries, targets, "skin")
        assert lay.order == ("skin", "strip", "rail")
        assert lay.below["rail"] == {"strip", "skin"}
        assert lay.below["strip"] == {"skin"}


def test_what_is_under_reaches_through() -> None:
    entries = known(entry("a", over=("b",)), entry("b", over=("c",)), entry("c"))
    lay = lay_up(entries, dict.fromkeys("abc", ("skin",)), "skin")
    assert lay.below["a"] == {"b", "c", "skin"}
    assert lay.order == ("skin", "c", "b", "a")


def test_a_circle_loses_the_statement_of_the_last_name() -> None:
    entries = known(entry("a", over=("b",)), entry("b", over=("c",)), entry("c", over=("a",)))
    lay = lay_up(entries, dict.fromkeys("abc", ("skin",)), "skin")
    ignored = Statement(upper="c", lower="a", by="c", target=False)
    assert lay.woven == (Woven(circle=("a", "b", "c"), left_out=(ignored,)),)
    assert lay.left_out == (ignored,)
    assert lay.order == ("skin", "c", "b", "a")
    assert lay.circular == ()


def test_matches_in_a_circle_cannot_be_placed() -> None:
    lay = lay_up(known(entry("a"), entry("b")), {"a": ("b",), "b": ("a",)}, "skin")
    assert lay.circular == ("a", "b")
    assert lay.order == ("skin",)
