"""From the bytes of a body to a question whose answer may be begun: within the limits on lists and on work."""

from typing import Any, NamedTuple

from footvalve.answers.cost import Cost
from footvalve.answers.endpoints import Endpoint
from footvalve.web.body_shape import may_hold_a_list_longer_than, refuse_long_lists
from footvalve.web.settings import Settings
from footvalve.web.strict_decoding import strict_decoder
from footvalve.web.work_limit import refuse_too_much


class Question(NamedTuple):
    """A request that may be answered, and what that costs."""

    request: Any
    cost: Cost


class Intake:
    """Takes in the questions of one endpoint."""

    def __init__(self, endpoint: Endpoint, settings: Settings) -> None:
        self._work = endpoint.work
        self._decode = strict_decoder(endpoint.request, settings.nesting_limit)
        self._list_limit = settings.list_limit
        self._work_limit = settings.work_limit

    def at_once(self, raw: bytes) -> Question | None:
        """The question; None where the body may have faults, to be looked for by `searched`. Raises Declined for what
        is over a limit."""
        request = self._decode.quickly(raw)
        return None if request is None else self._within_limits(request, raw)

    def searched(self, raw: bytes) -> Question:
        """The question, by a walk through the body that takes long for a long one. Raises Declined and Misfit."""
        return self._within_limits(self._decode.slowly(raw), raw)

    def _within_limits(self, request: Any, raw: bytes) -> Question:
        if may_hold_a_list_longer_than(self._list_limit, raw):
            refuse_long_lists(request, self._list_limit)
        cost = self._work(request, all_sure=_tells_no_uncertainty(raw))
        if cost.units > self._work_limit:
            refuse_too_much(cost, self._work_limit)
        return Question(request, cost)


def _tells_no_uncertainty(raw: bytes) -> bool:
    """Whether no input can be uncertain, by the text alone: the word stands nowhere, nor can an escape spell it."""
    return b'"uncertainty"' not in raw and b"\\" not in raw
