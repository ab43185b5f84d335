from __future__ import annotations

import base64
import json
import re
from pathlib import Path

import pytest

from seqviz.page.write import MARKER, Picture, page_of, page_text
from tests.cli.shelf import MODEL, SEQUENCE
from tests.page.trial import Parsed, parsed, shelf

ROOT = Path(__file__).parents[2]
WEB = ROOT / "seqviz" / "page" / "web"
ENDS_ITS_SCRIPT = "</script><script>alert(1)</script><!-- <img src=x onerror=alert(2)> \"' &amp;"


@pytest.fixture(scope="module")
def text(tmp_path_factory: pytest.TempPathFactory) -> str:
    picture = Picture(kind="webp", data=b"drawn", size=(640, 480))
    return page_text(page_of(shelf(tmp_path_factory.mktemp("shelf"))), {1: picture})


@pytest.fixture(scope="module")
def page(text: str) -> Parsed:
    return parsed(text)


def test_it_is_known_as_ours_by_its_beginning(text: str) -> None:
    assert text.startswith("<!DOCTYPE html>")
    assert MARKER in text[:1000]


def test_nothing_can_be_fetched(page: Parsed) -> None:
    policies = [given for tag, given in page.tags if given.get("http-equiv") == "Content-Security-Policy"]
    assert [given["content"] for given in policies] == [
        "default-src 'none'; script-src 'unsafe-inline' data:; style-src 'unsafe-inline'; img-src data:"
    ]
    for tag, given in page.tags:
        for word in ("src", "href", "action", "data", "poster", "srcset"):
            address = given.get(word)
            assert address is None or address.startswith(("data:", "#")), (tag, word, address)
        assert tag not in {"link", "iframe", "object", "embed", "base", "form"}


def test_the_modules_stand_in_it_under_their_names(page: Parsed) -> None:
    imports = json.loads(page.scripts["importmap"])["imports"]
    assert set(imports) == {f"bench/{path.stem}" for path in WEB.glob("*.js")}
    head, _, code = imports["bench/main"].partition(",")
    assert head == "data:text/javascript;base64"
    assert base64.b64decode(code).decode().startswith((WEB / "main.js").read_text(encoding="utf-8"))
    assert page.scripts["module"].strip() == 'import "bench/main";'


def test_modules_import_each_other_by_names_that_are_there() -> None:
    known = {f"bench/{path.stem}" for path in WEB.glob("*.js")}
    for path in WEB.glob("*.js"):
        wanted = re.findall(r'^(?:import|export) [^"]*from "([^"]+)"', path.read_text("utf-8"), re.MULTILINE)
        assert set(wanted) <= known, path.name


def test_the_scripts_find_all_of_the_data(page: Parsed) -> None:
    work = page.work()
    assert (work["title"], len(work["parts"]), len(work["steps"])) == ("First shelf", 2, 2)
    assert page.scripts["meshes"]
    assert page.scripts["library"].startswith("/**\n * @license")


def test_without_scripts_steps_and_parts_can_be_read(page: Parsed) -> None:
    assert "Step 1. Place stiffener. Pins in 5 holes." in page.words["step-1"]
    assert "Step 2. Pull 14 blind rivets." in page.words["step-2"]
    assert "Holes: stiffener.foot 1-14." in page.words["step-2"]
    assert "1 panel Thickness 0.8 mm. Skin, 300 x 120 x 0.8 mm." in page.words["part-0"]
    assert "Comes with step 1. Sits on panel ." in page.words["part-1"]
    everything = " ".join(page.words.values())
    assert "The designer's drawings and manual and the fastener maker's data govern." in everything
    assert "eye and hearing protection" in everything
    assert "Copyright © 2010-2022 Three.js Authors" in everything
    assert 'THE SOFTWARE IS PROVIDED "AS IS"' in everything


def test_pictures_stand_with_their_steps(page: Parsed) -> None:
    pictures = [given for tag, given in page.tags if tag == "img"]
    assert [(one["src"], one["width"], one["height"], one["alt"]) for one in pictures] == [
        ("data:image/webp;base64,ZHJhd24=", "640", "480", "Picture of step 1")
    ]


def test_why_there_are_no_pictures_is_said(tmp_path: Path) -> None:
    page = parsed(page_text(page_of(shelf(tmp_path)), {}, "This machine cannot draw."))
    assert page.words["no-pictures"] == "This machine cannot draw."


