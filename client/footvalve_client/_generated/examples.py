# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.
"""The worked examples of the contract, typed by the endpoint that they ask."""

from typing import Any, Literal, overload

from footvalve_client._answer import AnswerPart
from footvalve_client._examples import Example, recorded
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
from footvalve_client._generated.closed_lists import (
    EndpointName,
)
from footvalve_client._generated.endpoints import ENDPOINTS
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
from footvalve_client._request import RequestPart, kind_of


@overload
def examples(
    endpoint: Literal["battery-runtime"],
) -> tuple[Example[BatteryRuntimeRequest, BatteryRuntimeAnswer], ...]: ...
@overload
def examples(endpoint: Literal["friction"]) -> tuple[Example[FrictionRequest, FrictionAnswer], ...]: ...
@overload
def examples(endpoint: Literal["manifold-check"]) -> tuple[Example[ManifoldCheckRequest, ManifoldCheckAnswer], ...]: ...
@overload
def examples(endpoint: Literal["site-plan"]) -> tuple[Example[SitePlanRequest, SitePlanAnswer], ...]: ...
@overload
def examples(endpoint: Literal["sounding"]) -> tuple[Example[SoundingRequest, SoundingAnswer], ...]: ...
@overload
def examples(
    endpoint: Literal["suction-feasibility"],
) -> tuple[Example[SuctionFeasibilityRequest, SuctionFeasibilityAnswer], ...]: ...
@overload
def examples(endpoint: Literal["tank-cycle"]) -> tuple[Example[TankCycleRequest, TankCycleAnswer], ...]: ...
@overload
def examples(endpoint: Literal["well-recovery"]) -> tuple[Example[WellRecoveryRequest, WellRecoveryAnswer], ...]: ...
@overload
def examples(endpoint: EndpointName) -> tuple[Example[RequestPart, AnswerPart], ...]: ...
def examples(endpoint: str) -> tuple[Example[Any, Any], ...]:
    """The worked examples of an endpoint by its name, such as "friction": questions with their recorded answers.

    Raises ValueError for the name of no endpoint.
    """
    kind_of(endpoint, {name: answer for name, (_, answer) in ENDPOINTS.items()})
    return recorded(endpoint, *ENDPOINTS[endpoint])
