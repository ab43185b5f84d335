import pytest

from seqviz.trade.pin_colours import colour_of, sizes_of_colour


@pytest.mark.parametrize(
    ("inches", "colour"),
    # NAVEDTRA 14315, a custom
    [(3 / 32, "cadmium (silver)"), (1 / 8, "copper"), (5 / 32, "black"), (3 / 16, "brass"), (1 / 4, "green")],
)
def test_colours(inches: float, colour: str) -> None:
    found = colour_of(inches * 25.4)
    assert found is not None
    assert found.colour == colour
    assert colour_of(3.2) is None


def test_black_is_two_sizes() -> None:
    assert [one.diameter / 25.4 for one in sizes_of_colour("Black")] == pytest.approx([1 / 16, 5 / 32])
    assert [one.diameter / 25.4 for one in sizes_of_colour("silver")] == pytest.approx([3 / 32])
    assert sizes_of_colour("mauve") == ()
