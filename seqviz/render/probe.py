"""Asks in a child process whether this machine can draw: without graphics libraries VTK ends the process."""

from __future__ import annotations

import subprocess
import sys
from functools import cache

__all__ = ["HINT", "graphics_hint"]

HINT = (
    "Pictures need two graphics libraries that are missing here; on Debian or Ubuntu install them with: "
    "sudo apt-get install libegl1 libgl1-mesa-dri"
)

# vtkmodules alone starts in half the time of pyvista.
_TRIAL = """
from vtkmodules.vtkCommonCore import vtkLogger, vtkUnsignedCharArray
vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_OFF)
import vtkmodules.vtkRenderingOpenGL2
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow
window = vtkRenderWindow()
window.SetOffScreenRendering(1)
window.SetMultiSamples(0)
window.SetSize(8, 8)
window.AddRenderer(vtkRenderer())
window.Render()
window.GetPixelData(0, 0, 7, 7, 0, vtkUnsignedCharArray(), 0)
print("drawn")
"""
_PATIENCE = 60.0


@cache
def graphics_hint() -> str | None:
    """Return None where pictures can be drawn, else one line that says what to install."""
    try:
        trial = subprocess.run(
            [sys.executable, "-c", _TRIAL], capture_output=True, text=True, timeout=_PATIENCE, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return HINT
    return None if trial.returncode == 0 and "drawn" in trial.stdout else HINT
