"""Where the trees of a list could stand on a plot, for a sketch to scale."""

from service.compute.plot_layout.laying import lay_out
from service.compute.plot_layout.trees import Circle, Layout, Placed, ToPlace

__all__ = ["Circle", "Layout", "Placed", "ToPlace", "lay_out"]
