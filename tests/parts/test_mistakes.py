from seqviz.parts.mistakes import numbers_text, plain, unknown_name
from tests.parts.samples import at


def test_numbers() -> None:
    assert numbers_text([7, 3, 5, 6, 5]) == "3, 5-7"
    assert numbers_text([]) == ""
    assert (plain(580.0), plain(23.2), plain(0.0301), plain(-0.0001)) == ("580", "23.2", "0.03", "0")


def test_unknown_name_offers_the_nearest() -> None:
    finding = unknown_name(at(4), "size", "smal", ["small", "big"])
    assert (finding.kind, finding.at) == ("unknown-name", at(4))
    assert finding.message == "There is no size smal."
    assert finding.fix == "Did you mean small?"
    assert unknown_name(at(), "size", "x", []).why == "No size is written here yet."
