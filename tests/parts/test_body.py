from seqviz.parts.body import too_narrow
from tests.parts.samples import at


def test_nothing_narrower_than_two_tenths() -> None:
    assert too_narrow(at(), "p", {"thickness": 0.2, "length": 5.0}) is None
    finding = too_narrow(at(), "p", {"length": 5.0, "thickness": 0.199})
    assert finding is not None
    assert finding.kind == "bad-value"
    assert finding.message == "p: thickness 0.199 mm is too small."
    assert too_narrow(at(), "p", {"thickness": float("nan")}) is not None
