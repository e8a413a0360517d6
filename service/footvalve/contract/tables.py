"""The wire of the tables: the trade's numbers that the answers rest on, each row with its source."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.quantities import Area, Current, Length, Resistance, Temperature, Velocity, Voltage

Source = Annotated[str, Meta(description="Where the row's numbers come from.")]
Note = Annotated[str | UnsetType, Meta(description="What to know before these numbers are used.")]
Title = Annotated[str, Meta(description="What the trade calls it.")]


class Table(Struct, frozen=True, kw_only=True, tag_field="table"):
    """A table, told apart by its name in `table`."""


class PipeSizeRow(Struct, frozen=True, kw_only=True):
    """One size of a pipe."""

    nominal: Annotated[str, Meta(description="The nominal size in inches, as `size.nominal` takes it.")]
    outside_diameter: Annotated[Length, Meta(description="Outside diameter.")]
    inside_diameter: Annotated[Length, Meta(description="The bore that is reckoned with.")]
    source: Source


class PipeRow(Struct, frozen=True, kw_only=True):
    """A kind of pipe, and the sizes that it comes in."""

    product: Annotated[str, Meta(description="Its name, as `size.product` takes it.")]
    title: Title
    material: Annotated[str, Meta(description="What its wall is made of.")]
    bore_basis: Annotated[str, Meta(description="Of which wall the bores are, such as the least that is allowed.")]
    roughness: Annotated[Length, Meta(description="Height of the wall's roughness.")]
    roughness_source: Annotated[str, Meta(description="Where the roughness comes from.")]
    hazen_williams_coefficient: Annotated[float, Meta(description="C of Hazen and Williams.")]
    hazen_williams_source: Annotated[str, Meta(description="Where C comes from.")]
    sizes: Annotated[list[PipeSizeRow], Meta(description="From small to large.")]
    note: Note = UNSET
    source: Source


class PipesTable(Table, frozen=True, kw_only=True, tag="pipes"):
    """Pipes by product, with their bores and how rough they are."""

    rows: Annotated[list[PipeRow], Meta(description="One row a product.")]


class FittingRow(Struct, frozen=True, kw_only=True):
    """What a fitting costs. K is its loss in velocity heads, fT the friction factor at full turbulence."""

    fitting: Annotated[str, Meta(description="Its name, as `fitting` of a part takes it.")]
    title: Title
    kind: Annotated[
        Literal["equivalent-length-ratio", "resistance-coefficient", "bore-change"],
        Meta(description="Whether `value` is n of K = n fT, or K itself, or the bores on both sides decide."),
    ]
    value: Annotated[float | UnsetType, Meta(description="As `kind` says; absent for a change of bore.")] = UNSET
    note: Note = UNSET
    source: Source


class FittingsTable(Table, frozen=True, kw_only=True, tag="fittings"):
    """Fittings by what they cost."""

    rows: Annotated[list[FittingRow], Meta(description="One row a fitting.")]


class ValveRow(Struct, frozen=True, kw_only=True):
    """What a valve costs when open, and whether it lets water back."""

    valve: Annotated[str, Meta(description="Its name, as `valve` of a part takes it.")]
    title: Title
    equivalent_length_ratio: Annotated[
        float,
        Meta(description="n of K = n fT: its loss in velocity heads over the friction factor at full turbulence."),
    ]
    is_check: Annotated[bool, Meta(description="Whether it lets no water back.")]
    includes_strainer: Annotated[bool, Meta(description="Whether the loss is that of valve and strainer together.")]
    full_lift_velocity: Annotated[
        Velocity | UnsetType,
        Meta(
            description="Of water of 1000 kg/m^3, in the valve's bore: below it the disc is not fully lifted and the "
            "loss is greater. Absent where it is not known, or there is no disc to be lifted."
        ),
    ] = UNSET
    full_lift_source: Annotated[
        str | UnsetType, Meta(description="Where that velocity comes from; absent with it.")
    ] = UNSET
    note: Note = UNSET
    source: Source


class ValvesTable(Table, frozen=True, kw_only=True, tag="valves"):
    """Valves by what they cost when open."""

    rows: Annotated[list[ValveRow], Meta(description="One row a valve.")]


class WireRow(Struct, frozen=True, kw_only=True):
    """A size of stranded wire: its resistance, and the ampacity of copper of that size."""

    system: Annotated[Literal["awg", "metric"], Meta(description="American wire gauge, or metric by its area.")]
    designation: Annotated[str, Meta(description="The gauge, as `wire.gauge` takes it; or the nominal area in mm^2.")]
    area: Annotated[Area, Meta(description="Cross-section of the metal.")]
    diameter: Annotated[
        Length | UnsetType,
        Meta(description="Of solid wire of that area; metric wires are named by area and have none."),
    ] = UNSET
    resistance: Annotated[
        Resistance, Meta(description="Of one stranded copper conductor of `resistance_length` at that temperature.")
    ]
    resistance_length: Annotated[Length, Meta(description="The length that has that resistance.")]
    resistance_temperature: Annotated[Temperature, Meta(description="The temperature that it has it at.")]
    resistance_source: Annotated[str, Meta(description="Where the resistance comes from.")]
    aluminum_resistance: Annotated[
        Resistance | UnsetType,
        Meta(description="Of one stranded aluminum conductor of `resistance_length` at 20 degC; metric wires alone."),
    ] = UNSET
    aluminum_resistance_source: Annotated[
        str | UnsetType, Meta(description="Where the resistance of aluminum comes from.")
    ] = UNSET
    ampacity: Annotated[
        Current,
        Meta(description="What copper may carry all the time, its insulation at 60 degC and 30 degC around it."),
    ]
    ampacity_source: Annotated[str, Meta(description="Where the ampacity comes from.")]
    source: Source


class WiresTable(Table, frozen=True, kw_only=True, tag="wires"):
    """Sizes of stranded wire, American and metric."""

    rows: Annotated[list[WireRow], Meta(description="One row a size.")]


class ColdCapacityRow(Struct, frozen=True, kw_only=True):
    """What a temperature leaves of a battery's capacity."""

    temperature: Annotated[Temperature, Meta(description="Of the battery.")]
    capacity_fraction: Annotated[float, Meta(description="Of the capacity at 25 degC.")]
    source: Source


