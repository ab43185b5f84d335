from pathlib import Path

from tests.checks.expect import MODEL, found_as_marked

PLACED = "placed:\n  rail: {part: rail, match: {foot.1: floor.mid.1, foot.5: floor.mid.5}}\nknown:\n"
ENTRY = "  - {kind: hole-size-differs, at: rail.foot.2, why: opened by hand}"


def test_an_entry_that_settles_nothing_stands_at_itself(tmp_path: Path) -> None:
    finding = found_as_marked(tmp_path, MODEL + PLACED + ENTRY + "  # expect: known-unused\n")[0]
    assert finding.severity == "warning"
    assert finding.message == "There is no hole-size-differs at rail.foot.2 to settle."


def test_one_that_settles_something_is_used(tmp_path: Path) -> None:
    model = MODEL.replace(
        "to: [170, 10], count: 5, size: small}", "to: [170, 10], count: 5, size: small, 2: big}"
    )
    assert [f.kind for f in found_as_marked(tmp_path, model + PLACED + ENTRY + "\n")] == ["hole-size-differs"]


def test_the_kind_must_agree(tmp_path: Path) -> None:
    model = MODEL.replace(
        "to: [170, 10], count: 5, size: small}",
        "to: [170, 10], count: 5, size: small, 2: big}  # expect: hole-size-differs",
    )
    entry = ENTRY.replace("hole-size-differs", "holes-off") + "  # expect: known-unused\n"
    assert len(found_as_marked(tmp_path, model + PLACED + entry)) == 2
