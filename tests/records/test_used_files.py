"""Another model as one placed piece."""

from __future__ import annotations

from pathlib import Path

import pytest

from seqviz.findings import At
from seqviz.records.load import Loaded, load
from seqviz.records.model import HoleChoice
from tests.records.written import Place, places, said

INNER = """\
format: 1
units: in
base: keel
parts:
  keel:
    shape: plate
    thickness: 0.1
    outline: [[0, 0], [10, 0], [10, 4], [0, 4]]
    holes:
      web: {from: [1, 1], to: [9, 1], count: 5, diameter: 0.2, skip: [2]}
  tab:
    shape: plate
    thickness: 0.1
    outline: [[0, 0], [2, 0], [2, 2], [0, 2]]
    holes:
      hold: {at: [[1, 1]], diameter: 0.2}
placed:
  tab: {part: tab, match: {hold.1: keel.web.1}}
"""
OUTER = """\
format: 1
base: deck
parts:
  deck:
    shape: plate
    thickness: 2
    outline: [[0, 0], [400, 0], [400, 200], [0, 200]]
    holes:
      seat: {at: [[10, 10], [60, 10]], diameter: 5}
  strap:
    shape: plate
    thickness: 2
    outline: [[0, 0], [80, 0], [80, 20], [0, 20]]
    holes:
      end: {at: [[10, 10]], diameter: 5}
placed:
  float: {uses: parts/inner.yaml, match: {keel.web.3: deck.seat.1, tab.hold.1: deck.seat.2}}
  strap: {part: strap, match: {end.1: float.keel.web.5}, over: float}
"""
STEPS = "format: 1\nmodel: outer.yaml\nsteps:\n"


def read(folder: Path, outer: str = OUTER, sequence: str | None = None, **files: str) -> Loaded:
    """Write a model, files in its folder ``parts`` and a sequence, and load the last."""
    (folder / "parts").mkdir(exist_ok=True)
    for name, text in {"inner": INNER, **files}.items():
        (folder / "parts" / f"{name}.yaml").write_text(text, encoding="utf-8")
    (folder / "outer.yaml").write_text(outer, encoding="utf-8")
    if sequence is None:
        return load(str(folder / "outer.yaml"))
    (folder / "steps.yaml").write_text(STEPS + sequence, encoding="utf-8")
    return load(str(folder / "steps.yaml"))


def where(loaded: Loaded) -> list[tuple[str, str, int, int]]:
    """Return kind, file, line and column of each finding."""
    return sorted((f.kind, Path(f.at.file).name, f.at.line, f.at.column) for f in loaded.findings)


def test_a_model_is_used(tmp_path: Path) -> None:
    loaded = read(tmp_path)
    assert loaded.findings == []
    inner, outer = str(tmp_path / "parts" / "inner.yaml"), str(tmp_path / "outer.yaml")
    assert list(loaded.sources) == [outer, inner]
    used = loaded.model.uses["float"]
    assert (used.path, used.sequence_path, used.finished) == (inner, None, True)
    assert used.at == At(file=outer, line=17, column=17)
    # Its inches are its own: 4 in are 101.6 mm.
    assert used.model.units == "in"
    assert used.model.parts["keel"].shape.thickness == pytest.approx(2.54)  # type: ignore[union-attr]
    assert (list(used.model.placed), loaded.model.units) == (["tab"], "mm")
    entry = loaded.model.placed["float"]
    assert entry.uses is not None
    assert (entry.uses.text, entry.part, entry.stock) == ("parts/inner.yaml", None, None)
    assert [(pair.row, pair.number) for pair in entry.match] == [("keel.web", 3), ("tab.hold", 1)]
    assert loaded.model.placed["strap"].match[0].target == HoleChoice(
        placed="float", row="keel.web", first=5, last=5, at=At(file=outer, line=18, column=39)
    )


