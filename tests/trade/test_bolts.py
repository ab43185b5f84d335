import pytest

from seqviz.trade.bolts import bolt_rules, bolts, nuts, series_of, thread_of, washers


@pytest.mark.parametrize(
    ("name", "grip", "length"),
    # AN3 to AN20, inches
    [
        ("AN3-3", 0.063, 0.469),
        ("AN3-5", 0.250, 0.656),
        ("AN3-10", 0.625, 1.031),
        ("AN4-7", 0.438, 0.906),
        ("AN5-10", 0.563, 1.094),
        ("AN6-11", 0.563, 1.203),
    ],
)
def test_grip_and_length(name: str, grip: float, length: float) -> None:
    series, dash = name.split("-")
    found = {bolt.name: bolt for bolt in bolts(series)}[name]
    assert (found.grip / 25.4, found.length / 25.4) == pytest.approx((grip, length))
    assert found.diameter == pytest.approx(int(name[2]) / 16 * 25.4)
    assert found.dash == dash


@pytest.mark.parametrize("series", ["AN3", "AN4", "AN5", "AN6"])
def test_longer_bolts_have_longer_grips_by_eighths(series: str) -> None:
    found = bolts(series)
    assert [bolt.length for bolt in found] == sorted(bolt.length for bolt in found)
    assert [bolt.grip for bolt in found] == sorted(bolt.grip for bolt in found)
    for bolt in found:
        eighths = int(bolt.dash) if len(bolt.dash) == 1 else 8 * int(bolt.dash[0]) + int(bolt.dash[1])
        # Nominal length in 1/8; what the bolt measures is up to 3/32 more.
        assert 0 <= bolt.length / 25.4 - eighths / 8 < 0.1


def test_series() -> None:
    assert [series_of(d) for d in (4.7625, 6.35, 4.76, 5.0, 3.175, 31.75)] == [
        "AN3", "AN4", "AN3", None, None, "AN20"
    ]  # fmt: skip
    assert bolts("an 3")[0].name == "AN3-3"
    assert bolts("AN7") == ()


@pytest.mark.parametrize(
    ("shank", "name", "thickness", "thin", "outside"),
    # AN960, from memory
    [
        (3 / 16, "AN960-10", 0.063, 0.032, 0.438),
        (1 / 4, "AN960-416", 0.063, 0.032, 0.5),
        (3 / 8, "AN960-616", 0.063, 0.032, 0.625),
    ],
)
def test_washers(shank: float, name: str, thickness: float, thin: float, outside: float) -> None:
    thick, half = washers(shank * 25.4)
    assert (thick.name, half.name) == (name, name + "L")
    assert (thick.thin, half.thin) == (False, True)
    assert (thick.thickness / 25.4, half.thickness / 25.4) == pytest.approx((thickness, thin))
    assert thick.outside / 25.4 == pytest.approx(outside)
    assert thick.citation == "AN960, from memory"
    assert washers(5.0) == ()


@pytest.mark.parametrize(
    ("shank", "name", "height"),
    # AN365 and MS21042, from memory
    [
        (3 / 16, "AN365-1032", 0.250),
        (1 / 4, "AN365-428", 0.328),
        (5 / 16, "AN365-524", 0.359),
        (3 / 8, "AN365-624", 0.453),
    ],
)
def test_nuts(shank: float, name: str, height: float) -> None:
    nut = nuts(shank * 25.4)[0]
    assert nut.name == name
    assert nut.height / 25.4 == pytest.approx(height)
    assert [one.name for one in nuts(4.7625)] == ["AN365-1032", "MS21042-3"]


@pytest.mark.parametrize(
    ("shank", "name", "per_inch"), [(3 / 16, "10-32", 32), (1 / 4, "1/4-28", 28), (5 / 16, "5/16-24", 24)]
)
def test_threads(shank: float, name: str, per_inch: int) -> None:
    thread = thread_of(shank * 25.4)
    assert thread is not None
    assert thread.name == name
    assert thread.pitch == pytest.approx(25.4 / per_inch)
    assert thread_of(5.0) is None


def test_sources_disagree_about_threads() -> None:
    assert [rule.value for rule in bolt_rules("threads beyond the nut, at least")] == [1, 2]
