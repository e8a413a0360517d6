# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
"""The words that the contract lists, each list under its name.

To a type checker they are Literals. At run time they are plain strings and numbers, so that a word which a newer
service has added does not break this client: let the last branch over such words take what it does not know.
"""

from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    AreaUnit: TypeAlias = Literal["cm^2", "in^2", "mm^2"]
    BatteryChemistry: TypeAlias = Literal["agm", "flooded", "gel", "lfp"]
    CautionSeverity: TypeAlias = Literal["danger", "note", "warning"]
    ChargeUnit: TypeAlias = Literal["Ah"]
    CurrentUnit: TypeAlias = Literal["A", "mA"]
    DiagnosisFinding: TypeAlias = Literal["agrees", "lost-air", "overcharged", "switch-differs"]
    DurationUnit: TypeAlias = Literal["d", "h", "min", "s"]
    EnergyUnit: TypeAlias = Literal["Wh", "kWh"]
    FittingKind: TypeAlias = Literal[
        "coupling",
        "elbow-45",
        "elbow-90",
        "elbow-90-long-radius",
        "elbow-90-push-to-connect",
        "elbow-90-street",
        "entrance-inward-projecting",
        "entrance-rounded",
        "entrance-sharp",
        "exit",
        "insert-adapter",
        "insert-coupling",
        "pitless-adapter",
        "return-bend-180",
        "sudden-contraction",
        "sudden-enlargement",
        "tee-branch",
        "tee-run",
        "threaded-adapter",
        "union",
    ]
    FlowResistanceBasis: TypeAlias = Literal["Cv", "Kv"]
    FlowUnit: TypeAlias = Literal["L/min", "L/s", "gal/h", "gal/min", "m^3/h"]
    FrictionMethod: TypeAlias = Literal["darcy-weisbach", "hazen-williams"]
    HealthStatus: TypeAlias = Literal["live", "ready"]
    LengthUnit: TypeAlias = Literal["cm", "ft", "in", "m", "mm"]
    Outcome: TypeAlias = Literal["cycles", "runs-on", "stays-off"]
    PartLossRegime: TypeAlias = Literal["laminar", "transitional", "turbulent"]
    PipeSizeNominal: TypeAlias = Literal["1", "1-1/2", "1-1/4", "1/2", "2", "3/4"]
    PipeSizeProduct: TypeAlias = Literal[
        "copper-k",
        "copper-l",
        "copper-m",
        "pe-cts-dr-9",
        "pe-ips-dr-11",
        "pe-ips-dr-13.5",
        "pe-ips-dr-7",
        "pe-ips-dr-9",
        "pe-sidr-11.5",
        "pe-sidr-15",
        "pe-sidr-19",
        "pe-sidr-7",
        "pe-sidr-9",
        "pex-sdr-9",
        "pvc-sch-40",
        "pvc-sch-80",
        "steel-galvanized-sch-40",
    ]
    PowerUnit: TypeAlias = Literal["W", "hp", "kW"]
    PressureUnit: TypeAlias = Literal["Pa", "bar", "ftH2O", "kPa", "mH2O", "psi"]
    ReciprocatingPumpChambers: TypeAlias = Literal[1, 2, 3, 4, 5, 6, 7, 9]
    SolarBalanceMonth: TypeAlias = Literal[
        "april",
        "august",
        "december",
        "every",
        "february",
        "january",
        "july",
        "june",
        "march",
        "may",
        "november",
        "october",
        "september",
    ]
    SpecificCapacityUnit: TypeAlias = Literal["L/s/m", "gal/min/ft"]
    SuctionFeasibilityVerdict: TypeAlias = Literal["feasible", "infeasible", "marginal"]
    TemperatureUnit: TypeAlias = Literal["K", "degC", "degF"]
    Units: TypeAlias = Literal["metric", "us"]
    ValveKind: TypeAlias = Literal[
        "angle",
        "ball",
        "butterfly",
        "foot-valve-hinged",
        "foot-valve-poppet",
        "gate",
        "globe",
        "globe-y-pattern",
        "lift-check",
        "lift-check-angle",
        "plug",
        "spring-check",
        "swing-check",
        "swing-check-straight",
    ]
    VelocityUnit: TypeAlias = Literal["ft/s", "m/s"]
    VoltageUnit: TypeAlias = Literal["V", "mV"]
    VolumeUnit: TypeAlias = Literal["L", "gal", "m^3"]
    WellRecoveryVerdict: TypeAlias = Literal["dry", "storage-limited", "sustains"]
    WireGauge: TypeAlias = Literal["1", "1/0", "10", "12", "14", "16", "18", "2", "2/0", "3", "4", "6", "8"]
    WireMaterial: TypeAlias = Literal["aluminum", "copper"]
else:
    AreaUnit = str
    BatteryChemistry = str
    CautionSeverity = str
    ChargeUnit = str
    CurrentUnit = str
    DiagnosisFinding = str
    DurationUnit = str
    EnergyUnit = str
    FittingKind = str
    FlowResistanceBasis = str
    FlowUnit = str
    FrictionMethod = str
    HealthStatus = str
    LengthUnit = str
    Outcome = str
    PartLossRegime = str
    PipeSizeNominal = str
    PipeSizeProduct = str
    PowerUnit = str
    PressureUnit = str
    ReciprocatingPumpChambers = int
    SolarBalanceMonth = str
    SpecificCapacityUnit = str
    SuctionFeasibilityVerdict = str
    TemperatureUnit = str
    Units = str
    ValveKind = str
    VelocityUnit = str
    VoltageUnit = str
    VolumeUnit = str
    WellRecoveryVerdict = str
    WireGauge = str
    WireMaterial = str