def test_its_holes_are_chosen_in_steps(tmp_path: Path) -> None:
    steps = "  - place: [float, strap]\n  - rivet: [float.keel.web.3-5, float.tab.hold]\n"
    steps += "    through: [float, strap]\n  - take off: float\n"
    loaded = read(tmp_path, sequence=steps)
    assert loaded.findings == []
    assert loaded.sequence is not None
    assert len(loaded.sequence.steps) == 3


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("keel.web.3", "keel.web.6", ("unknown-name", 17, 43)),
        ("keel.web.3", "keel.web.2", ("unknown-name", 17, 43)),
        ("keel.web.3", "web.3", ("unknown-name", 17, 43)),
        ("keel.web.3", "kel.web.3", ("unknown-name", 17, 43)),
        ("keel.web.3", "keel..3", ("bad-value", 17, 43)),
        ("float.keel.web.5", "float.keel.wb.5", ("unknown-name", 18, 39)),
        ("float.keel.web.5", "float.web.5", ("unknown-name", 18, 39)),
        ("float.keel.web.5", "flot.keel.web.5", ("unknown-name", 18, 39)),
        ("{end.1", "{strap.end.1", ("bad-value", 18, 32)),
        (", match: {keel.web.3: deck.seat.1, tab.hold.1: deck.seat.2}", "", ("missing-word", 17, 3)),
        (
            "match: {keel.web.3: deck.seat.1, tab.hold.1: deck.seat.2}",
            "along: deck.seat",
            ("bad-value", 17, 35),
        ),
        ("deck.seat.2}", "deck.seat.2}, standing leg: left", ("bad-value", 17, 94)),
        ("deck.seat.2}", "deck.seat.2}, part: strap", ("bad-value", 17, 94)),
        ("uses: parts/inner.yaml", "uses: [a, b]", ("bad-value", 17, 17)),
    ],
)
def test_where_mistakes_stand(tmp_path: Path, old: str, new: str, place: Place) -> None:
    assert old in OUTER
    assert places(read(tmp_path, OUTER.replace(old, new, 1))) == [place]


def test_a_point_in_a_name_is_still_a_slip(tmp_path: Path) -> None:
    # What stands before the row was meant as one placed part.
    finding = said(read(tmp_path, sequence="  - rivet: stra.p.end.1\n"))
    assert (finding.message, finding.fix) == ("There is no placed part `stra.p`.", "Did you mean `strap`?")


MISTAKE = INNER.replace("count: 5", "count: few")


def test_mistakes_stand_in_their_own_file_and_mute_the_piece(tmp_path: Path) -> None:
    loaded = read(tmp_path, inner=MISTAKE)
    assert where(loaded) == [("bad-value", "inner.yaml", 10, 46)]
    assert (list(loaded.model.placed), loaded.model.uses) == ([], {})
    assert {"float", "strap"} <= loaded.model.broken
    assert set(loaded.sources) == {str(tmp_path / "outer.yaml"), str(tmp_path / "parts" / "inner.yaml")}


def test_one_file_used_twice_is_told_of_once(tmp_path: Path) -> None:
    twice = OUTER + "  two: {uses: parts/inner.yaml, at: [0, 0, 9], x along: left, y along: aft}\n"
    loaded = read(tmp_path, twice)
    assert loaded.findings == []
    assert loaded.model.uses["two"].model is loaded.model.uses["float"].model
    assert loaded.model.uses["two"].at.line == 19
    assert where(read(tmp_path, twice, inner=MISTAKE)) == [("bad-value", "inner.yaml", 10, 46)]


