"""Asks in a child process whether this machine can draw: without graphics libraries VTK ends the process."""

from __future__ import annotations

import os
import subprocess
import sys
from functools import cache

__all__ = ["HINT", "ON_SCREEN", "SCREEN_HINT", "graphics_hint", "screen_hint"]

HINT = (
    "Pictures need two graphics libraries that are missing here; on Debian or Ubuntu install them with: "
    "sudo apt-get install libegl1 libgl1-mesa-dri"
)

SCREEN_HINT = (
    "There is no screen here on which a window could open. Without --window a page is written, which any "
    "browser shows. On a Linux desktop a window also needs: "
    "sudo apt-get install libgl1 libgl1-mesa-dri libxcursor1"
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
# Without a screen VTK draws into memory and says nothing, so the kind of window is looked at.
_SCREEN_TRIAL = """
from vtkmodules.vtkCommonCore import vtkLogger
vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_OFF)
import vtkmodules.vtkInteractionStyle
import vtkmodules.vtkRenderingOpenGL2
import vtkmodules.vtkRenderingUI
from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow, vtkRenderWindowInteractor
window = vtkRenderWindow()
window.SetMultiSamples(0)
window.SetSize(8, 8)
window.SetShowWindow(False)
window.AddRenderer(vtkRenderer())
interactor = vtkRenderWindowInteractor()
interactor.SetRenderWindow(window)
window.Render()
print("drawn", window.GetClassName())
"""
ON_SCREEN = ("vtkXOpenGLRenderWindow", "vtkWin32OpenGLRenderWindow", "vtkCocoaRenderWindow")
_PATIENCE = 60.0


@cache
def graphics_hint() -> str | None:
    """Return None where pictures can be drawn, else one line that says what to install."""
    return None if "drawn" in _said(_TRIAL) else HINT


@cache
def screen_hint() -> str | None:
    """Return None where a window can be opened, else one line that says what to do instead."""
    # Said before anything is tried: a machine without a screen is asked this most.
    if sys.platform.startswith("linux") and not os.environ.get("DISPLAY"):
        return SCREEN_HINT
    # Twice: a screen without any window starts anew when its last one closes, and is away meanwhile.
    for _ in range(2):
        said = _said(_SCREEN_TRIAL)
        if any(kind in said for kind in ON_SCREEN):
            return None
    return SCREEN_HINT


def _said(trial: str) -> str:
    """Return what a trial in a child process prints; nothing where it fails, or never comes back."""
    try:
        done = subprocess.run(
            [sys.executable, "-c", trial], capture_output=True, text=True, timeout=_PATIENCE, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return ""
    return done.stdout if done.returncode == 0 else ""