def test_findings_can_be_read_with_their_place_and_a_way_out(tmp_path: Path) -> None:
    sequence = SEQUENCE.replace("  - place", "  - rivet: panel.edge.5\n  - place")
    page = parsed(page_text(page_of(shelf(tmp_path, sequence=sequence)), {}))
    words = " ".join(page.words["finding-0"].split())
    assert words.startswith("error ")
    assert "step 1 rivets" in words
    assert "Why: " in words
    assert "Fix: " in words
    assert "layer-missing" in words
    assert "evening.yaml, line 5" in words.replace(" ,", ",")


def test_a_page_with_errors_says_so_before_the_first_step(tmp_path: Path) -> None:
    warning = "Do not work from this yet"
    assert warning not in page_text(page_of(shelf(tmp_path)), {})
    sequence = SEQUENCE.replace("  - place", "  - rivet: panel.edge.5\n  - place")
    wrong = page_text(page_of(shelf(tmp_path, sequence=sequence)), {})
    assert f"{warning}: 1 error." in wrong
    assert wrong.index(warning) < wrong.index('id="step-1"')


def hostile(folder: Path, words: str) -> Parsed:
    """Return the page of a shelf that carries ``words`` wherever a file may hold free text."""
    quoted = json.dumps(words)
    model = MODEL.replace("name: First shelf", f"name: {quoted}").replace(
        "    length: 300\n", f"    length: 300\n    how to tell: {quoted}\n    drawing: {quoted}\n"
    )
    sequence = SEQUENCE.replace("    pins: ends and every 4th\n", f"    note: {quoted}\n") + (
        f"  - check: {quoted}\n  - note: {quoted}\n"
    )
    return parsed(page_text(page_of(shelf(folder, model=model, sequence=sequence)), {}))


def test_words_that_look_like_a_page_stay_words(tmp_path: Path, page: Parsed) -> None:
    found = hostile(tmp_path, ENDS_ITS_SCRIPT)
    assert found.work()["title"] == ENDS_ITS_SCRIPT
    assert ENDS_ITS_SCRIPT in " ".join(found.words.values())
    kinds = [tag for tag, _ in found.tags if tag in {"script", "img"}]
    assert kinds == ["script"] * len([tag for tag, _ in page.tags if tag == "script"])
    assert not any(word.startswith("on") for _, given in found.tags for word in given)
    assert set(found.scripts) == set(page.scripts)


def test_signs_that_turn_or_ring_are_gone(tmp_path: Path) -> None:
    found = hostile(tmp_path, "rail \u202etfel\u2066 \x07end\u2028line")
    told = json.dumps(found.work(), ensure_ascii=False) + " ".join(found.words.values())
    assert not re.search(r"[\u202a-\u202e\u2066-\u2069\x00-\x08\x0b-\x1f]|\\u0007", told)
    assert "rail tfel" in told


def test_what_people_wrote_is_kept_apart_from_the_words_around_it(tmp_path: Path) -> None:
    folder = tmp_path / "shelf"
    folder.mkdir()
    model = MODEL.replace("stiffener", "سكة")
    text = page_text(page_of(shelf(folder, model=model, sequence=SEQUENCE.replace("stiffener", "سكة"))), {})
    bare = re.sub(r"<bdi>.*?</bdi>|<script.*?</script>|<title>.*?</title>", "", text, flags=re.DOTALL)
    assert "سكة" in text
    assert "سكة" not in bare


def test_a_name_of_a_thousand_letters_is_short_in_sentences_and_whole_once(tmp_path: Path) -> None:
    name = "long " * 190 + "rail"
    model, sequence = MODEL.replace("stiffener", name), SEQUENCE.replace("stiffener", name)
    text = page_text(page_of(shelf(tmp_path, model=model, sequence=sequence)), {})
    page = parsed(text)
    work = page.work()
    assert work["parts"][1]["name"] == name
    assert len(work["steps"][0]["title"]) < 120
    assert max(len(line) for stack in work["stacks"] for line in stack["lines"]) < 200
    assert max(len(name) for stack in work["stacks"] for name in stack["names"]) < 120
    # Reachable without scripts as well.
    assert name in page.words["part-1"]
    assert len(text) < len(page_text(page_of(shelf(tmp_path)), {})) + 20_000
