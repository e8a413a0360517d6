"""Each part of a line on the wire as an element of physics."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from msgspec import UNSET, Struct

from footvalve.answers.gathering import faults_at
from footvalve.answers.line_bores import neighbours, own_bore, spread_bores, table_size
from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.friction import FrictionMethod
from footvalve.contract.line import Fitting, FlowResistance, IdlePump, LinePart, Pipe, Strainer, Valve
from footvalve.contract.problem import Fault, Refused
from footvalve.physics.fitting_loss import (
    contraction_coefficient,
    enlargement_coefficient,
    equivalent_length_coefficient,
)
from footvalve.physics.line_element import (
    CoefficientPipe,
    FlowCoefficientPassage,
    LineElement,
    LocalResistance,
    RatedStrainer,
    RoughPipe,
    SquareLawPassage,
)
from footvalve.physics.rated_loss import kv_of_cv
from footvalve.tables.fittings import fitting
from footvalve.tables.valves import valve


class ResolvedPart(Struct, frozen=True):
    """A part with its element, its bore where one is known, and the length that it runs, in m."""

    part: LinePart
    name: str
    element: LineElement
    diameter: float | None
    length: float


class LineBores(Struct, frozen=True):
    """The bores of a whole line, in m: those of its pipes, and that which each part has; and the units in which a
    refusal tells them."""

    pipes: Sequence[float | None]
    spread: Sequence[float | None]
    units: UnitSystem

    def at(self, index: int) -> float:
        """The bore of a part that cannot do without one. Raises Refused where none is known."""
        bore = self.spread[index]
        if bore is None:
            raise Refused(Fault("/bore", "no pipe in the line tells this part's bore: state it"))
        return bore


def resolve_line(
    line: list[LinePart], method: FrictionMethod, units: UnitSystem, pointer: str = "/line"
) -> list[ResolvedPart]:
    """Every part as physics sees it. Raises Refused with all the faults that were found."""
    bores, faults, resolved = _bores(line, units, pointer), list[Fault](), []
    for index, part in enumerate(line):
        try:
            element = _element(part, index, bores, method)
        except Refused as refused:
            faults += faults_at(f"{pointer}/{index}", refused)
        else:
            length = part.length.base if isinstance(part, Pipe) else 0.0
            resolved.append(ResolvedPart(part, part_name(part), element, bores.spread[index], length))
    if faults:
        raise Refused(*faults)
    return resolved


def resolve_suction_line(line: list[LinePart], units: UnitSystem, pointer: str = "/line") -> list[ResolvedPart]:
    """The same of a suction line, after Darcy and Weisbach. One without a pipe is refused for that alone: what its
    other parts lack for want of a pipe is no fault of theirs."""
    if not any(isinstance(part, Pipe) for part in line):
        raise Refused(Fault(pointer, "a suction line has at least one pipe"))
    return resolve_line(line, "darcy-weisbach", units, pointer)


def _bores(line: list[LinePart], units: UnitSystem, pointer: str) -> LineBores:
    faults, own = list[Fault](), list[float | None]()
    for index, part in enumerate(line):
        try:
            own.append(own_bore(part))
        except Refused as refused:
            faults += faults_at(f"{pointer}/{index}", refused)
    if faults:
        raise Refused(*faults)
    pipes = [bore if isinstance(part, Pipe) else None for part, bore in zip(line, own, strict=True)]
    return LineBores(pipes, spread_bores(own, pipes), units)


def part_name(part: LinePart) -> str:
    """The caller's label, or else what the part is."""
    if part.name is not UNSET:
        return part.name
    if isinstance(part, Fitting):
        return part.fitting
    if isinstance(part, Valve):
        return part.valve
    return str(part.__struct_config__.tag)


def name_in_line(parts: Sequence[ResolvedPart], index: int) -> str:
    """A part's name in a sentence, with its place, counted from 1, where another part has the same name."""
    name = parts[index].name
    alike = [part.name for part in parts].count(name)
    return name if alike == 1 else f"{name} (part {index + 1} of the line)"


