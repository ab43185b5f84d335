"""Size of a big page and the time to write it. Run: ``python -m tests.bench.page_size [BOXES]``.

20 boxes, the default, are 521 parts, 7,440 fasteners and 341 steps. ``--pictures`` draws the small pictures
as well, which takes a second or more for each step.
"""

from __future__ import annotations

import argparse
import json
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from seqviz.build import Build, build
from seqviz.page.write import Page, Picture, page_of, page_text
from tests.bench.boxes import write

T = TypeVar("T")


def timed(name: str, work: Callable[[], T]) -> T:
    """Do ``work`` and print how long it took, on the clock and on the processor."""
    clock, processor = time.perf_counter(), time.process_time()
    result = work()
    spent = time.perf_counter() - clock
    print(f"{name:<10} {spent:6.2f} s, {time.process_time() - processor:6.2f} s of the processor")
    return result


def told(page: Page, text: str) -> None:
    """Print how big the page is, and what of."""
    print(f"{'page':<10} {len(text.encode()) / 1e6:6.2f} MB")
    print(f"{'meshes':<10} {len(page.told.meshes) / 1e6:6.2f} MB")
    for word, what in page.told.work.items():
        size = len(json.dumps(what, ensure_ascii=False, separators=(",", ":")).encode()) / 1e6
        if size > 0.01:
            print(f"  {word:<10} {size:6.2f} MB before packing")


def pictures(made: Build) -> dict[int, Picture]:
    """Return the small pictures of all steps."""
    from seqviz.render.small import small_pictures

    found = small_pictures(made, lambda _done, _of: None)
    return {one.number: Picture(kind="webp", data=one.data, size=one.size) for one in found}


def main() -> None:
    """Measure."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("boxes", nargs="?", type=int, default=20)
    parser.add_argument("--pictures", action="store_true")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        made = timed("build", lambda: build(str(write(Path(folder), asked.boxes))))
        page = timed("data", lambda: page_of(made))
        text = timed("text", lambda: page_text(page, {}))
        told(page, text)
        if asked.pictures:
            drawn = timed("pictures", lambda: pictures(made))
            widths = sorted({one.size[0] for one in drawn.values()})
            print(
                f"{'page':<10} {len(page_text(page, drawn).encode()) / 1e6:6.2f} MB, pictures {widths} wide"
            )


if __name__ == "__main__":
    main()
