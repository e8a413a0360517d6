"""What is tried again, how often, and after which wait.

Every answer follows from its question alone, so that a repeat does no harm: whatever may have passed by the next try
is tried again, whether or not the service has heard the last one. What was refused for its content is not, nor what is
the service's own fault, as the same would come back.
"""

import random
import time
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from footvalve_client._errors import FootvalveError, ProblemError, UnreadableAnswer

if TYPE_CHECKING:
    from collections.abc import Mapping

    import tenacity

    from footvalve_client._exchange import Call

PASSING_STATUSES: Final = frozenset({408, 429, 502, 503, 504})
"""Not in whole in time, asked too often, not ready, or a gateway's word for no connection and no answer in time."""

_FIRST_WAIT_SECONDS: Final = 0.2
_LONGEST_WAIT_SECONDS: Final = 5.0
_JITTER_SECONDS: Final = 0.2


def may_repeat(call: "Call[Any]", error: BaseException) -> bool:
    """Whether such a failure may have passed by the next try, and there may be one."""
    if isinstance(error, ProblemError | UnreadableAnswer):
        passing = error.status in PASSING_STATUSES
    else:
        passing = isinstance(error, FootvalveError) and isinstance(error.__cause__, call.library.passing)
    return passing and call.tries <= call.options.max_retries and not call.deadline.over


def rules(call: "Call[Any]") -> dict[str, Any]:
    """What tenacity has to keep to, where its first attempt is the try that has failed already."""
    import tenacity  # noqa: PLC0415  # not needed before something fails

    last = tenacity.stop_after_attempt(1 + call.options.max_retries)
    left = call.deadline.left
    return {
        "retry": tenacity.retry_if_exception(partial(may_repeat, call)),
        "stop": last if left is None else tenacity.stop_any(last, tenacity.stop_before_delay(left)),
        "wait": _wait,
        "reraise": True,
    }


def _wait(state: "tenacity.RetryCallState") -> float:
    """The seconds until the next try: those the service asks for and a little more, or a growing time."""
    import tenacity  # noqa: PLC0415

    error = state.outcome and state.outcome.exception()
    if isinstance(error, ProblemError | UnreadableAnswer) and error.retry_after is not None:
        return error.retry_after + random.uniform(0, _JITTER_SECONDS)
    growing = tenacity.wait_exponential_jitter(
        multiplier=_FIRST_WAIT_SECONDS, max=_LONGEST_WAIT_SECONDS, jitter=_JITTER_SECONDS
    )
    return growing(state)


def retry_after(headers: "Mapping[str, str]") -> float | None:
    """The seconds until a service wants to be asked again; None where it does not say so, or not in a form that counts.

    A date is reckoned from the answer's own, as the clock here may be wrong.
    """
    told = headers.get("retry-after", "").strip()
    if told.isascii() and told.isdigit():
        return float(told)
    until, now = _seconds(told), _seconds(headers.get("date", ""))
    return None if until is None else max(0.0, until - (time.time() if now is None else now))


def _seconds(date: str) -> float | None:
    """The seconds since 1970 of an HTTP date; None for what is none."""
    if not date:
        return None
    from email.utils import parsedate_to_datetime  # noqa: PLC0415  # slow to import, and seldom needed

    try:
        return parsedate_to_datetime(date).timestamp()
    except (ValueError, OverflowError):
        return None
