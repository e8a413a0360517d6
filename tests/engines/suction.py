"""The margin of a suction line, derived again from the energy equation with water, air and friction of others."""

import math
from collections.abc import Iterator
from functools import cache
from typing import Any

from engines.air import GRAVITY, pressure_of_the_air_above
from engines.asking import ask
from engines.comparison import Comparison, compared
from engines.friction_factor import colebrook
from engines.suction_site import COEFFICIENTS, EQUIVALENT_DIAMETERS, VALVES, Piece, Site, drawn_sites
from engines.water import AIR, Liquid, by_coolprop

LAMINAR_LIMIT = 2040.0
"""Avila et al., Science 333 (2011) 192-196: up to here the service reckons a flow as laminar."""
RATING_TEMPERATURE = 283.15
"""K, at which the service takes a pump's rated lift to be told."""
COUNT = 300
"""Lines of either sort."""
ENGINE = "CoolProp and scipy"


def _velocity_head(piece: Piece, flow: float) -> float:
    return (flow / (math.pi * piece.bore**2 / 4)) ** 2 / (2 * GRAVITY)


def _cranes_factor(bore: float) -> float:
    """fT, the fully rough limit of Colebrook's equation for steel of 0.00015 ft: Crane Co., Technical Paper 410
    (2009), A-27."""
    return 0.25 / math.log10(0.00015 * 0.3048 / (3.7 * bore)) ** 2


def _loss(piece: Piece, flow: float, water: Liquid) -> float:
    """Head in m that a piece takes."""
    metre = water.density * GRAVITY
    head = _velocity_head(piece, flow)
    match piece.kind:
        case "pipe":
            reynolds = 4 * flow * water.density / (math.pi * piece.bore * water.viscosity)
            factor = 64 / reynolds if reynolds < LAMINAR_LIMIT else colebrook(reynolds, piece.roughness / piece.bore)
            return factor * piece.length / piece.bore * head
        case "fitting" if piece.name in COEFFICIENTS:
            return piece.count * COEFFICIENTS[piece.name] * head
        case "fitting":
            return piece.count * EQUIVALENT_DIAMETERS[piece.name] * _cranes_factor(piece.bore) * head
        case "valve":
            return VALVES[piece.name] * _cranes_factor(piece.bore) * head + piece.drop / metre
        case "strainer":
            ratio = flow / piece.rated
            return piece.drop * max(ratio, ratio**2) / metre
        case _:
            return piece.drop * (flow / piece.rated) ** 2 / metre


def _required(site: Site) -> float:
    """Where the rated lift is told, what the air carries at sea level of cold water, less that lift."""
    if site.required is not None:
        return site.required
    cold = by_coolprop(RATING_TEMPERATURE)
    return (AIR - cold.vapour_pressure) / (cold.density * GRAVITY) - site.rated_lift


def _margin(site: Site) -> tuple[float, float]:
    """The margin and what the line takes, in m."""
    water = by_coolprop(site.temperature)
    lost = sum(_loss(piece, site.flow, water) for piece in site.pieces)
    over_vapour = pressure_of_the_air_above(site.altitude) - water.vapour_pressure
    available = over_vapour / (water.density * GRAVITY) - (site.inlet + site.pumping_depth) - lost
    return available - _required(site), lost


def _pressures(site: Site) -> Iterator[float]:
    """Static pressure in Pa at the intake and at each piece's end, under the faster of the bores that meet there."""
    water = by_coolprop(site.temperature)
    air = pressure_of_the_air_above(site.altitude)
    elevation, lost = site.intake, 0.0
    for index in range(len(site.pieces) + 1):
        if index:
            piece = site.pieces[index - 1]
            lost += _loss(piece, site.flow, water)
            elevation = piece.end if piece.kind == "pipe" else elevation
        moving = max(_velocity_head(piece, site.flow) for piece in site.pieces[max(0, index - 1) : index + 1])
        yield air + water.density * GRAVITY * (-site.pumping_depth - elevation - lost - moving)


def _regime_is_certain(site: Site) -> bool:
    """Whether no pipe lies so near to the end of laminar flow that two formulations of water may disagree on it."""
    water = by_coolprop(site.temperature)
    scale = 4 * site.flow * water.density / (math.pi * water.viscosity)
    return all(abs(scale / piece.bore - LAMINAR_LIMIT) > 1 for piece in site.pieces if piece.kind == "pipe")


@cache
def _answered(*, crane: bool) -> list[tuple[Site, Any]]:
    sites = filter(_regime_is_certain, drawn_sites(1738 + crane, COUNT, crane=crane))
    return [(site, ask("suction-feasibility", site.body())) for site in sites]


def margin() -> Comparison:
    """Lines of pipes, strainers, idle pumps and entrances. Two formulations of water part by 0.02 parts in a thousand
    of a density and 0.07 of a vapour pressure, which is 0.15 mm of the air's head at 60 degC; six digits are told."""
    found = ((1000 * abs(answer.margin.base - _margin(site)[0]), site.at) for site, answer in _answered(crane=False))
    return compared("suction margin", ENGINE, found, bound=0.2, unit="mm")


def pressures() -> Comparison:
    """Every place of those lines, up to 20 m under water: 0.02 parts in a thousand of the water's weight are 4 Pa,
    and six digits of 300 kPa half a pascal."""

    def deviations():
        for site, answer in _answered(crane=False):
            for index, (node, pressure) in enumerate(zip(answer.profile, _pressures(site), strict=True)):
                yield abs(node.absolute_pressure.base - pressure), {"node": index, **site.at}

    return compared("pressures along the line", ENGINE, deviations(), bound=5.0, unit="Pa")


def losses_with_cranes_fittings() -> Comparison:
    """Crane's fT by its formula, where the service takes a fit of Crane's table: 1.1 % apart in bores of a house."""

    def deviations():
        for site, answer in _answered(crane=True):
            margin, lost = _margin(site)
            yield abs(answer.margin.base - margin) / lost, site.at

    return compared("suction losses with fittings", ENGINE, deviations(), bound=0.015)
