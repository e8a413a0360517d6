"""Drawing the air out of a dry suction line."""

from msgspec import UNSET

from footvalve.answers.suction_state import SuctionState
from footvalve.answers.unit_system import UnitSystem, minutes
from footvalve.contract.answer import Warning
from footvalve.contract.suction_feasibility import CentrifugalPump, Priming, SuctionPump
from footvalve.physics.head import pressure_head
from footvalve.physics.pipe_flow import bore_area
from footvalve.physics.priming import AirLength, above_the_water, priming_time


def priming(state: SuctionState, pump: SuctionPump, units: UnitSystem) -> Priming:
    """The air in the line over the water at rest, and the least time to draw it out."""
    air = _air(state)
    volume = units.volume(sum(length.volume for length in air))
    intake_is_dry = state.elevations.intake + state.resting_depth > 0.0
    if intake_is_dry or not state.primes or isinstance(pump, CentrifugalPump):
        return Priming(line_volume=volume)
    head = pressure_head(pressure=state.air_pressure - state.drawn.vapour_pressure, density=state.drawn.density)
    time = priming_time(air=air, flow=state.flow, atmospheric_head=head)
    return Priming(line_volume=volume, time=UNSET if time is None else minutes(time))


def priming_doubts(pump: SuctionPump, state: SuctionState) -> list[Warning]:
    """A warning where this kind of pump does not draw air, and there is air to draw."""
    if not isinstance(pump, CentrifugalPump) or not _air(state):
        return []
    text = "a centrifugal pump draws no air unless it is of a self-priming kind: the line has to be filled by hand"
    return [Warning("/pump/style", text)]


def _air(state: SuctionState) -> list[AirLength]:
    """Every length that is dry at rest: past the first that rises out of the water all are, even one below it."""
    lengths: list[AirLength] = []
    start = state.elevations.intake + state.resting_depth
    for part, elevation in zip(state.parts, state.elevations.ends, strict=True):
        end = elevation + state.resting_depth
        if part.length and part.diameter is not None:
            volume = part.length * bore_area(diameter=part.diameter)
            whole = AirLength(start, end, volume)
            dry = whole if lengths else above_the_water(start_height=start, end_height=end, volume=volume)
            lengths += [dry] if dry else []
        start = end
    return lengths
