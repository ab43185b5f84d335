"""Words on the paper: hostile and long names do no harm, and the paper has room for everything."""

import numpy as np
import pytest

from seqviz.render.desk_paper import Note, draw_paper
from seqviz.render.desk_state import Picked
from seqviz.render.desk_words import Teller, shortened
from seqviz.scene.words import Words
from tests.scene.tray import tray

LONG = "skin" * 2500


def note(**other: object) -> Note:
    told: dict[str, object] = {
        "words": Words(title="Step 4. Place rail.", lines=("Pins in 8 holes.",)),
        "progress": "4 of 13, upper side up",
        "picked": (),
        "wrong": (),
        "marks": {},
        "shades": (),
    }
    return Note(**{**told, **other})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("rail left", "rail left"),
        ("  grip 1.6", "  grip 1.6"),
        (LONG, "skin" * 9 + "ski…"),
        ("a\u202eb\x00c\nd", "a b c d"),
        ("<b>$x$</b>", "<b>$x$</b>"),
        ("", ""),
    ],
)
def test_shortened(text: str, shown: str) -> None:
    assert shortened(text) == shown


def test_many_words_are_cut_off() -> None:
    line = shortened("word " * 100)
    assert len(line) == 120
    assert line.endswith("…")


def test_a_part_with_many_rows_is_told_in_sixteen_lines() -> None:
    lines = Teller(build=tray()).lines(Picked(part="bottom"))
    assert len(lines) <= 16


def test_paper_grows_with_nothing_and_cuts_off_what_has_no_room() -> None:
    words = Words(title=f"Step 1. Place {LONG}.", lines=tuple(f"{LONG} {k}" for k in range(200)), holes=LONG)
    full = note(words=words, picked=(LONG,) * 50, wrong=(LONG,) * 50, marks={"set": 12, "pin in": 3})
    for size in ((400, 900), (400, 480)):
        sheet = draw_paper(full, size)
        assert sheet.size == size
    # The keys below are the same whatever stands above.
    foot = np.asarray(draw_paper(full, (400, 900)))[-180:]
    assert np.array_equal(foot, np.asarray(draw_paper(note(marks={"set": 1}), (400, 900)))[-180:])


def test_what_is_wrong_stands_in_a_frame_at_the_top() -> None:
    sheet = np.asarray(draw_paper(note(wrong=("The files do not read any more.", "a.yaml:3: x")), (400, 900)))
    plain = np.asarray(draw_paper(note(), (400, 900)))
    framed = (sheet[:, 8].astype(int) @ [1, 0, -1]) > 120
    assert framed[20:60].all()
    assert not ((plain[:, 8].astype(int) @ [1, 0, -1]) > 120).any()
