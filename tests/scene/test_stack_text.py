from __future__ import annotations

from dataclasses import replace

import pytest

from seqviz.scene.stack import grouped
from seqviz.scene.stack_text import hole_line, hole_text, part_text, summary_text
from seqviz.trade.fasteners import BLIND_RIVET, BOLT, Fastener
from seqviz.trade.supply import supply_of
from tests.scene.assembly_by_hand import stack, tray

SHUT = {(2, "strap"): True}


def test_the_summary() -> None:
    assert summary_text(grouped(tray().stacks), SHUT, "mm") == (
        "rail left.foot 1, 5: rail left 1.6 over skin 0.8, grip 2.4; blind rivet 4.0; 2 holes\n"
        "rail left.foot 2, 4: rail left 1.6 over skin 0.8, grip 2.4; blind rivet 3.2; 2 holes\n"
        # 1.0 + 1.6 + 0.8 = 3.4; the gap from 2.0 down to 1.6 adds nothing
        "strap.end 1: strap 1 over rail left 1.6 over skin 0.8, grip 3.4, gap 0.4 drawn shut; "
        "blind rivet 3.2; 1 hole\n"
        "rail right.foot 1: rail right 1.6 over skin 0.8 (undrilled), grip 2.4; blind rivet 3.2; 1 hole\n"
        "skin.feet 1-2: skin 0.8 alone; fastener not named; 2 holes\n"
        "\n"
        "8 hole stacks in 4 rows. Thicknesses in mm.\n"
    )


def test_the_summary_in_inches_says_so_at_every_number() -> None:
    text = summary_text(grouped(tray().stacks[:1]), SHUT, "in")
    # 1.6 / 25.4 = 0.0630, 0.8 / 25.4 = 0.0315, 2.4 / 25.4 = 0.0945
    assert text == (
        "rail left.foot 1: rail left 0.063 in over skin 0.0315 in, grip 0.0945 in; blind rivet 4.0; 1 hole\n"
        "\n1 hole stack in 1 row.\n"
    )


def test_a_structure_without_holes() -> None:
    assert summary_text([], SHUT, "mm") == "No holes.\n"


@pytest.mark.parametrize(
    ("shut", "words"),
    [
        ({(2, "strap"): True}, "gap 0.4 drawn shut"),
        ({(2, "strap"): False}, "gap 0.4 not drawn shut"),
        ({(2, "rail left"): True, (1, "strap"): True}, "gap 0.4"),  # nobody can tell
    ],
)
def test_what_becomes_of_a_gap(shut: dict[tuple[int, str], bool], words: str) -> None:
    assert hole_line(tray().stacks[2], shut, "mm") == (
        "strap.end.1 = rail left.foot.3 = skin.edge left.3: strap 1 over rail left 1.6 over skin 0.8, "
        f"grip 3.4, {words}; blind rivet 3.2"
    )


def test_one_hole_in_full() -> None:
    assert hole_text("rail left.foot.3", tray().stacks[2], SHUT, "mm") == (
        "rail left.foot.3 (also strap.end.1, skin.edge left.3)\n"
        "  1  strap             1  strap.end.1\n"
        "     gap 0.4 drawn shut\n"
        "  2  rail left       1.6  rail left.foot.3\n"
        "  3  skin            0.8  skin.edge left.3\n"
        "  grip 3.4\n"
        "  hole 3.3 (small): blind rivet 3.2\n"
    )


def test_one_hole_that_is_undrilled_below() -> None:
    assert hole_text("rail right.foot.1", tray().stacks[5], SHUT, "mm") == (
        "rail right.foot.1\n"
        "  1  rail right       1.6  rail right.foot.1\n"
        "  2  skin             0.8  undrilled\n"
        "  grip 2.4\n"
        "  hole 3.3 (small): blind rivet 3.2\n"
    )


def test_one_hole_alone() -> None:
    assert hole_text("skin.feet.1", tray().stacks[6], SHUT, "mm") == (
        "skin.feet.1\n"
        "  1  skin       0.8  skin.feet.1\n"
        "  nothing under it and nothing over it\n"
        "  hole 4.8: fastener not named\n"
    )


