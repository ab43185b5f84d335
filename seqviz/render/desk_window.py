"""The window on the screen: the work to the right, the paper to the left, a slider below the work."""

from __future__ import annotations

from typing import Any

import numpy as np
import pyvista
from numpy.typing import NDArray
from PIL import Image
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkCommonCore import vtkFloatArray, vtkPoints, vtkUnsignedCharArray
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
from vtkmodules.vtkInteractionStyle import vtkInteractorStyleUser
from vtkmodules.vtkRenderingCore import vtkPolyDataMapper2D, vtkRenderer, vtkTexturedActor2D

from seqviz.render.probe import ON_SCREEN
from seqviz.render.window import Depths, Pixels, Window

__all__ = ["PAPER_WIDTH", "DeskWindow", "NoScreen"]

PAPER_WIDTH = 400
_LEAST = (760, 480)


class NoScreen(Exception):  # noqa: N818 - it is what the machine has not
    """The window would have been drawn into memory, where nobody sees it."""


class DeskWindow(Window):
    """A `Window` on the screen with paper beside the work.

    Sizes and places of the work are those of the part to the right of the paper.
    """

    def __init__(self, size: tuple[int, int]) -> None:
        super().__init__(size, shown=True)
        if self.plotter.render_window.GetClassName() not in ON_SCREEN:
            self.plotter.close()
            raise NoScreen
        self._over = _Picture(self.plotter.renderer)
        self._track = _Picture(self.plotter.renderer)
        self._sheet = vtkRenderer()
        self._sheet.SetInteractive(False)
        self._sheet.SetBackground(1.0, 1.0, 1.0)
        self.plotter.render_window.AddRenderer(self._sheet)
        self._paper = _Picture(self._sheet)
        self.plotter.enable_anti_aliasing("fxaa")
        self.plotter.show(interactive_update=True, auto_close=False)
        self.interactor.SetInteractorStyle(vtkInteractorStyleUser())
        self.fit()

    @property
    def interactor(self) -> Any:
        """VTK's interactor, which tells of keys and of the mouse."""
        return self.plotter.iren.interactor

    @property
    def size(self) -> tuple[int, int]:
        """(width, height) of the whole window in pixels."""
        width, height = self.plotter.render_window.GetSize()
        return max(width, _LEAST[0]), max(height, _LEAST[1])

    @property
    def room(self) -> tuple[int, int]:
        """(width, height) of the part where the work is drawn."""
        width, height = self.size
        return width - PAPER_WIDTH, height

    def fit(self) -> None:
        """Divide the window between paper and work again, after its size has changed."""
        share = PAPER_WIDTH / self.size[0]
        self._sheet.SetViewport(0.0, 0.0, share, 1.0)
        self.plotter.renderer.SetViewport(share, 0.0, 1.0, 1.0)

    def paper(self, image: Image.Image) -> None:
        """Show what stands on the paper."""
        self._paper.show(image)

    def over(self, image: Image.Image | None) -> None:
        """Lay a picture over the work, as large as its room; None: nothing."""
        self._over.show(image)

    def track(self, image: Image.Image) -> None:
        """Show the slider at the lower edge of the work's room."""
        self._track.show(image)

    def draw(self) -> None:
        """Draw everything now."""
        self.plotter.render_window.Render()

    def events(self) -> None:
        """Deal with what keys and mouse did since."""
        self.interactor.ProcessEvents()

    def depth(self) -> Depths:
        """Return ``(height, width)`` mm towards the eye from the view's centre, of the work's room."""
        width, height = self.size
        values = vtkFloatArray()
        window = self.plotter.render_window
        window.GetZbufferData(PAPER_WIDTH, 0, width - 1, height - 1, values)
        z = vtk_to_numpy(values).reshape(height, width - PAPER_WIDTH)[::-1]
        return self.depth_of(z)

    def pixels(self) -> Pixels:
        """Return ``(height, width, 3)``: the whole window as it was drawn last."""
        width, height = self.size
        values = vtkUnsignedCharArray()
        self.plotter.render_window.GetPixelData(0, 0, width - 1, height - 1, 1, values, 0)
        return np.ascontiguousarray(vtk_to_numpy(values).reshape(height, width, 3)[::-1])


class _Picture:
    """An image with its lower left corner in that of a renderer, one pixel a pixel."""

    def __init__(self, renderer: Any) -> None:
        self._actor = vtkTexturedActor2D()
        self._mapper = vtkPolyDataMapper2D()
        self._actor.SetMapper(self._mapper)
        self._actor.VisibilityOff()
        renderer.AddViewProp(self._actor)

    def show(self, image: Image.Image | None) -> None:
        """Show ``image``; None: nothing."""
        self._actor.SetVisibility(image is not None)
        if image is None:
            return
        self._mapper.SetInputData(_rectangle(image.size))
        pixels: NDArray[np.uint8] = np.asarray(image)
        self._actor.SetTexture(pyvista.Texture(np.ascontiguousarray(pixels)))


def _rectangle(size: tuple[int, int]) -> vtkPolyData:
    width, height = size
    points = vtkPoints()
    shares = vtkFloatArray()
    shares.SetNumberOfComponents(2)
    shares.SetName("shares")
    for x, y in ((0, 0), (1, 0), (1, 1), (0, 1)):
        points.InsertNextPoint(x * width, y * height, 0.0)
        shares.InsertNextTuple2(x, y)
    cells = vtkCellArray()
    cells.InsertNextCell(4, [0, 1, 2, 3])
    shape = vtkPolyData()
    shape.SetPoints(points)
    shape.SetPolys(cells)
    shape.GetPointData().SetTCoords(shares)
    return shape
