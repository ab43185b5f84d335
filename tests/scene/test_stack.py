from __future__ import annotations

from seqviz.scene.stack import grouped, groups_of_part
from tests.scene.assembly_by_hand import stack, tray


def test_equal_stacks_of_a_row_are_one_group() -> None:
    groups = grouped(tray().stacks)
    assert [(group.row, group.numbers, group.stack.index) for group in groups] == [
        ("rail left.foot", (1, 5), 0),
        ("rail left.foot", (2, 4), 1),
        ("strap.end", (1,), 2),
        ("rail right.foot", (1,), 5),
        ("skin.feet", (1, 2), 6),
    ]


def test_the_groups_of_a_row_come_by_number_whatever_the_order_of_the_stacks() -> None:
    groups = grouped(reversed(tray().stacks))
    assert [(group.row, group.numbers) for group in groups] == [
        ("skin.feet", (1, 2)),
        ("rail right.foot", (1,)),
        ("rail left.foot", (1, 5)),
        ("rail left.foot", (2, 4)),
        ("strap.end", (1,)),
    ]


def test_a_part_speaks_of_its_own_holes() -> None:
    groups = groups_of_part(tray(), "rail left")
    assert [(group.row, group.numbers) for group in groups] == [
        ("rail left.foot", (1, 5)),
        ("rail left.foot", (2, 4)),
        ("rail left.foot", (3,)),
    ]


def test_a_part_that_is_undrilled_there_is_told_by_the_holes_of_the_others() -> None:
    rows = [(group.row, group.numbers) for group in groups_of_part(tray(), "skin")]
    assert rows == [
        ("skin.edge left", (1, 5)),
        ("skin.edge left", (2, 4)),
        ("skin.edge left", (3,)),
        ("rail right.foot", (1,)),
        ("skin.feet", (1, 2)),
    ]


def test_a_part_without_stacks_has_no_groups() -> None:
    assert groups_of_part(tray(), "clip") == []


def test_thickness_gap_fastener_size_and_drilling_each_keep_stacks_apart() -> None:
    layers = [("a", "a.r.1", 1.0, 0.0), ("b", "b.r.1", 0.0, -1.0)]
    base = {"size": "small", "fastener": "f", "diameter": 3.3}
    one = stack(0, layers, **base)
    others = [
        stack(1, [("a", "a.r.2", 1.01, 0.0), ("b", "b.r.2", 0.0, -1.0)], **base),
        stack(2, [("a", "a.r.3", 1.0, 0.0), ("b", "b.r.3", -0.1, -1.1)], **base),
        stack(3, [("a", "a.r.4", 1.0, 0.0), ("b", None, 0.0, -1.0)], **base),
        stack(4, [("a", "a.r.5", 1.0, 0.0), ("b", "b.r.5", 0.0, -1.0)], **{**base, "fastener": "g"}),
        stack(5, [("a", "a.r.6", 1.0, 0.0), ("b", "b.r.6", 0.0, -1.0)], **{**base, "size": "big"}),
        stack(6, [("a", "a.r.7", 1.0, 0.0), ("b", "b.r.7", 0.0, -1.0)], **{**base, "diameter": 3.4}),
    ]
    same = stack(7, [("a", "a.r.8", 1.0 + 1e-7, 0.0), ("b", "b.r.8", 0.0, -1.0)], **base)
    groups = grouped([one, *others, same])
    assert [group.numbers for group in groups] == [(1, 8), (2,), (3,), (4,), (5,), (6,), (7,)]


def test_noise_about_a_sixteenth_of_an_inch_keeps_no_stacks_apart() -> None:
    # 1/16 in = 1.5875 mm stands between two thousandths.
    noisy = [
        stack(k, [("a", f"a.r.{k + 1}", 1.5875 + noise, 0.0), ("b", f"b.r.{k + 1}", 0.0, -1.0)])
        for k, noise in enumerate((0.0, 1e-12, -1e-12))
    ]
    assert [group.numbers for group in grouped(noisy)] == [(1, 2, 3)]


def test_what_is_left_of_a_gap_between_sheets_that_touch_keeps_nothing_apart() -> None:
    # 0.03 mm is touching, and is not told; 0.06 mm is a gap.
    base = {"size": "small", "fastener": "f", "diameter": 3.3}
    stacks = [
        stack(k, [("a", f"a.r.{k + 1}", 1.0, 0.0), ("b", f"b.r.{k + 1}", -gap, -1.0 - gap)], **base)
        for k, gap in enumerate((0.0, 0.03, 0.002, 0.06))
    ]
    assert [group.numbers for group in grouped(stacks)] == [(1, 2, 3), (4,)]
