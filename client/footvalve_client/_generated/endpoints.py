# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
"""What each endpoint that a batch may ask takes and answers."""

from typing import Final

from footvalve_client._answer import AnswerPart
from footvalve_client._generated.answers import (
    BatteryRuntimeAnswer,
    FrictionAnswer,
    ManifoldCheckAnswer,
    SitePlanAnswer,
    SoundingAnswer,
    SuctionFeasibilityAnswer,
    TankCycleAnswer,
    WellRecoveryAnswer,
)
from footvalve_client._generated.requests import (
    BatteryRuntimeRequest,
    FrictionRequest,
    ManifoldCheckRequest,
    SitePlanRequest,
    SoundingRequest,
    SuctionFeasibilityRequest,
    TankCycleRequest,
    WellRecoveryRequest,
)
from footvalve_client._request import RequestPart

ENDPOINTS: Final[dict[str, tuple[type[RequestPart], type[AnswerPart]]]] = {
    "battery-runtime": (BatteryRuntimeRequest, BatteryRuntimeAnswer),
    "friction": (FrictionRequest, FrictionAnswer),
    "manifold-check": (ManifoldCheckRequest, ManifoldCheckAnswer),
    "site-plan": (SitePlanRequest, SitePlanAnswer),
    "sounding": (SoundingRequest, SoundingAnswer),
    "suction-feasibility": (SuctionFeasibilityRequest, SuctionFeasibilityAnswer),
    "tank-cycle": (TankCycleRequest, TankCycleAnswer),
    "well-recovery": (WellRecoveryRequest, WellRecoveryAnswer),
}
"""The Structs of request and answer, by the endpoint's name."""
