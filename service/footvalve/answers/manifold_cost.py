"""The cost of `manifold-check`: by the elements, in every mode, and again for each pump that runs in it."""

from footvalve.answers.cost import Cost, Quantities
from footvalve.contract.manifold_check import ManifoldQuestion, PumpElement

_PLAIN, _OF_ELEMENT, _OF_PUMP = 0.5, 0.028, 0.045
_OF_MODE, _OF_ELEMENT_IN_MODE, _OF_ELEMENT_AND_PUMP = 0.22, 0.011, 0.003


def manifold_cost(request: ManifoldQuestion, _quantities: Quantities) -> Cost:
    """No quantity bears on it, so that none makes it uncertain."""
    elements, modes = len(request.elements), len(request.modes)
    running = sum(len(mode.running) for mode in request.modes)
    pumps = sum(1 for element in request.elements if isinstance(element, PumpElement))
    in_modes = modes * (_OF_MODE + _OF_ELEMENT_IN_MODE * elements) + running * _OF_ELEMENT_AND_PUMP * elements
    units = _PLAIN + _OF_ELEMENT * elements + _OF_PUMP * pumps * (1 + modes) + in_modes
    return Cost(units, {"elements": elements, "modes": modes, "pumps": pumps, "running pumps": running})
