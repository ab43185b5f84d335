import re
from pathlib import Path

import pytest
import yaml

from seqviz.checks import CHECKS
from seqviz.checks.pages import INDEX, index, page, write_pages

FOLDER = Path(__file__).parents[2] / "docs" / "findings"
AGAIN = (
    "write them again: "
    "python -c \"from seqviz.checks.pages import write_pages; write_pages('docs/findings')\""
)
KINDS = [check.kind for check in CHECKS]


@pytest.mark.parametrize("kind", KINDS)
def test_the_page_in_docs_is_the_docstring(kind: str) -> None:
    assert (FOLDER / f"{kind}.md").read_text(encoding="utf-8") == page(kind), AGAIN


def test_the_list_of_pages_is_whole_and_nothing_else_lies_there() -> None:
    assert (FOLDER / INDEX).read_text(encoding="utf-8") == index(), AGAIN
    assert {path.name for path in FOLDER.iterdir()} == {INDEX, *(f"{kind}.md" for kind in KINDS)}, AGAIN


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_says_what_it_means_what_to_do_and_the_rule(kind: str) -> None:
    text = page(kind)
    assert text.startswith(f"# {kind}\n")
    for part in ("What it means:", "What to do:", "The rule:"):
        assert part in text
    snippets = re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)
    assert len(snippets) == 2
    assert snippets[0] != snippets[1]
    for snippet in snippets:
        assert yaml.compose(snippet) is not None


def test_unknown_kinds_have_no_page() -> None:
    with pytest.raises(KeyError):
        page("no-such-kind")


def test_writing(tmp_path: Path) -> None:
    write_pages(str(tmp_path / "new"))
    assert len(list((tmp_path / "new").iterdir())) == len(CHECKS) + 1
