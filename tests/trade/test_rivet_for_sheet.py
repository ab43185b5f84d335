from seqviz.trade.rivet_for_sheet import leg_width_rules, rivet_for_sheet, tube_rules


def test_four_rules_that_disagree() -> None:
    found = [(rule.where, rule.of, rule.least, rule.most) for rule in rivet_for_sheet()]
    assert found == [
        ("splice", "thickness of the sheet", 3, 3),  # AC 43.13-1B 4-58g: approximately 3 t
        ("stringer leg", "thickness of the leg", 2, 3),  # AC 43.13-1B 4-58l
        ("any joint", "thickness of the thickest sheet", 1, 3),  # NAVEDTRA 14018
        ("any joint", "thickness of the thicker sheet", 2.5, 3),  # FAA-H-8083-31, from memory
    ]
    assert [rule.citation.split(",")[0] for rule in rivet_for_sheet()] == [
        "FAA AC 43.13-1B", "FAA AC 43.13-1B", "NAVEDTRA 14018", "FAA-H-8083-31"
    ]  # fmt: skip


def test_legs_and_tubes() -> None:
    (leg,), (tube,) = leg_width_rules(), tube_rules()
    assert (leg.least, leg.most) == (None, 0.25)  # AC 43.13-1B 4-58l: not more than W/4
    assert (tube.least, tube.most) == (0.125, None)  # AC 43.13-1B 4-58a: at least 1/8
