"""A site plan as one page of HTML for print: no script, nothing from elsewhere, readable in black and white."""

from base64 import b64encode
from collections.abc import Iterator, Sequence
from datetime import date
from functools import cache
from hashlib import sha256
from importlib.resources import files
from typing import Final

from jinja2 import Environment, PackageLoader, StrictUndefined, Template
from markupsafe import Markup
from msgspec import UNSET

from footvalve import __version__
from footvalve.contract.answer import BasisStep, Warning
from footvalve.contract.site_plan import Material, SitePlanAnswer, SitePlanRequest
from footvalve.drawings import sheet_power, sheet_water
from footvalve.drawings.figures import as_written, chance_told, told
from footvalve.drawings.plan_profile import plan_profile
from footvalve.drawings.sheet_blocks import Block, first_of
from footvalve.drawings.state_of_charge import state_of_charge
from footvalve.drawings.tank_cycle import tank_cycle

NOTHING_ELSE: Final = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
"""The Content-Security-Policy of a document that stands for itself."""

OUTSIDE: Final = "outside its range, see the doubts"

SURE_ENOUGH: Final = 0.9
"""Chance of a plain yes, as for who asks the suction check (own choice)."""

_MOST_MATERIALS: Final = 48
_MOST_DOUBTS: Final = 12
_MOST_POINTERS: Final = 4


def site_sheet(request: SitePlanRequest, answer: SitePlanAnswer, day: date) -> str:
    """The sheet of a plan, made on a day."""
    suction = answer.suction_feasibility
    keyed = suction is UNSET or not sheet_water.lists_every_place(suction)
    headline, *summary = answer.summary or [""]
    return _template().render(
        day=day.isoformat(),
        version=__version__,
        style=Markup(sheet_style()),
        word=verdict_word(answer),
        verdict=answer.verdict,
        headline=headline.removeprefix(f"{answer.verdict.capitalize()}: "),
        chance=None if suction is UNSET or suction.chance_feasible is UNSET else chance_told(suction.chance_feasible),
        summary=summary,
        profile=Markup(plan_profile(request, answer, keyed=keyed)),
        headline_is_a_reason=any(_says(headline, reason) for reason in answer.reasons),
        reasons=[reason for reason in answer.reasons if not _says(headline, reason)],
        levers=[(lever.change, told(lever.margin), lever.verdict) for lever in answer.levers],
        to_do=answer.to_do,
        cautions=answer.cautions,
        drawings=[Markup(drawing) for drawing in _drawings(request, answer)],
        blocks=list(_blocks(request, answer)),
        sun=_sun(answer),
        materials=_materials(answer.materials),
        doubts=first_of(_doubts(answer.warnings), _MOST_DOUBTS),
        basis=_sources(answer.basis),
    )


def verdict_word(answer: SitePlanAnswer) -> str:
    """The verdict in a word: a yes that may well be a no is one only perhaps, as in the suction check."""
    suction = answer.suction_feasibility
    chance = 1.0 if suction is UNSET or suction.chance_feasible is UNSET else suction.chance_feasible
    return "perhaps" if answer.verdict == "feasible" and chance < SURE_ENOUGH else answer.verdict


def _says(headline: str, reason: str) -> bool:
    """Whether the headline is that reason already."""
    return headline.casefold().endswith(reason.casefold())


def sheet_policy() -> str:
    """The Content-Security-Policy of the sheet: its own style and nothing else."""
    digest = b64encode(sha256(sheet_style().encode()).digest()).decode()
    return f"{NOTHING_ELSE}; style-src 'sha256-{digest}'"


@cache
def sheet_style() -> str:
    """The text inside the sheet's one `<style>`."""
    return files(__package__).joinpath("site_sheet.css").read_text(encoding="utf-8")


@cache
def _template() -> Template:
    loader = PackageLoader("footvalve.drawings", package_path="")
    environment = Environment(
        loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["as_written"] = as_written
    return environment.get_template("site_sheet.html")


def _drawings(request: SitePlanRequest, answer: SitePlanAnswer) -> Iterator[str]:
    if answer.tank_cycle is not UNSET:
        yield tank_cycle(answer.tank_cycle, request.switch)
    if answer.battery_runtime is not UNSET:
        yield state_of_charge(answer.battery_runtime)


def _blocks(request: SitePlanRequest, answer: SitePlanAnswer) -> Iterator[Block]:
    """The numbers of every step."""
    if answer.suction_feasibility is not UNSET:
        yield sheet_water.heads(request, answer, answer.suction_feasibility)
        yield sheet_water.places(answer.suction_feasibility)
    if answer.well_recovery is not UNSET:
        yield sheet_water.well(answer.well_recovery)
    yield sheet_water.duty(answer.duty)
    if answer.friction is not UNSET:
        yield sheet_water.delivery(answer.friction)
    if answer.tank_cycle is not UNSET:
        yield sheet_water.tank(answer.tank_cycle)
    if answer.battery_runtime is not UNSET:
        yield sheet_power.battery(answer.battery_runtime)
        if answer.battery_runtime.recharge is not UNSET:
            yield sheet_power.recharge(answer.battery_runtime.recharge)
    if answer.manifold_check is not UNSET:
        yield sheet_water.manifold(answer.manifold_check)


def _sun(answer: SitePlanAnswer) -> Block | None:
    if answer.battery_runtime is UNSET or answer.battery_runtime.solar_balance is UNSET:
        return None
    return sheet_power.sun(answer.battery_runtime.solar_balance)


def _materials(materials: Sequence[Material]) -> list[tuple[str, str]]:
    """What the plan is made of, by what it is for."""
    listed: dict[str, list[str]] = {}
    for material in materials[:_MOST_MATERIALS]:
        listed.setdefault(material.purpose, []).append(_material(material))
    if len(materials) > _MOST_MATERIALS:
        listed["more"] = [f"{len(materials) - _MOST_MATERIALS} things, which the data tell"]
    return [(purpose, "; ".join(things)) for purpose, things in listed.items()]


def _material(material: Material) -> str:
    count = "" if material.count is UNSET else f"{material.count} × "
    length = "" if material.length is UNSET else f"{told(material.length)} of "
    size = "" if material.size is UNSET else f", {material.size}"
    return f"{length}{count}{material.item}{size}"


def _doubts(warnings: Sequence[Warning]) -> list[str]:
    """Each doubt once, with the places that it is about."""
    places: dict[str, list[str]] = {}
    for warning in warnings:
        places.setdefault(warning.detail, []).append(warning.pointer)
    return [f"{', '.join(first_of(pointers, _MOST_POINTERS))}: {detail}" for detail, pointers in places.items()]


def _sources(basis: Sequence[BasisStep]) -> list[tuple[str, str]]:
    """Each source once, with the steps that rest on it; one that left its range says so."""
    steps: dict[str, list[str]] = {}
    for step in basis:
        name = step.step if step.within_range else f"{step.step} ({OUTSIDE})"
        steps.setdefault(step.source, []).append(name)
    return [("; ".join(dict.fromkeys(names)), source) for source, names in steps.items()]
