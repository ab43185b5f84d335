"""The page of a big structure: 521 parts, 7,440 fasteners."""

from __future__ import annotations

from pathlib import Path

from seqviz.build import build
from seqviz.page.write import page_of, page_text
from seqviz.render.small import BUDGET
from tests.bench.boxes import write


def test_the_page_of_500_parts_is_at_most_six_megabytes(tmp_path: Path) -> None:
    page = page_of(build(str(write(tmp_path))))
    assert len(page.told.work["parts"]) == 521
    pictures = BUDGET * 4 / 3  # they stand in the page as base64
    assert len(page_text(page, {}).encode()) + pictures <= 6_000_000
