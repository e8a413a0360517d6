"""A line in series solved by EPANET, the network solver of the U.S. Environmental Protection Agency."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from epanet import toolkit

from engines.series_line import SeriesLine

VISCOSITY = 1.1e-5 * 0.3048**2
"""m^2/s, of which EPANET's viscosity is told as a multiple: water at 20 degC in its own words."""

RESERVOIR = 1e5
"""m, so high that no pressure falls below that of the air, whatever a line takes."""

SMOOTH = 1e-6
"""mm. EPANET takes no wall of no roughness; this one is as smooth in every digit that is told."""


def head_loss(line: SeriesLine, *, viscosity: float | None = None) -> float:
    """The head in m that the network solver finds between the line's ends: after Darcy and Weisbach with a kinematic
    viscosity in m^2/s, else after Hazen and Williams."""
    with _project(toolkit.HW if viscosity is None else toolkit.DW) as network:
        if viscosity is not None:
            toolkit.setoption(network, toolkit.SP_VISCOS, viscosity / VISCOSITY)
        _add_nodes(network, len(line.pipes))
        for index, (pipe, minor) in enumerate(zip(line.pipes, line.minor_losses(), strict=True)):
            link = toolkit.addlink(network, f"pipe{index}", toolkit.PIPE, f"node{index}", f"node{index + 1}")
            wall = pipe.coefficient if viscosity is None else max(1000 * pipe.roughness, SMOOTH)
            toolkit.setpipedata(network, link, pipe.length, 1000 * pipe.bore, wall, minor)
        end = toolkit.getnodeindex(network, f"node{len(line.pipes)}")
        toolkit.setnodevalue(network, end, toolkit.BASEDEMAND, 1000 * line.flow)
        toolkit.solveH(network)
        return RESERVOIR - toolkit.getnodevalue(network, end, toolkit.HEAD)


@contextmanager
def _project(formula: int) -> Iterator[Any]:
    """A network in L/s, m and mm. Its report goes nowhere."""
    network = toolkit.createproject()
    toolkit.init(network, os.devnull, "", toolkit.LPS, formula)
    try:
        toolkit.setoption(network, toolkit.ACCURACY, 1e-5)
        yield network
    finally:
        toolkit.close(network)
        toolkit.deleteproject(network)


def _add_nodes(network: Any, pipes: int) -> None:
    """A reservoir, then a junction after each pipe; the network numbers its junctions first."""
    toolkit.addnode(network, "node0", toolkit.RESERVOIR)
    for index in range(1, pipes + 1):
        toolkit.addnode(network, f"node{index}", toolkit.JUNCTION)
    toolkit.setnodevalue(network, toolkit.getnodeindex(network, "node0"), toolkit.ELEVATION, RESERVOIR)
