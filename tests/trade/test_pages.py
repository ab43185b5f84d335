from pathlib import Path

from seqviz.trade.pages import INDEX, index, page, write_pages
from seqviz.trade.tables import table_names

DOCS = Path(__file__).parents[2] / "docs" / "tables"
COMMAND = "run: python -c \"from seqviz.trade.pages import write_pages as w; w('docs/tables')\""


def test_the_pages_are_up_to_date(tmp_path: Path) -> None:
    write_pages(str(tmp_path))
    made = {path.name: path.read_text(encoding="utf-8") for path in tmp_path.iterdir()}
    kept = {path.name: path.read_text(encoding="utf-8") for path in DOCS.iterdir()}
    assert kept == made, COMMAND


def test_every_page_tells_its_doubts_and_its_rows() -> None:
    for name in table_names():
        text = page(name)
        assert text.startswith("# ")
        assert "**Doubts.**" in text, name
        assert f"({name}.md)" in index()
    assert INDEX == "README.md"


def test_a_length_in_inches_has_its_mm_beside_it() -> None:
    text = page("drills")
    assert "| drill | diameter in | diameter mm | source | known |" in text
    assert "| No. 30 | .1285 | 3.264 |" in text  # .1285 x 25.4 = 3.2639


def test_the_list_has_the_first_sentence_of_each() -> None:
    assert "- [Threads of AN bolts](threads.md): The usual fine threads of AN bolts\n" in index()
