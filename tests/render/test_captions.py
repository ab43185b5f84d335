"""Words above a picture fit, and are large enough for a workshop wall."""

from seqviz.render.captions import TEXT_CAP, TITLE_CAP, caption_of, room_for, wrapped
from seqviz.render.ink import font
from seqviz.scene.words import Words

WIDTH = 1600


def test_letters_are_large_enough() -> None:
    # 1600 pixels on A5, 200 mm wide inside its edges: 8 pixels a mm. 30 pixels are 3.75 mm, more than 3.2.
    for cap in (TEXT_CAP, TITLE_CAP):
        box = font(cap).getbbox("H", anchor="ls")
        assert box[3] - box[1] >= 30


def test_lines_fit() -> None:
    text = "Feel along every row for a head that stands off, then collect the ejected stems from the floor."
    lines = wrapped(text, TEXT_CAP, 700)
    assert " ".join(lines) == text
    assert len(lines) > 1
    assert max(font(TEXT_CAP).getlength(line) for line in lines) <= 700


def test_names_of_holes_give_way() -> None:
    words = Words(title="Step 1. Pull 9 rivets.", lines=("Grip 2.", "Mind the edge."), holes="Holes: a 1-9.")
    assert caption_of(words, WIDTH).text == ("Grip 2.", "Mind the edge.", "Holes: a 1-9.")
    long = Words(title=words.title, lines=words.lines, holes="Holes: " + ", ".join(["strap.rim 1-9"] * 20))
    assert caption_of(long, WIDTH).text == ("Grip 2.", "Mind the edge.")


def test_long_notes_end_with_dots() -> None:
    words = Words(title="Step 1.", lines=("Look at it again. " * 40,))
    text = caption_of(words, WIDTH).text
    assert len(text) == 5
    assert text[-1].endswith(" ...")


def test_room_is_that_of_the_highest() -> None:
    low = caption_of(Words(title="Step 1.", lines=()), WIDTH)
    high = caption_of(Words(title="Step 2.", lines=("a", "b")), WIDTH)
    # 20 above, 62 a title line, 52 a line.
    assert (low.height, high.height) == (82, 186)
    assert room_for([low, high]) == 186
