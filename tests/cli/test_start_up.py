from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

PROGRAM = """
import sys
from seqviz.cli.program import run
code = run(sys.argv[1:])
names = "pyvista vtk vtkmodules trimesh mapbox_earcut scipy networkx rich jinja2 PIL matplotlib numpy.ma"
heavy = set(names.split())
loaded = {name.split(".")[0] for name in sys.modules} | set(sys.modules)
print("loaded:", sorted(heavy & loaded), file=sys.stderr)
sys.exit(code)
"""


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", "sequences/practice_tray.yaml"],
        ["check", "sequences/float_bay.yaml"],
        ["stack", "sequences/practice_tray.yaml"],
        ["stack", "models/practice_tray.yaml", "--parts"],
        ["explain"],
        ["schema", "model"],
        ["--version"],
    ],
)
def test_nothing_heavy_is_loaded(arguments: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, *arguments], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "loaded: []\n")
