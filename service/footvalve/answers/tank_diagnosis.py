"""What an observed drawdown says about the precharge."""

from collections.abc import Sequence

from msgspec import UNSET

from footvalve.answers.unit_system import UnitSystem
from footvalve.contract.tank_cycle import Diagnosis
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


def diagnosis(bank: TankBank, observed: float, atmosphere: float, units: UnitSystem) -> Diagnosis:
    """The finding for an observed drawdown in m^3, under an atmosphere in Pa, and the precharge that explains it."""
    expected = bank_drawdown(bank)
    seen = f"{units.volume(observed)} were caught where {units.volume(expected)} are expected"
    stated = bank.tanks[0].precharge_absolute - atmosphere
    if _agree(observed, expected):
        text = f"{seen}: that agrees within {AGREEMENT:.0%}, and such a reading is good for no more."
        return Diagnosis(finding="agrees", precharge=units.pressure(stated), shift=units.pressure(0.0), text=text)
    shifts = _likeliest_first(bank, observed)
    if not shifts:
        text = f"{seen}, more than any precharge gives between these pressures: check the switch against a gauge."
        return Diagnosis(finding="switch-differs", text=text)
    return _moved(seen, stated, shifts, len(bank.tanks) > 1, units)


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


def _moved(seen: str, stated: float, shifts: Sequence[float], several: bool, units: UnitSystem) -> Diagnosis:
    likeliest, *other = (stated + shift for shift in shifts)
    place = " in the first tank, with all others moved alike" if several else ""
    explained = f"{_gas(likeliest, units)}{place}, in place of {units.pressure(stated)}, explains it"
    rival = f" So does {_gas(other[0], units)}: the drawdown alone cannot tell." if other else ""
    return Diagnosis(
        finding="lost-air" if likeliest < stated else "overcharged",
        precharge=units.pressure(likeliest),
        shift=units.pressure(likeliest - stated),
        other_precharge=units.pressure(other[0]) if other else UNSET,
        text=f"{seen}. {explained[0].upper()}{explained[1:]}.{rival} {_HOW_TO_TELL}",
    )


def _gas(precharge: float, units: UnitSystem) -> str:
    """A precharge in words; below the air's pressure there is water where gas should be."""
    if precharge < 0:
        return "less gas than fills the tank at air pressure (a waterlogged tank, or a failed bladder)"
    return f"a precharge of {units.pressure(precharge)}"
