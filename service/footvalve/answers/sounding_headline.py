"""The figures of `sounding`, in SI."""

from statistics import fmean

from footvalve.answers.headline import Headline
from footvalve.answers.sounding import measured_depths
from footvalve.contract.sounding import SoundingRequest


def sounding_headline(request: SoundingRequest) -> Headline:
    """The depth from the measuring point and from the ground."""
    depth = fmean(measured_depths(request))
    return Headline({"/depth_to_water": depth, "/depth_below_ground": depth - request.measuring_point_height.base})
