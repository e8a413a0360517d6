"""The figures of `sounding`, in SI, and the answer together with them."""

from collections.abc import Sequence
from statistics import fmean

from footvalve.answers.headline import Headline
from footvalve.answers.reading_scatter import sounding_scatter
from footvalve.answers.shared import Shared
from footvalve.answers.sounding import depth_readings, measured_depths, sounding_answer
from footvalve.answers.sounding_readings import Readings
from footvalve.answers.unit_system import unit_system
from footvalve.contract.sounding import SoundingAnswer, SoundingRequest


def sounding_with_headlines(request: SoundingRequest) -> Shared[SoundingAnswer]:
    """The answer with the function for the headlines of this request and of others near it, and what scatters."""
    return sounded_with_headlines(request, depth_readings(request, unit_system(request.units)))


def sounded_with_headlines(request: SoundingRequest, readings: Readings) -> Shared[SoundingAnswer]:
    """The same of readings that are known already."""

    def headline(other: SoundingRequest) -> Headline:
        return sounded_headline(request, readings.depths) if other is request else sounding_headline(other)

    return Shared(sounding_answer(request, readings), headline, sounding_scatter(request.measurement, "/measurement"))


def sounding_headline(request: SoundingRequest) -> Headline:
    """The depth from the measuring point and from the ground."""
    return sounded_headline(request, measured_depths(request))


def sounded_headline(request: SoundingRequest, depths: Sequence[float]) -> Headline:
    """The same of readings whose depths are known already."""
    depth = fmean(depths)
    return Headline({"/depth_to_water": depth, "/depth_below_ground": depth - request.measuring_point_height.base})
