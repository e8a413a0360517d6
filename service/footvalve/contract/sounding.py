"""The wire of `sounding`: how far down the water stands, by what was read at the well."""

from typing import Annotated

from msgspec import UNSET, Meta, Struct, UnsetType

from footvalve.contract.answer import Answer
from footvalve.contract.quantities import Duration, Length, Pressure
from footvalve.contract.ranges import Within
from footvalve.contract.request import Contributions, Place, Site, Units

ASSUMED_STONE = Length(25.0, "mm")
"""The stone of whoever does not tell its size: a pebble of about an inch. Common practice, no source."""

_Several = Meta(min_length=1, max_length=100)


class Sounding(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, tag_field="method"):
    """What was read at the well, told apart by `method`."""


class StoneDrop(Sounding, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="stone-drop"):
    """The time from letting a stone go to hearing it strike the water."""

    times: Annotated[
        Annotated[list[Annotated[Duration, Within(0.05, 10.0)]], _Several],
        Meta(description="One time for each stone that was dropped from the measuring point."),
    ]
    stone_diameter: Annotated[
        Length | UnsetType,
        Within(0.002, 0.5),
        Meta(
            description=f"Mean diameter of the stone, taken as rounded; without it {ASSUMED_STONE} is assumed. "
            "The air holds a small stone back more."
        ),
    ] = UNSET
    reaction_delay: Annotated[
        Duration,
        Within(0.0, 2.0),
        Meta(description="How much later than the stroke the watch was stopped; it is taken off every time."),
    ] = Duration(0.0, "s")


class TapePair(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One reading of a chalked tape."""

    held: Annotated[Length, Within(0.01, 1000.0), Meta(description="The tape's mark held at the measuring point.")]
    cut: Annotated[Length, Within(0.0, 1000.0), Meta(description="The length of the tape's end that came up wet.")]


class WettedTape(Sounding, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="wetted-tape"):
    """A chalked steel tape let down into the water."""

    pairs: Annotated[
        Annotated[list[TapePair], _Several], Meta(description="One pair for each time that the tape was let down.")
    ]


class AirLine(Sounding, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="air-line"):
    """The pressure that keeps a tube, open at its lower end, free of water."""

    line_length: Annotated[
        Length, Within(0.1, 1000.0), Meta(description="From the measuring point straight down to the tube's lower end.")
    ]
    pressures: Annotated[
        Annotated[list[Annotated[Pressure, Within(0.0, 1e7)]], _Several],
        Meta(description="The gauge's highest steady reading, one for each time that the tube was blown free."),
    ]


class EchoSounding(Sounding, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="echo"):
    """The time that a sound takes down to the water and back."""

    times: Annotated[
        Annotated[list[Annotated[Duration, Within(0.0001, 6.0)]], _Several],
        Meta(description="Round trips from the measuring point."),
    ]


class DirectSounding(Sounding, frozen=True, forbid_unknown_fields=True, kw_only=True, tag="direct"):
    """Depths as an electric tape or the like shows them."""

    depths: Annotated[
        Annotated[list[Annotated[Length, Within(-100.0, 1000.0)]], _Several],
        Meta(description="Below the measuring point; negative where the water stands above it."),
    ]


Measurement = StoneDrop | WettedTape | AirLine | EchoSounding | DirectSounding


class SoundingQuestion(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Readings at a well by one method."""

    measurement: Annotated[Measurement, Meta(description="What was read, told apart by `method`.")]
    measuring_point_height: Annotated[
        Length,
        Within(-10.0, 10.0),
        Meta(description="Of the point that the readings start from, above the ground; negative in a pit."),
    ] = Length(0.0, "m")


class SoundingRequest(SoundingQuestion, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Readings at a well by one method. `site` matters to those that time something or weigh water."""

    units: Units = "us"
    site: Place = Site()
    contributions: Contributions = False


class RuleOfThumbDepth(Struct, frozen=True, kw_only=True):
    """What the trade's rule of 20 ft for each second makes of the same times, less the delay."""

    depth: Annotated[Length, Meta(description="Mean depth by the rule, below the measuring point.")]
    differs_by: Annotated[
        Length, Meta(description="The rule's depth less `depth_to_water`: positive where the rule is too deep.")
    ]
    errs: Annotated[
        str, Meta(description="On which side the rule errs for the question whether a pump can lift the water.")
    ]


class SoundingAnswer(Answer, frozen=True, kw_only=True):
    """How far down the water stands."""

    depth_to_water: Annotated[
        Length,
        Meta(description="Mean of the readings, below the measuring point; negative where the water stands above it."),
    ]
    depth_below_ground: Annotated[
        Length, Meta(description="The same below the ground at the wellhead; negative where the water stands above.")
    ]
    readings: Annotated[list[Length], Meta(description="The depth by each reading, in the request's order.")]
    spread: Annotated[Length, Meta(description="The greatest reading less the smallest.")]
    rule_of_thumb: Annotated[
        RuleOfThumbDepth | UnsetType, Meta(description="For a stone drop: what the rule of 20 ft a second would say.")
    ] = UNSET
