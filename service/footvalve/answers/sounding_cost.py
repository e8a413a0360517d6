"""The cost of `sounding`: by its readings, and by how often they are asked again."""

from footvalve.answers.cost import Cost, Quantities, askings
from footvalve.contract.sounding import (
    AirLine,
    DirectSounding,
    EchoSounding,
    Measurement,
    SoundingRequest,
    StoneDrop,
    WettedTape,
)

_PLAIN, _OF_READING = 0.1, 0.012
_ASKED, _ASKED_STONE, _ASKED_READING = 0.07, 0.014, 0.003
_STONE = 0.11


def sounding_cost(request: SoundingRequest, quantities: Quantities) -> Cost:
    """Stones cost most: each is dropped again for every uncertain input."""
    readings = readings_of(request.measurement)
    uncertain = quantities.uncertain + scatters(readings)
    again = (1 + askings(uncertain)) * asked_sounding(request.measurement)
    units = _PLAIN + _OF_READING * readings + again
    return Cost(units, {"uncertain inputs": quantities.uncertain, "readings": readings})


def asked_sounding(measurement: Measurement) -> float:
    """What it takes to find the depth once."""
    if isinstance(measurement, StoneDrop):
        return _ASKED + _STONE + _ASKED_STONE * len(measurement.times)
    return _ASKED + _ASKED_READING * readings_of(measurement)


def readings_of(measurement: Measurement) -> int:
    """How many readings were taken."""
    match measurement:
        case StoneDrop(times=readings) | EchoSounding(times=readings):
            return len(readings)
        case AirLine(pressures=readings):
            return len(readings)
        case DirectSounding(depths=readings):
            return len(readings)
        case WettedTape(pairs=pairs):
            return len(pairs)


def scatters(readings: int) -> int:
    """The uncertain inputs that repeated readings make: one."""
    return 1 if readings > 1 else 0
