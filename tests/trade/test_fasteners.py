import pytest

from seqviz.trade.fasteners import length_for, parse_fastener, protrusion

LENGTHS = ((8.0, 3.5, 5.0), (6.0, 1.5, 3.5))


@pytest.mark.parametrize(
    ("text", "kind", "diameter"),
    [
        ("blind rivet 3.2", "blind rivet", 3.2),
        ("Blind  Rivet 3.2 mm", "blind rivet", 3.2),
        ("blind_rivet 4", "blind rivet", 4.0),
        ("blind rivet 1/8", "blind rivet", 3.175),
        ("solid rivet 3/32", "solid rivet", 2.38125),
        ('solid rivet 3/32"', "solid rivet", 2.38125),
        ("solid rivet 0.125 in", "solid rivet", 3.175),
        ("bolt AN3", "bolt", 4.7625),
        ("bolt an4", "bolt", 6.35),
        ("bolt 5 mm", "bolt", 5.0),
        ("bolt 1 1/4", "bolt", 31.75),
    ],
)
def test_names_are_read(text: str, kind: str, diameter: float) -> None:
    fastener = parse_fastener(text)
    assert fastener is not None
    assert fastener.kind == kind
    assert fastener.diameter == pytest.approx(diameter)


OTHER_WORDS = """
pull 3.2
blind rivet
blind rivet x
rivet 3.2
bolt AN2
blind rivet AN3
bolt 1/0
blind rivet 0
blind rivet 1/8 mm
blind rivet 3,2
"""


@pytest.mark.parametrize("text", OTHER_WORDS.split("\n"))
def test_other_words_are_not(text: str) -> None:
    assert parse_fastener(text) is None


def test_the_smallest_fitting_length_is_chosen() -> None:
    assert length_for(LENGTHS, 2.4) == 6.0
    assert length_for(LENGTHS, 3.5) == 6.0  # both ranges hold 3.5
    assert length_for(LENGTHS, 0.8 + 1.6 + 2.6) == 8.0  # sums to 5 only nearly
    assert length_for(LENGTHS, 5.1) is None


def test_protrusion() -> None:
    assert protrusion("blind rivet", 3.2, LENGTHS, 2.4) == pytest.approx(3.6)  # 6 - 2.4
    assert protrusion("blind rivet", 3.2, LENGTHS, 9.0) == pytest.approx(4.8)  # 1.5 x 3.2
    assert protrusion("blind rivet", 3.2, (), 2.4, unset=True) == pytest.approx(4.8)
    assert protrusion("solid rivet", 3.2, LENGTHS, 2.4) == pytest.approx(1.6)
    assert protrusion("solid rivet", 3.2, (), 2.4, unset=True) == pytest.approx(4.8)
    assert protrusion("bolt", 5.0, LENGTHS, 2.4) == pytest.approx(8.5)
