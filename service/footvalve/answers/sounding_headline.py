"""The figures of `sounding`, in SI."""

from statistics import fmean

from footvalve.answers.headline import Headline
from footvalve.answers.sounding import depth_below_ground, depth_readings
from footvalve.answers.unit_system import unit_system
from footvalve.contract.sounding import SoundingRequest


def sounding_headline(request: SoundingRequest) -> Headline:
    """The depth from the measuring point and from the ground."""
    readings = depth_readings(request, unit_system(request.units))
    return Headline(
        {
            "/depth_to_water": fmean(readings.depths),
            "/depth_below_ground": depth_below_ground(request, readings),
        }
    )