def test_one_part_in_full() -> None:
    assert part_text("rail left", tray(), SHUT, "mm") == (
        "rail left (rail)\n"
        "  sits on skin: 8190 mm2\n"
        "  under strap: 225 mm2, gap 0.4\n"
        "  rail left.foot 1, 5: rail left 1.6 over skin 0.8, grip 2.4; blind rivet 4.0; 2 holes\n"
        "  rail left.foot 2, 4: rail left 1.6 over skin 0.8, grip 2.4; blind rivet 3.2; 2 holes\n"
        "  rail left.foot 3: strap 1 over rail left 1.6 over skin 0.8, grip 3.4, gap 0.4 drawn shut; "
        "blind rivet 3.2; 1 hole\n"
    )


def test_the_other_hand_is_named() -> None:
    assert part_text("rail right", tray(), SHUT, "mm").startswith("rail right (rail, other hand)\n")


def test_a_part_that_touches_nothing() -> None:
    assert part_text("clip", tray(), SHUT, "mm") == (
        "clip\n  sits on nothing, and nothing sits on it\n  no holes\n"
    )


@pytest.mark.parametrize(
    ("lengths", "units", "words"),
    [
        (((8.0, 3.0, 5.0), (6.0, 1.5, 3.5)), "mm", "blind rivet 3.2 length 6 (grips 1.5 to 3.5)"),
        (((8.0, 3.0, 5.0),), "mm", "blind rivet 3.2 length 8 (grips 3 to 5)"),
        (((6.35, 2.54, 5.08),), "in", "blind rivet 3.2 length 0.25 in (grips 0.1 to 0.2 in)"),
        (((5.0, 0.5, 3.0),), "mm", "blind rivet 3.2, no length fits (the longest, length 5, ends at 3)"),
    ],
)
def test_which_length_fits_a_grip_of_3_4(
    lengths: tuple[tuple[float, float, float], ...], units: str, words: str
) -> None:
    supply = supply_of(Fastener(kind=BLIND_RIVET, diameter=3.2), lengths)
    line = hole_line(replace(tray().stacks[2], supply=supply), SHUT, units)
    assert line.endswith(f"; {words}")


@pytest.mark.parametrize(
    ("apart", "words"),
    [
        # 1.0 + 1.0 and 20 of room between the walls are 22 = .866 in: -12, grip .875.
        (20.0, "grip 2, gap 20; bolt AN3-12, 1 washer (its grip 22.22, 3.3 threads show)"),
        # A gap of 3 or less is drawn shut, or told: 2.0 = .079 in: -3 has .5 thread in the hole.
        (3.0, "grip 2, gap 3; bolt AN3-3, 1 washer (its grip 1.6, 2.5 threads show)"),
    ],
)
def test_a_bolt_across_two_walls_reaches_through_the_room_between(apart: float, words: str) -> None:
    walls = stack(0, [("near", "near.eye.1", apart + 2, apart + 1), ("far", "far.eye.1", 1.0, 0.0)])
    supply = supply_of(Fastener(kind=BOLT, diameter=3 / 16 * 25.4))
    bolted = replace(walls, fastener="bolt AN3", supply=supply)
    assert (bolted.grip, bolted.clamped) == (2.0, 22.0 if apart > 3 else 2.0)
    assert hole_line(bolted, {}, "mm").endswith(f", {words}")


def test_a_rivet_that_no_table_lists_is_named_and_no_more() -> None:
    supply = supply_of(Fastener(kind=BLIND_RIVET, diameter=3.5))
    assert hole_line(replace(tray().stacks[2], supply=supply), SHUT, "mm").endswith("; blind rivet 3.2")


def test_a_part_without_dimensions() -> None:
    assembly = tray()
    assembly.placed["clip"] = replace(assembly.placed["clip"], located=False)
    assert part_text("clip", assembly, SHUT, "mm") == (
        "clip\n  no dimensions: what it sits on is known at its holes only\n  no holes\n"
    )