def test_a_sequence_is_used(tmp_path: Path) -> None:
    order = "format: 1\nmodel: inner.yaml\nfinished: %s\nsteps:\n  - place: [keel, tab]\n"
    by_order = OUTER.replace("parts/inner", "parts/order")
    loaded = read(tmp_path, by_order, order=order % "yes")
    assert loaded.findings == []
    used = loaded.model.uses["float"]
    path = str(tmp_path / "parts" / "order.yaml")
    assert (used.path, used.sequence_path, used.finished) == (path, path, True)
    assert list(used.model.placed) == ["tab"]
    assert len(loaded.sources) == 3
    assert not read(tmp_path, by_order, order=order % "no").model.uses["float"].finished
    wrong = order % "yes" + "  - plce: tab\n"
    assert where(read(tmp_path, by_order, order=wrong)) == [("unknown-word", "order.yaml", 6, 5)]


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("nowhere.yaml", "The model cannot be read: "),
        ("parts", "`parts` is a folder."),
        ("parts/bad.yaml", "The model cannot be read: "),
        ("parts/text.yaml", "The model cannot be read: "),
        ("outer.yaml", "`outer.yaml` leads back to itself: outer.yaml > outer.yaml."),
        ("parts/order.yaml", "The model cannot be read: "),
    ],
)
def test_files_that_cannot_be_read(tmp_path: Path, path: str, message: str) -> None:
    files = {
        "bad": "format: [\n",
        "text": "just text\n",
        "order": "format: 1\nmodel: ../outer.yaml\nsteps: []\n",
    }
    loaded = read(tmp_path, OUTER.replace("parts/inner.yaml", path), **files)
    finding = said(loaded)
    assert (finding.kind, finding.at.line, finding.at.column) == ("bad-value", 17, 17)
    assert finding.message.startswith(message)
    assert ("leads back to itself" in finding.message) == ("outer" in path or "order" in path)
    assert list(loaded.model.placed) == []


def test_a_circle_is_told_where_it_closes(tmp_path: Path) -> None:
    inner = INNER + "  back: {uses: ../outer.yaml, match: {deck.seat.1: keel.web.4}}\n"
    loaded = read(tmp_path, inner=inner)
    finding = said(loaded)
    assert finding.message == "`../outer.yaml` leads back to itself: outer.yaml > inner.yaml > outer.yaml."
    assert (Path(finding.at.file).name, finding.at.line, finding.at.column) == ("inner.yaml", 19, 16)
    assert list(loaded.model.placed) == []


def test_a_sequence_does_not_hold_itself(tmp_path: Path) -> None:
    outer = OUTER.replace("parts/inner.yaml", "steps.yaml")
    finding = said(read(tmp_path, outer, sequence="  - place: strap\n"))
    expected = "`steps.yaml` leads back to itself: steps.yaml > outer.yaml > steps.yaml."
    assert (finding.message, finding.at.line, finding.at.column) == (expected, 17, 17)


def test_a_file_that_cannot_be_read_is_no_circle(tmp_path: Path) -> None:
    outer = OUTER.replace("parts/inner.yaml", "parts/order.yaml")
    twice = outer + "  two: {uses: parts/order.yaml, at: [0, 0, 9], x along: left, y along: aft}\n"
    finding = said(read(tmp_path, twice, order="format: 1\nmodel: nowhere.yaml\nsteps: []\n"))
    assert finding.message.startswith("The model cannot be read: ")


def nested(count: int) -> dict[str, str]:
    """Return models that use each other: the last one is INNER."""
    names = [f"m{number}" for number in range(count)]
    files = {}
    for name, following in zip(names, [*names[1:], "inner"], strict=True):
        files[name] = (
            INNER + f"  next: {{uses: {following}.yaml, at: [0, 0, 9], x along: left, y along: aft}}\n"
        )
    return files


def test_five_models_within_each_other(tmp_path: Path) -> None:
    outer = OUTER.replace("parts/inner.yaml", "parts/m0.yaml")
    # m0 .. m3 and INNER are five.
    loaded = read(tmp_path, outer, **nested(4))
    assert loaded.findings == []
    rows = "float.next.next.next.next.keel.web.5"
    assert read(tmp_path, outer.replace("float.keel.web.5", rows), **nested(4)).findings == []
    deep = said(read(tmp_path, outer, **nested(5)))
    assert deep.message == "More than 5 models stand within each other here."
    assert (Path(deep.at.file).name, deep.at.line, deep.at.column) == ("m4.yaml", 19, 16)
