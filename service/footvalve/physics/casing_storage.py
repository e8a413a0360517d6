"""The water that a well's casing holds around the pipe that hangs in it."""

import math

from footvalve.physics.method import Method, OutsideDomain
from footvalve.physics.si import Metres, SquareMetres

CASING_STORAGE = Method(
    "The casing's inside area less the area that the drop pipe takes up",
    "geometry",
    note="one bore over the whole stretch in which the level moves; what a gravel pack or a wider hole below the "
    "casing holds is not counted, nor what pump and cable take up",
)


def casing_storage_area(*, casing_diameter: Metres, drop_pipe_diameter: Metres = 0.0) -> SquareMetres:
    """Water in the casing for each length of it, A = pi (D^2 - d^2) / 4.

    D is the casing's inside diameter, d the drop pipe's outside diameter: the water inside a pipe that a check
    valve keeps full does not fall with the level.

    Valid for: one drop pipe, or none (d = 0).
    Source: geometry.
    Raises: OutsideDomain for a drop pipe that is negative or not smaller than the casing.

    >>> round(casing_storage_area(casing_diameter=0.1524, drop_pipe_diameter=0.042), 6)
    0.016856
    """
    if not 0.0 <= drop_pipe_diameter < casing_diameter < math.inf:
        raise OutsideDomain("the drop pipe must be smaller than the casing, and neither may be negative")
    return math.pi / 4.0 * (casing_diameter - drop_pipe_diameter) * (casing_diameter + drop_pipe_diameter)