class ChemistrySource(Struct, frozen=True, kw_only=True):
    """Where one number of a chemistry comes from."""

    field: Annotated[str, Meta(description="The field of the row.")]
    source: Source


class ChemistryRow(Struct, frozen=True, kw_only=True):
    """What to expect of a battery of this chemistry whose maker says nothing else, at 25 degC."""

    chemistry: Annotated[str, Meta(description="Its name, as `battery.chemistry` takes it.")]
    title: Title
    family: Annotated[str, Meta(description="The kind of cell.")]
    nominal_cell_voltage: Annotated[Voltage, Meta(description="Of one cell.")]
    peukert_exponent: Annotated[float, Meta(description="Peukert's exponent.")]
    floor_fraction: Annotated[float, Meta(description="The lowest state of charge in routine use.")]
    charge_efficiency_fraction: Annotated[float, Meta(description="Charge that is stored over charge that is put in.")]
    absorption_start_fraction: Annotated[
        float,
        Meta(description="The state of charge at which the current of a charger of `absorption_start_current` tapers."),
    ]
    absorption_start_current: Annotated[
        Current, Meta(description="For each Ah: a slower charger meets the taper later, a stronger one sooner.")
    ]
    monthly_self_discharge_fraction: Annotated[float, Meta(description="Of the capacity, in a month.")]
    least_charge_current: Annotated[Current, Meta(description="For each Ah of capacity.")]
    greatest_charge_current: Annotated[Current, Meta(description="For each Ah of capacity.")]
    gases: Annotated[bool, Meta(description="Whether the cells give off hydrogen.")]
    float_gassing_current: Annotated[
        Current, Meta(description="The current that makes gas on float charge, for each Ah of capacity.")
    ]
    boost_gassing_current: Annotated[
        Current, Meta(description="The current that makes gas on boost charge, for each Ah of capacity.")
    ]
    least_charge_temperature: Annotated[Temperature, Meta(description="The battery must not be charged below it.")]
    cold_capacity: Annotated[list[ColdCapacityRow], Meta(description="From cold to warm.")]
    sources: Annotated[list[ChemistrySource], Meta(description="One for each field but `cold_capacity`.")]


class ChemistriesTable(Table, frozen=True, kw_only=True, tag="chemistries"):
    """Batteries by their chemistry."""

    rows: Annotated[list[ChemistryRow], Meta(description="One row a chemistry.")]


class CautionRow(Struct, frozen=True, kw_only=True):
    """A danger or a duty that an answer may warn of."""

    code: Annotated[str, Meta(description="A stable name, as in the cautions of an answer.")]
    severity: Annotated[Literal["note", "warning", "danger"], Meta(description="How bad it can get.")]
    text: Annotated[str, Meta(description="What can happen, and what to do.")]
    source: Source


class CautionsTable(Table, frozen=True, kw_only=True, tag="cautions"):
    """Everything that an answer may warn of."""

    rows: Annotated[list[CautionRow], Meta(description="One row a caution.")]


class UnitRow(Struct, frozen=True, kw_only=True):
    """A unit of the wire. A value in the base unit is `value * scale + offset`; neither is rounded to six digits."""

    unit: Annotated[str, Meta(description="As it stands on the wire.")]
    dimension: Annotated[str, Meta(description="The type of quantity that takes it.")]
    base_unit: Annotated[str, Meta(description="The unit of that dimension that the service reckons in.")]
    scale: Annotated[float, Meta(description="What one of the unit is in the base unit, less the offset.")]
    offset: Annotated[float, Meta(description="What zero of the unit is in the base unit; 0 but for temperatures.")]
    source: Source


class UnitsTable(Table, frozen=True, kw_only=True, tag="units"):
    """The closed lists of units, by dimension."""

    rows: Annotated[list[UnitRow], Meta(description="One row a unit.")]


AnyTable = PipesTable | FittingsTable | ValvesTable | WiresTable | ChemistriesTable | CautionsTable | UnitsTable
