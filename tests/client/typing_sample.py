"""A user's code, read by a type checker and never run: what must pass, and what must not."""

from collections.abc import AsyncIterable, Generator, Iterable, Sequence
from typing import assert_type

import pint

import footvalve_client as fv
from footvalve_client import testing


def ask(service: fv.Footvalve, depth: fv.LengthLike) -> fv.SuctionFeasibilityAnswer:
    """Keyword arguments, in every form that a quantity may have."""
    metre = pint.UnitRegistry().Quantity(1, "m")
    line: list[fv.Pipe | fv.Fitting] = [
        fv.Pipe(length="45 ft", size=fv.PipeSize(product="pe-sidr-15", nominal="1"), end_elevation=fv.Length(-5, "ft")),
        fv.Fitting(fitting="elbow-90", count=2),
    ]
    service.suction_feasibility(
        depth_to_water=metre,
        flow="4 gal/min",
        pump={"style": "rotary", "inlet_elevation": "-3 ft"},
        line=[{"part": "pipe", "length": "45 ft"}, *line],
        site=fv.Site(altitude="1200 m"),
    )
    return service.suction_feasibility(
        depth_to_water=depth,
        flow=fv.Flow(4, "gal/min"),
        pump=fv.RotaryPump(inlet_elevation="-3 ft", npsh_required=metre),
        line=line,
        units="metric",
    )


def read(answer: fv.SuctionFeasibilityAnswer) -> float:
    """Every field of an answer has its type."""
    assert_type(answer.margin, fv.Length)
    assert_type(answer.margin.to("m"), fv.Length)
    assert_type(answer.margin.value_in("m"), float)
    assert_type(answer.margin.quantity, pint.Quantity)
    assert_type(answer.reasons, list[str])
    assert_type(answer.priming.time, fv.Duration | None)
    assert_type(answer.profile[0].under_vacuum, bool)
    if answer.verdict == "infeasible":
        return 0.0
    return answer.margin.value


async def ask_awaited(service: fv.AsyncFootvalve, request: fv.FrictionRequest) -> fv.FrictionAnswer:
    """The awaited client has the same methods."""
    assert_type(await service.live(), fv.Health)
    assert_type(await service.table("wires"), fv.WiresTable)
    return await service.friction(request)


def look_up(service: fv.Footvalve, name: fv.TableName) -> list[fv.Length]:
    """A table is typed by its name, as far as the name is known."""
    assert_type(service.table("cautions").rows[0].code, str)
    assert service.table(name).rows
    return [size.inside_diameter for row in service.table("pipes").rows for size in row.sizes]


def map_many(service: fv.Footvalve, requests: Iterable[fv.FrictionRequest], name: fv.EndpointName) -> list[fv.Length]:
    """The results of a map are typed by the endpoint, as far as it is known."""
    results = service.map("friction", requests, concurrency=8)
    assert_type(results, Generator[fv.MapResult[fv.FrictionAnswer], None, None])
    service.map("sounding", [{"measurement": {"method": "direct", "depths": ["14 ft"]}}])
    assert_type(next(service.map(name, [{}])).unwrap().to_dicts(), list[dict[str, str | int | float | bool]])
    return [result.unwrap().total_head_loss for result in results]


async def map_awaited(service: fv.AsyncFootvalve, requests: AsyncIterable[fv.SitePlanRequest]) -> None:
    """The awaited client takes bodies as they come."""
    async for result in service.map("site-plan", requests):
        assert_type(result.answer, fv.SitePlanAnswer | None)


def try_offline() -> fv.TankCycleAnswer:
    """Examples are typed by their endpoint."""
    example = testing.examples("tank-cycle")[0]
    assert_type(example.answer, fv.TankCycleAnswer)
    with testing.offline(source="recorded") as service:
        return service.tank_cycle(example.request)


def catch(service: fv.Footvalve) -> Sequence[fv.FieldFault]:
    """Errors have typed attributes."""
    try:
        service.ready()
    except fv.Refused as error:
        assert_type(error.problem, fv.Problem)
        assert_type(error.status, int)
        return error.faults
    except fv.FootvalveError as error:
        assert_type(error.request_id, str | None)
    return ()


def misuse(service: fv.Footvalve, answer: fv.SuctionFeasibilityAnswer) -> None:
    """Each of these is an error, found before anything runs."""
    fv.Length(14, "psi")  # type: ignore[arg-type]
    fv.Length(14)  # type: ignore[call-arg]
    fv.Pipe(length=14)  # type: ignore[arg-type]
    fv.Pipe(length=fv.Pressure(14, "psi"))  # type: ignore[arg-type]
    fv.Pipe(length="14 ft", size=fv.PipeSize(product="lead", nominal="1"))  # type: ignore[arg-type]
    service.friction(flow="5 gal/min")  # type: ignore[call-overload]
    service.friction(flow=5, line=[])  # type: ignore[call-overload]
    service.table("pumps")  # type: ignore[call-overload]
    service.map("pumps", [])  # type: ignore[call-overload]
    service.map("friction", [fv.SoundingRequest(measurement=fv.DirectSounding(depths=[]))])  # type: ignore[call-overload]
    service.friction(fv.SoundingRequest(measurement=fv.DirectSounding(depths=["14 ft"])))  # type: ignore[call-overload]
    answer.margin.to("psi")  # type: ignore[arg-type]
    if answer.verdict == "perhaps":  # type: ignore[comparison-overlap]
        return
    answer.margin = fv.Length(14, "ft")  # type: ignore[misc]
