"""A window without a screen: triangles and lines in, pixels and depths out."""

from __future__ import annotations

from types import TracebackType
from typing import Any, Self

import numpy as np
import pyvista
from numpy.typing import NDArray
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkCommonCore import vtkFloatArray, vtkLogger, vtkUnsignedCharArray

from seqviz.geometry.pose import Array
from seqviz.render.meshes import Body
from seqviz.render.view import View

__all__ = ["Depths", "Pixels", "Window"]

Pixels = NDArray[np.uint8]
Depths = NDArray[np.float32]
Colour = str | tuple[int, int, int]

# VTK tells on stderr that there is no screen; nobody asked for one.
vtkLogger.SetStderrVerbosity(vtkLogger.VERBOSITY_ERROR)

# Light positions seen from the camera, and their strengths: shapes read by their flats, no shine.
_LIGHTS = (((-0.5, 0.8, 1.0), 0.55), ((0.9, 0.2, 1.0), 0.25), ((0.0, -0.9, 0.6), 0.12))
_AMBIENT = 0.5


class Window:
    """Draws named layers of triangles and lines; a layer given again replaces the old one.

    Parameters
    ----------
    size
        (width, height) in pixels.
    flat
        True: colours exactly as given, for pictures that are measured.
    shown
        True: it stands on the screen.
    """

    def __init__(self, size: tuple[int, int], *, flat: bool = False, shown: bool = False) -> None:
        self.flat = flat
        self.plotter: Any = pyvista.Plotter(
            off_screen=not shown, window_size=list(size), lighting="none", title="seqviz"
        )
        self.plotter.set_background("black" if flat else "white")
        self.plotter.disable_anti_aliasing()
        self.plotter.render_window.SetMultiSamples(0)
        self.plotter.camera.parallel_projection = True
        self.layers: dict[str, Any] = {}
        self.radius = 1.0
        for position, strength in () if flat else _LIGHTS:
            self.plotter.add_light(
                pyvista.Light(position=position, light_type="camera light", intensity=strength)
            )

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.plotter.close()

    def clear(self) -> None:
        """Take all layers away."""
        for name in list(self.layers):
            self.plotter.remove_actor(self.layers.pop(name), render=False, reset_camera=False)

    def drop(self, name: str) -> None:
        """Take a layer away."""
        old = self.layers.pop(name, None)
        if old is not None:
            self.plotter.remove_actor(old, render=False, reset_camera=False)

    def faces(self, name: str, body: Body, colour: Colour | Pixels, opacity: float = 1.0) -> None:
        """Draw the triangles of ``body`` in one colour, or in one RGB row a triangle."""
        if len(body.faces) == 0:
            return
        mesh = pyvista.PolyData.from_regular_faces(body.vertices, body.faces)
        kind: dict[str, Any] = {"color": colour}
        if isinstance(colour, np.ndarray):
            mesh.cell_data["colour"] = colour
            kind = {"scalars": "colour", "rgb": True}
        if opacity < 1.0:
            kind["opacity"] = opacity
        light = {"lighting": False} if self.flat else {"ambient": _AMBIENT, "diffuse": 0.62, "specular": 0.0}
        self._keep(name, mesh, {**kind, **light, "smooth_shading": False})

    def lines(self, name: str, body: Body, colour: Colour, width: float, nearer: Array) -> None:
        """Draw the edges of ``body``, moved by ``nearer`` (3,) mm towards the eye, ``width`` pixels wide."""
        if len(body.edges) == 0:
            return
        cells = np.column_stack([np.full(len(body.edges), 2), body.edges])
        mesh = pyvista.PolyData(body.vertices + nearer, lines=cells.ravel())
        self._keep(name, mesh, {"color": colour, "line_width": width, "lighting": False})

    def show(self, name: str, visible: bool) -> None:
        """Show or hide a layer."""
        if name in self.layers:
            self.layers[name].SetVisibility(visible)

    def shift(self, name: str, offset: Array) -> None:
        """Draw a layer ``offset`` (3,) mm off its place."""
        if name in self.layers:
            self.layers[name].SetPosition(*offset.tolist())

    def look(self, view: View, reach: float) -> None:
        """Set the camera; everything drawn lies within ``reach`` mm of the view's centre."""
        camera = self.plotter.camera
        camera.position = view.centre + view.towards * 2 * reach
        camera.focal_point = view.centre
        camera.up = view.axes[1]
        camera.parallel_scale = view.size[1] / view.scale / 2
        camera.clipping_range = (reach * 0.9, reach * 3.1)
        self.radius = reach

    def picture(self) -> Pixels:
        """Return ``(height, width, 3)``."""
        width, height = self.plotter.window_size
        # The window itself: the plotter draws nothing before it was shown once, and stale copies after.
        self.plotter.render_window.Render()
        values = vtkUnsignedCharArray()
        self.plotter.render_window.GetPixelData(0, 0, width - 1, height - 1, 0, values, 0)
        return np.ascontiguousarray(vtk_to_numpy(values).reshape(height, width, 3)[::-1])

    def depth(self) -> Depths:
        """Return ``(height, width)`` mm towards the eye from the view's centre, -inf where nothing is."""
        width, height = self.plotter.window_size
        values = vtkFloatArray()
        self.plotter.render_window.GetZbufferData(0, 0, width - 1, height - 1, values)
        return self.depth_of(vtk_to_numpy(values).reshape(height, width)[::-1])

    def depth_of(self, z: Depths) -> Depths:
        """Return the depths of the graphics, 0 to 1, as mm towards the eye from the view's centre."""
        near, far = np.float32(self.radius * 0.9), np.float32(self.radius * 3.1)
        towards = np.float32(2 * self.radius) - (near + z * (far - near))
        towards[z >= 1.0] = -np.inf
        return np.asarray(towards, dtype=np.float32)

    def _keep(self, name: str, mesh: Any, options: dict[str, Any]) -> None:
        self.drop(name)
        self.layers[name] = self.plotter.add_mesh(
            mesh, **options, render=False, reset_camera=False, show_scalar_bar=False
        )