def _element(part: LinePart, index: int, bores: LineBores, method: FrictionMethod) -> LineElement:
    """The element of a part. Raises Refused, told from the part on."""
    match part:
        case Pipe():
            return _pipe(part, bores.at(index), method)
        case Fitting():
            return _fitting(part, index, bores)
        case Valve():
            return _valve(part, bores.at(index))
        case Strainer():
            return RatedStrainer(part.rated_flow.base, _strainer_drop(part))
        case IdlePump():
            return SquareLawPassage(part.flow.base, part.drop.base)
        case FlowResistance():
            coefficient = part.flow_coefficient
            return FlowCoefficientPassage(kv_of_cv(cv=coefficient) if part.basis == "Cv" else coefficient)


def _valve(part: Valve, diameter: float) -> LineElement:
    row = valve(part.valve)
    if part.cracking_pressure is not UNSET and not row.is_check:
        raise Refused(Fault("/cracking_pressure", f"a {part.valve} valve has no spring: only a check has"))
    spring = 0.0 if part.cracking_pressure is UNSET else part.cracking_pressure.base
    coefficient = equivalent_length_coefficient(equivalent_diameters=row.equivalent_length_ratio, diameter=diameter)
    return LocalResistance(diameter, coefficient, spring)


def _strainer_drop(part: Strainer) -> float:
    clean = part.clean_drop.base
    dirty = clean if part.dirty_drop is UNSET else part.dirty_drop.base
    if dirty < clean:
        raise Refused(Fault("/dirty_drop", "must not be below `clean_drop`"))
    return dirty


def _pipe(part: Pipe, diameter: float, method: FrictionMethod) -> LineElement:
    size = table_size(part)
    length = part.length.base
    if method == "hazen-williams":
        coefficient = size.hazen_williams_coefficient if size else _stated(part, "hazen_williams_coefficient")
        return CoefficientPipe(diameter, length, coefficient)
    roughness = size.roughness if size else _stated(part, "roughness").base
    if roughness > 0.05 * diameter:
        raise Refused(Fault("/bore/roughness", "must not be above a twentieth of the diameter"))
    return RoughPipe(diameter, length, roughness)


def _stated(part: Pipe, field: str) -> Any:
    value = getattr(part.bore, field)
    if value is UNSET:
        raise Refused(Fault(f"/bore/{field}", "a pipe that is given by its bore needs this here"))
    return value


def _fitting(part: Fitting, index: int, bores: LineBores) -> LineElement:
    if fitting(part.fitting).value is None:
        return _bore_change(part, *neighbours(bores.pipes, index), bores.units)
    return _fittings(part.fitting, part.count, bores.at(index))


@lru_cache(maxsize=1024)
def _fittings(name: str, count: int, diameter: float) -> LocalResistance:
    """So many alike, none of them a change of bore; remembered, as lines are made of the same few."""
    row = fitting(name)
    coefficient = row.value
    assert coefficient is not None, "a change of bore takes its coefficient from both bores"
    if row.kind == "equivalent-length-ratio":
        coefficient = equivalent_length_coefficient(equivalent_diameters=coefficient, diameter=diameter)
    return LocalResistance(diameter, count * coefficient)


def _bore_change(part: Fitting, before: float | None, after: float | None, units: UnitSystem) -> LineElement:
    if before is None or after is None:
        raise Refused(Fault("", "a change of bore needs a pipe before it and one after it in the line"))
    if part.count != 1 or part.bore is not UNSET:
        raise Refused(Fault("", "a change of bore is one, and takes its bores from the pipes on both sides"))
    contracts = part.fitting == "sudden-contraction"
    if before == after or (before > after) != contracts:
        raise Refused(Fault("/fitting", _what_fits(before, after, units)))
    smaller, larger = sorted((before, after))
    of_bores = contraction_coefficient if contracts else enlargement_coefficient
    coefficient = of_bores(smaller_diameter=smaller, larger_diameter=larger)
    return LocalResistance(smaller, coefficient)


def _what_fits(before: float, after: float, units: UnitSystem) -> str:
    """What the bores on both sides of a wrong change of bore call for."""
    if before == after:
        return f"the bore is {units.bore(before)} on both sides: nothing changes here, leave this part out"
    fits = "sudden-contraction" if before > after else "sudden-enlargement"
    return f"the bore goes from {units.bore(before)} to {units.bore(after)} here: that is a {fits}"
