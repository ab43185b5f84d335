from __future__ import annotations

import pytest

from seqviz.checks import CHECKS
from seqviz.checks.pages import page
from seqviz.cli.program import run

Captured = pytest.CaptureFixture[str]


@pytest.mark.parametrize("kind", [check.kind for check in CHECKS])
def test_every_kind_is_explained(kind: str, capsys: Captured) -> None:
    assert run(["explain", kind]) == 0
    assert capsys.readouterr().out == page(kind).rstrip() + "\n"


@pytest.mark.parametrize("written", ["Layer Missing", "layer_missing", " layer-missing "])
def test_the_kind_may_be_written_carelessly(written: str, capsys: Captured) -> None:
    assert run(["explain", written]) == 0
    assert capsys.readouterr().out.startswith("# layer-missing\n")


def test_without_a_kind_all_are_listed_with_their_first_line(capsys: Captured) -> None:
    assert run(["explain"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[:2] for line in lines] == [[check.kind, check.severity] for check in CHECKS]
    wanted = f"{'tool-blocked':18}  error    No tool reaches a rivet any more, because a part is in the way."
    assert wanted in lines


def test_an_unknown_kind_ends_with_2_and_a_guess(capsys: Captured) -> None:
    assert run(["explain", "layer-mising"]) == 2
    assert capsys.readouterr() == (
        "",
        "There is no kind of finding called layer-mising. Did you mean layer-missing? "
        "seqviz explain lists them all.\n",
    )
