"""What an observed drawdown says about the precharge."""

from dataclasses import dataclass

from msgspec import UNSET, UnsetType

from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.quantities import Pressure
from footvalve.contract.tank_cycle import Diagnosis, Finding
from footvalve.physics.method import Method
from footvalve.physics.tank_bank import TankBank, bank_drawdown, explaining_shifts, most_generous_shift

AGREEMENT = 0.10
"""Part by which an observed drawdown may differ and still agree. Catching the water is good to a few percent, the
tank's printed volume too, and a switch that is 1 psi off moves a span of 20 psi by 5 %. Common practice, no source."""

DIAGNOSIS = Method(
    name=f"One shift of all precharges that gives the observed drawdown; within {AGREEMENT:.0%} none is sought",
    source="the gas law solved for the precharge; the tolerance is common practice, no source",
)

_HOW_TO_TELL = "Check with a gauge on the tank's air valve, the pump off and the tank empty of water."


@dataclass(frozen=True, slots=True)
class Diagnosed:
    """An observed drawdown in m^3 against the expected one, and the first tank's precharge in Pa, gauge: as stated, and
    those that explain what was observed, the likeliest first; none where no precharge does."""

    finding: Finding
    observed: float
    expected: float
    stated: float
    explaining: tuple[float, ...]

    @property
    def precharge(self) -> float | None:
        """The likeliest that explains the observation."""
        return self.explaining[0] if self.explaining else None

    @property
    def shift(self) -> float | None:
        """How far that lies from the stated one."""
        return None if self.precharge is None else self.precharge - self.stated

    @property
    def other_precharge(self) -> float | None:
        """The one on the other side of cut-in that explains the same."""
        return self.explaining[1] if len(self.explaining) > 1 else None


def diagnosed(bank: TankBank, observed: float, atmosphere: float) -> Diagnosed:
    """The finding for an observed drawdown in m^3, under an atmosphere in Pa, and the precharge that explains it."""
    expected = bank_drawdown(bank)
    stated = bank.tanks[0].precharge_absolute - atmosphere
    if _agree(observed, expected):
        return Diagnosed("agrees", observed, expected, stated, (stated,))
    explaining = tuple(stated + shift for shift in _likeliest_first(bank, observed))
    if not explaining:
        return Diagnosed("switch-differs", observed, expected, stated, ())
    finding: Finding = "lost-air" if explaining[0] < stated else "overcharged"
    return Diagnosed(finding, observed, expected, stated, explaining)


def told_diagnosis(found: Diagnosed, units: UnitSystem, *, several: bool) -> Diagnosis:
    """The finding on the wire, for one tank or for several."""
    seen = f"{units.volume(found.observed)} were caught where {units.volume(found.expected)} are expected"
    if found.finding == "agrees":
        text = f"{seen}: that agrees within {AGREEMENT:.0%}, and such a reading is good for no more."
    elif found.precharge is None:
        text = f"{seen}, more than any precharge gives between these pressures: check the switch against a gauge."
    else:
        text = _explained(seen, found, units, several=several)
    return Diagnosis(
        finding=found.finding,
        precharge=_told(found.precharge, units),
        shift=_told(found.shift, units),
        other_precharge=_told(found.other_precharge, units),
        text=text,
    )


def _told(pressure: float | None, units: UnitSystem) -> Pressure | UnsetType:
    return UNSET if pressure is None else units.pressure(pressure)


def _agree(observed: float, expected: float) -> bool:
    return abs(observed - expected) <= AGREEMENT * expected


def _likeliest_first(bank: TankBank, observed: float) -> list[float]:
    """The nearest shift on either side of cut-in that explains an observation, the stated side first.

    The other side needs a tank that was charged anew or a switch that was moved past it; gas that leaks keeps its side.
    An observation that is hardly more than the greatest drawdown is explained by the shift that gives the greatest.
    """
    greatest = most_generous_shift(bank)
    shifts = explaining_shifts(bank, observed_drawdown=observed)
    if not shifts and _agree(observed, bank_drawdown(bank, precharge_shift=greatest)):
        return [greatest]
    below = sorted((shift for shift in shifts if shift <= greatest), key=abs)
    above = sorted((shift for shift in shifts if shift > greatest), key=abs)
    stated_side, other_side = (below, above) if greatest >= 0 else (above, below)
    return stated_side[:1] + other_side[:1]


def _explained(seen: str, found: Diagnosed, units: UnitSystem, *, several: bool) -> str:
    likeliest, *other = found.explaining
    place = " in the first tank, with all others moved alike" if several else ""
    explained = f"{_gas(likeliest, units)}{place}, in place of {units.pressure(found.stated)}, explains it"
    rival = f" So does {_gas(other[0], units)}: the drawdown alone cannot tell." if other else ""
    return f"{seen}. {explained[0].upper()}{explained[1:]}.{rival} {_HOW_TO_TELL}"


def _gas(precharge: float, units: UnitSystem) -> str:
    """A precharge in words; below the air's pressure there is water where gas should be."""
    if precharge < 0:
        return "less gas than fills the tank at air pressure (a waterlogged tank, or a failed bladder)"
    return f"a precharge of {units.pressure(precharge)}"
