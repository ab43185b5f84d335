from __future__ import annotations

from io import BytesIO

import numpy as np
from PIL import Image

from seqviz.render.small import BUDGET, WIDTHS, Small, fitting, small_pictures
from tests.render.drawn import NEEDS_GRAPHICS
from tests.scene.tray import tray


def noisy(number: int) -> Small:
    """Return a picture that takes many bytes."""
    pixels = np.random.default_rng(number).integers(0, 256, (480, 640, 3), dtype=np.uint8)
    written = BytesIO()
    Image.fromarray(pixels).save(written, "WEBP", quality=60)
    return Small(number=number, data=written.getvalue(), size=(640, 480))


def opened(one: Small) -> Image.Image:
    return Image.open(BytesIO(one.data))


def test_a_few_stay_as_wide_as_they_are() -> None:
    pictures = [noisy(1), noisy(2)]
    assert fitting(pictures, BUDGET) == pictures


def test_many_get_narrower_all_of_them_alike() -> None:
    pictures = [noisy(1), noisy(2)]
    whole = sum(len(one.data) for one in pictures)
    found = fitting(pictures, int(0.45 * whole))
    assert [one.number for one in found] == [1, 2]
    assert sum(len(one.data) for one in found) <= 0.45 * whole
    (size,) = {one.size for one in found}
    assert size in {(480, 360), (360, 270)}
    assert [(opened(one).format, opened(one).size) for one in found] == [("WEBP", size)] * 2


def test_of_far_too_many_the_first_ones_stay() -> None:
    pictures = [noisy(number) for number in (1, 2, 3)]
    smallest = len(fitting(pictures[:1], 1_000_000 // 30)[0].data)
    found = fitting(pictures, int(2.5 * smallest))
    assert [(one.number, one.size) for one in found] == [(1, (240, 180)), (2, (240, 180))]


@NEEDS_GRAPHICS
def test_the_tray_s_pictures_are_small_and_carry_no_words() -> None:
    told: list[tuple[int, int]] = []
    found = small_pictures(tray(), lambda done, of: told.append((done, of)))
    assert [one.number for one in found] == list(range(1, 14))
    assert {one.size for one in found} == {(WIDTHS[0], 480)}
    assert told[-1] == (13, 13)
    assert sum(len(one.data) for one in found) < 200_000
    # The words of the step stand beside the picture: above the work is paper.
    top = np.asarray(opened(found[6]).convert("L"))[:30]
    assert top.min() > 240
