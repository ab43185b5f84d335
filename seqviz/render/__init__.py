"""From scenes to pixels: the only place that imports pyvista."""
