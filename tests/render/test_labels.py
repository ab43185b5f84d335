"""Labels find free paper; lines end in their parts and cross nothing."""

import numpy as np

from seqviz.render.labels import Page, Placed, Wish, deepest_pixel, lines_of, place_labels
from seqviz.render.marks import spots_of
from seqviz.render.sheet import labels_of
from seqviz.render.window import Depths
from tests.render.drawn import NEEDS_GRAPHICS, shots

SHAPE = (200, 400)


def wish(name: str, column: float, row: float, *, wanted: bool = True) -> Wish:
    return Wish(lines=(name,), anchor=np.array([column, row]), wanted=wanted)


def page(drawn: tuple[slice, slice], taken: tuple[slice, slice] | None = None) -> Page:
    masks = [np.zeros(SHAPE, dtype=bool) for _ in range(3)]
    masks[0][drawn] = True
    if taken is not None:
        masks[1][taken] = True
    return Page(drawn=masks[0], taken=masks[1], shunned=masks[2], cell=4.0)


def cells(label: Placed) -> tuple[slice, slice]:
    (column, row), (width, height) = label.corner, label.box
    return slice(row, row + height), slice(column, column + width)


def test_deepest_pixel_is_the_middle() -> None:
    mask = np.zeros((20, 20), dtype=bool)
    mask[2:9, 4:15] = True
    mask[15, 15] = True
    found = deepest_pixel(mask)
    assert found is not None
    assert found[1] == 5.5
    assert 7 <= found[0] <= 12
    assert deepest_pixel(np.zeros((3, 3), dtype=bool)) is None


def test_labels_stay_off_what_is_taken_and_off_each_other() -> None:
    part = (slice(60, 140), slice(100, 300))
    wishes = [wish("rail left", 120, 100), wish("rail right", 125, 105), wish("strap", 280, 100)]
    found = place_labels(wishes, page(part, taken=part))
    assert [label.wish for label in found] == wishes
    covered = np.zeros(SHAPE, dtype=int)
    for label in found:
        covered[cells(label)] += 1
    assert covered.max() == 1
    assert covered[part].max() == 0


def test_a_label_that_need_not_be_wants_white_paper() -> None:
    everywhere = (slice(0, 200), slice(0, 400))
    assert place_labels([wish("bottom", 200, 100, wanted=False)], page(everywhere)) == []
    assert len(place_labels([wish("bottom", 200, 100)], page(everywhere))) == 1


def test_a_part_within_a_ring_of_marks_keeps_its_name() -> None:
    part = (slice(60, 140), slice(100, 300))
    ringed = page(part, taken=part)
    ringed.shunned[85:115, 185:215] = True
    ringed.shunned[98:103, 198:203] = False
    found = place_labels([wish("eye plate", 200, 100), wish("rail", 200, 100, wanted=False)], ringed)
    assert [label.wish.lines for label in found] == [("eye plate",)]


def test_lines_go_around_what_they_must_not_cross() -> None:
    nothing = (slice(0, 0), slice(0, 0))
    free = page(nothing)
    # A fence to the left and above; the way down is open.
    free.shunned[40:160, 190:193] = True
    free.shunned[40:43, 190:260] = True
    free.shunned[40:160, 257:260] = True
    label = place_labels([wish("rail", 225, 100)], free)[0]
    line = label.wish.anchor + np.linspace(0, 1, 200)[:, np.newaxis] * (label.near - label.wish.anchor)
    assert not free.shunned[line[:, 1].astype(int), line[:, 0].astype(int)].any()


def test_long_names_are_broken() -> None:
    assert lines_of("strap", wanted=True) == ("strap",)
    assert lines_of("corner doubler forward left", wanted=True) == ("corner doubler", "forward left")


@NEEDS_GRAPHICS
def test_every_new_part_has_its_label_and_none_overlap() -> None:
    for shot in shots():
        seen = shot.seen
        large: Depths = np.repeat(np.repeat(seen.depth, 8, axis=0), 8, axis=1)
        spots = spots_of(shot.scene, seen.view.resized(8), large)
        found = labels_of(shot, spots, np.zeros(large.shape, dtype=bool), 8.0)
        names = {" ".join(label.wish.lines) for label in found}
        assert names >= set(shot.scene.new)
        covered = np.zeros(seen.ids.shape, dtype=int)
        for label in found:
            covered[cells(label)] += 1
        assert covered.max(initial=0) <= 1
        assert not covered[np.isin(seen.ids, list(seen.alone))].any()
        for label in found:
            item = seen.ids[int(label.wish.anchor[1]), int(label.wish.anchor[0])]
            assert shot.scene.items[item].name == " ".join(label.wish.lines)
