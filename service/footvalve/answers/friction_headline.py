"""The figures of `friction`, in SI."""

from footvalve.answers.friction import reckoned_flow, total_head_loss
from footvalve.answers.headline import Headline
from footvalve.answers.line_elements import resolve_line
from footvalve.answers.unit_system import unit_system
from footvalve.contract.friction import FrictionRequest
from footvalve.physics.head import head_pressure
from footvalve.physics.water import water


def friction_headline(request: FrictionRequest) -> Headline:
    """What the whole line takes, as head and as pressure."""
    parts = resolve_line(request.line, request.method, unit_system(request.units))
    flow, drawn = reckoned_flow(request), water(temperature=request.site.water_temperature.base)
    total = total_head_loss(parts, flow, drawn)
    return Headline(
        {
            "/flow": flow,
            "/total_head_loss": total,
            "/total_pressure_drop": head_pressure(head=total, density=drawn.density),
        }
    )
