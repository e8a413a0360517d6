# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
"""The words that the contract lists, each list under its name.

To a type checker they are Literals. At run time they are plain strings and numbers, so that a word which a newer
service has added does not break this client: let the last branch over such words take what it does not know.
"""

from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    AreaUnit: TypeAlias = Literal["mm^2", "cm^2", "in^2"]
    BatteryChemistry: TypeAlias = Literal["flooded", "agm", "gel", "lfp"]
    Chambers: TypeAlias = Literal[1, 2, 3, 4, 5, 6, 7, 9]
    ChargeUnit: TypeAlias = Literal["Ah"]
    CurrentUnit: TypeAlias = Literal["A", "mA"]
    DiagnosisFinding: TypeAlias = Literal["agrees", "lost-air", "overcharged", "switch-differs"]
    DurationUnit: TypeAlias = Literal["s", "min", "h", "d"]
    EndpointName: TypeAlias = Literal[
        "battery-runtime",
        "friction",
        "manifold-check",
        "site-plan",
        "sounding",
        "suction-feasibility",
        "tank-cycle",
        "well-recovery",
    ]
    EnergyUnit: TypeAlias = Literal["Wh", "kWh"]
    FittingKind: TypeAlias = Literal[
        "elbow-90",
        "elbow-90-long-radius",
        "elbow-90-street",
        "elbow-90-push-to-connect",
        "elbow-45",
        "return-bend-180",
        "tee-run",
        "tee-branch",
        "coupling",
        "union",
        "threaded-adapter",
        "insert-coupling",
        "insert-adapter",
        "pitless-adapter",
        "entrance-inward-projecting",
        "entrance-sharp",
        "entrance-rounded",
        "exit",
        "sudden-contraction",
        "sudden-enlargement",
    ]
    FittingRowKind: TypeAlias = Literal["equivalent-length-ratio", "resistance-coefficient", "bore-change"]
    FlowResistanceBasis: TypeAlias = Literal["Cv", "Kv"]
    FlowUnit: TypeAlias = Literal["L/s", "L/min", "m^3/h", "gal/min", "gal/h"]
    FrictionMethod: TypeAlias = Literal["darcy-weisbach", "hazen-williams"]
    HealthCounters: TypeAlias = Literal["together", "alone"]
    HealthKeys: TypeAlias = Literal["current", "outdated"]
    HealthStatus: TypeAlias = Literal["live", "ready"]
    LengthUnit: TypeAlias = Literal["m", "cm", "mm", "ft", "in"]
    ManifoldCheckVerdict: TypeAlias = Literal["right", "doubtful", "wrong"]
    ManifoldFindingCode: TypeAlias = Literal[
        "no-path",
        "nothing-delivers",
        "check-turned-about",
        "check-missing",
        "recirculation",
        "deadhead",
        "starved-inlet",
        "two-pumps-running",
        "no-relief-on-tank",
        "drain-back",
        "loses-prime",
        "air-entry",
        "vessel-on-suction-side",
        "pump-pressurizes-pump",
        "unreachable",
        "not-isolatable",
    ]
    Nominal: TypeAlias = Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"]
    Outcome: TypeAlias = Literal["cycles", "stays-off", "runs-on"]
    PartLossRegime: TypeAlias = Literal["laminar", "transitional", "turbulent"]
    PipeSizeProduct: TypeAlias = Literal[
        "pvc-sch-40",
        "pvc-sch-80",
        "pe-sidr-7",
        "pe-sidr-9",
        "pe-sidr-11.5",
        "pe-sidr-15",
        "pe-sidr-19",
        "pe-cts-dr-9",
        "pe-ips-dr-7",
        "pe-ips-dr-9",
        "pe-ips-dr-11",
        "pe-ips-dr-13.5",
        "pex-sdr-9",
        "copper-k",
        "copper-l",
        "copper-m",
        "steel-galvanized-sch-40",
    ]
    PowerUnit: TypeAlias = Literal["W", "kW", "hp"]
    PressureUnit: TypeAlias = Literal["Pa", "kPa", "bar", "psi", "ftH2O", "mH2O"]
    ResistanceUnit: TypeAlias = Literal["ohm", "mohm"]
    Severity: TypeAlias = Literal["note", "warning", "danger"]
    ShareEffect: TypeAlias = Literal["raises", "lowers"]
    ShareKind: TypeAlias = Literal["stated", "scatter"]
    SolarBalanceMonth: TypeAlias = Literal[
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
        "every",
    ]
    SpecificCapacityUnit: TypeAlias = Literal["gal/min/ft", "L/s/m"]
    SuctionFeasibilityLimitsAtRangeEnd: TypeAlias = Literal[
        "greatest_flow", "greatest_depth_to_water", "greatest_altitude"
    ]
    TableName: TypeAlias = Literal["pipes", "fittings", "valves", "wires", "chemistries", "cautions", "units"]
    TemperatureUnit: TypeAlias = Literal["degC", "degF", "K"]
    Units: TypeAlias = Literal["us", "metric"]
    ValveKind: TypeAlias = Literal[
        "gate",
        "ball",
        "globe",
        "globe-y-pattern",
        "angle",
        "plug",
        "butterfly",
        "swing-check",
        "swing-check-straight",
        "lift-check",
        "lift-check-angle",
        "spring-check",
        "foot-valve-poppet",
        "foot-valve-hinged",
    ]
    VelocityUnit: TypeAlias = Literal["m/s", "ft/s"]
    Verdict: TypeAlias = Literal["feasible", "marginal", "infeasible"]
    VoltageUnit: TypeAlias = Literal["V", "mV"]
    VolumeUnit: TypeAlias = Literal["L", "m^3", "gal"]
    WellRecoveryVerdict: TypeAlias = Literal["sustains", "storage-limited", "dry"]
    WireGauge: TypeAlias = Literal["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0"]
    WireMaterial: TypeAlias = Literal["copper", "aluminum"]
    WireRowSystem: TypeAlias = Literal["awg", "metric"]
else:
    AreaUnit = str
    BatteryChemistry = str
    Chambers = int
    ChargeUnit = str
    CurrentUnit = str
    DiagnosisFinding = str
    DurationUnit = str
    EndpointName = str
    EnergyUnit = str
    FittingKind = str
    FittingRowKind = str
    FlowResistanceBasis = str
    FlowUnit = str
    FrictionMethod = str
    HealthCounters = str
    HealthKeys = str
    HealthStatus = str
    LengthUnit = str
    ManifoldCheckVerdict = str
    ManifoldFindingCode = str
    Nominal = str
    Outcome = str
    PartLossRegime = str
    PipeSizeProduct = str
    PowerUnit = str
    PressureUnit = str
    ResistanceUnit = str
    Severity = str
    ShareEffect = str
    ShareKind = str
    SolarBalanceMonth = str
    SpecificCapacityUnit = str
    SuctionFeasibilityLimitsAtRangeEnd = str
    TableName = str
    TemperatureUnit = str
    Units = str
    ValveKind = str
    VelocityUnit = str
    Verdict = str
    VoltageUnit = str
    VolumeUnit = str
    WellRecoveryVerdict = str
    WireGauge = str
    WireMaterial = str
    WireRowSystem = str
