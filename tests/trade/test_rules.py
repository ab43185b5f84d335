import pytest

from seqviz.trade.rules import rule_lengths, rules


@pytest.mark.parametrize(
    ("table", "name", "values", "source"),
    [
        ("solid_rivet_rules", "allowance", [1.5, 1.5, 0.5, 0.5], "FAA-H-8083-31"),
        ("solid_rivet_rules", "round up to", [0.0625], "TM 10-5410-229-13&P, paragraph 5-6"),
        ("solid_rivet_rules", "half sizes", [0.03125], "AC 43.13-1B, paragraph 4-57a(4)"),
        ("solid_rivet_rules", "smallest in structure", [0.09375], "FAA"),
        ("bolt_rules", "threads beyond the nut, at least", [1, 2], "AC 43.13-1B"),
        ("bolt_rules", "threads in the hole, at most", [2], "NAVEDTRA 14014"),
        ("bolt_rules", "washers, at most", [3], "common practice, no source"),
        ("bolt_rules", "length tolerance over", [0.03125], "AN3"),
        ("bolt_rules", "nothing of the kind", [], ""),
    ],
)
def test_every_source_has_its_say(table: str, name: str, values: list[float], source: str) -> None:
    found = rules(table, name)
    assert [rule.value for rule in found] == values
    assert source in (found[0].citation if found else "")


def test_lengths_come_in_mm() -> None:
    assert rule_lengths("bolt_rules", "grip tolerance") == pytest.approx((25.4 / 64,))
    assert rule_lengths("bolt_rules", "washers, at most") == ()
