from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest

from seqviz.drawing.dxf import LAYERS, NoDxf, flat_dxf
from tests.drawing.trial import facts_of

ezdxf = pytest.importorskip("ezdxf")


def test_the_file_reads_back_in_millimetres(tmp_path: Path) -> None:
    pattern = facts_of(tmp_path, "taper").pattern
    read = ezdxf.read(io.StringIO(flat_dxf(pattern)))
    assert (read.header["$INSUNITS"], read.header["$MEASUREMENT"]) == (4, 1)
    assert set(LAYERS) <= {layer.dxf.name for layer in read.layers}
    space = read.modelspace()
    rings = [[tuple(point[:2]) for point in line] for line in space.query("LWPOLYLINE[layer=='OUTLINE']")]
    assert rings[0] == [(0, 0), (420, 30), (420, 210), (0, 240)]
    assert len(rings) == 1 + 2
    assert all(line.closed for line in space.query("LWPOLYLINE"))
    circles = [(tuple(c.dxf.center)[:2], 2 * c.dxf.radius) for c in space.query("CIRCLE[layer=='HOLES']")]
    assert len(circles) == len(pattern.holes)
    assert ((410.0, 45.0), pytest.approx(3.3)) in circles


def test_bend_lines_lie_on_the_layer_of_their_way(tmp_path: Path) -> None:
    pattern = facts_of(tmp_path, "hat").pattern
    space = ezdxf.read(io.StringIO(flat_dxf(pattern))).modelspace()
    lines = {
        (line.dxf.layer, round(line.dxf.start.y, 3), round(line.dxf.end.x, 3)) for line in space.query("LINE")
    }
    assert lines == {
        ("BENDS UP" if bend.up else "BENDS DOWN", round(float(bend.start[1]), 3), 160.0)
        for bend in pattern.bend_lines
    }
    assert len(lines) == 4


def test_without_the_package_it_says_which_extra(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf.filemanagement", None)
    with pytest.raises(NoDxf, match=r"pip install 'seqviz\[dxf\]'"):
        flat_dxf(facts_of(tmp_path, "taper").pattern)
