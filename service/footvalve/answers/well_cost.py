"""The cost of `well-recovery`: by the readings of a recovery, to which the fit is sought anew at every asking."""

from msgspec import UNSET, UnsetType

from footvalve.answers.cost import Cost, Quantities, askings
from footvalve.contract.well_recovery import Recovery, WellRecoveryRequest

_PLAIN, _OF_READING = 0.4, 0.012
_ASKED, _ASKED_READING = 0.12, 0.0075


def well_cost(request: WellRecoveryRequest, quantities: Quantities) -> Cost:
    """The readings of a recovery scatter about their fit, which is one uncertain input more."""
    readings = readings_in(request.recovery)
    uncertain = quantities.uncertain + (1 if readings else 0)
    units = _PLAIN + _OF_READING * readings + askings(uncertain) * asked_well(readings)
    return Cost(units, {"uncertain inputs": quantities.uncertain, "readings": readings})


def asked_well(readings: int) -> float:
    """What it takes to find the inflow once."""
    return _ASKED + _ASKED_READING * readings


def readings_in(recovery: Recovery | UnsetType) -> int:
    """How many readings a recovery has, if there is one."""
    return 0 if recovery is UNSET else len(recovery.readings)
