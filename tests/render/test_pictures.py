"""Whole pictures: the same twice, never half a set, new parts in the accent colour only."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

import seqviz.render.pictures as module
from seqviz.render.legend import LEGEND
from seqviz.render.pictures import draw_pictures
from tests.render.drawn import NEEDS_GRAPHICS, pictures, shots
from tests.scene.tray import tray

pytestmark = NEEDS_GRAPHICS


def blue(picture: np.ndarray) -> np.ndarray:
    """Return where a picture is clearly blue: new parts and their edges."""
    red, green, azure = picture.astype(int).transpose(2, 0, 1)
    return np.asarray((azure - red > 40) & (azure - green > 15))


@pytest.fixture
def surveyed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Views that were found once already are not searched for again."""
    monkeypatch.setattr(module, "shots_of", lambda _scenes, _size: list(shots()))


def opened(path: Path) -> np.ndarray:
    with Image.open(path) as picture:
        return np.array(picture)


@pytest.mark.usefixtures("surveyed")
def test_size_and_names(tmp_path: Path) -> None:
    said: list[tuple[int, int]] = []
    paths = draw_pictures(tray(), tmp_path / "new", [4, 3], lambda done, of: said.append((done, of)))
    assert paths == [tmp_path / "new" / "step_03.png", tmp_path / "new" / "step_04.png"]
    assert [opened(path).shape for path in paths] == [(1200, 1600, 3)] * 2
    assert said == [(1, 2), (2, 2)]
    # Nothing is left beside the folder.
    assert [path.name for path in tmp_path.iterdir()] == ["new"]


def test_same_picture_alone_and_among_others(tmp_path: Path) -> None:
    path = draw_pictures(tray(), tmp_path, [2], lambda _done, _of: None)[0]
    assert np.array_equal(opened(path), pictures()[2])


@pytest.mark.usefixtures("surveyed")
def test_a_failure_halfway_keeps_earlier_ones(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "pictures"
    folder.mkdir()
    for name in ("step_01.png", "step_02.png"):
        (folder / name).write_bytes(b"earlier")
    calls = []

    def compose(*_things: object) -> Image.Image:
        calls.append(1)
        if len(calls) == 2:
            raise RuntimeError("the disk is full")
        return Image.new("RGB", (4, 4))

    monkeypatch.setattr(module, "compose", compose)
    with pytest.raises(RuntimeError):
        draw_pictures(tray(), folder, [1, 2], lambda _done, _of: None)
    assert [path.read_bytes() for path in sorted(folder.iterdir())] == [b"earlier"] * 2
    assert [path.name for path in tmp_path.iterdir()] == ["pictures"]


def test_accent_on_the_new_parts_only() -> None:
    picture, seen = pictures()[2], shots()[1].seen
    work = picture[picture.shape[0] - LEGEND - seen.ids.shape[0] * 4 : picture.shape[0] - LEGEND]
    wide = np.kron(np.isin(seen.ids, list(seen.alone)), np.ones((4, 4), dtype=bool))
    grown = np.zeros_like(wide)
    for r in range(-6, 7, 2):
        for c in range(-6, 7, 2):
            grown |= np.roll(wide, (r, c), (0, 1))
    assert not (blue(work) & ~grown).any()
    # Marks, names and the arrow cover some of it.
    assert (blue(work) & wide).sum() > 0.7 * wide.sum()


def test_steps_without_a_new_part_have_no_accent() -> None:
    assert not blue(pictures()[9]).any()
    assert not blue(pictures()[10]).any()


def test_new_and_old_differ_in_grey() -> None:
    """L* of the new part's flats is at least 15 below that of the old one's (project choice)."""
    picture, seen = pictures()[2], shots()[1].seen
    work = picture[picture.shape[0] - LEGEND - seen.ids.shape[0] * 4 : picture.shape[0] - LEGEND]
    luminance = ((work / 255.0) ** 2.2) @ [0.2126, 0.7152, 0.0722]
    lightness = 116 * np.cbrt(luminance) - 16
    ids = np.kron(seen.ids, np.ones((4, 4), dtype=int))
    old, new = (float(np.median(lightness[np.isin(ids, which)])) for which in ([0], [1, 2]))
    assert old - new >= 15


def test_turn_symbol_stands_at_the_upper_right() -> None:
    picture, plain = pictures()[10], shots()[9].seen
    top = picture.shape[0] - LEGEND - plain.ids.shape[0] * 4
    corner = picture[top : top + 250, -280:]
    assert (corner.sum(axis=2) < 150).sum() > 1500


@pytest.mark.usefixtures("surveyed")
def test_all_steps_by_default(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "compose", lambda *_things: Image.new("RGB", (4, 4)))
    monkeypatch.setattr(module, "draw_work", lambda *_things: None)
    paths = draw_pictures(tray(), tmp_path, None, lambda _done, _of: None)
    assert [path.name for path in paths] == [f"step_{number:02d}.png" for number in range(1, 14)]
