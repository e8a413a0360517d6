"""How an answer tells what is left of an allowance (draft-ietf-httpapi-ratelimit-headers, its form of two fields)."""

from footvalve.web.allowance import Allowance
from footvalve.web.rate_window import Window, left, seconds_until
from footvalve.web.reply import Headers


def rate_headers(policy: str, allowance: Allowance, window: Window) -> Headers:
    """The policy, and what is left of it: so many requests, and the seconds until there is one more.

    >>> rate_headers("anonymous", Allowance(600, 60), Window(0, 1, 59.5))[1]
    (b'ratelimit', b'"anonymous";r=599;t=60')
    """
    remaining = left(allowance, window)
    more = seconds_until(allowance, window, min(remaining + 1, allowance.requests))
    return (
        (b"ratelimit-policy", f'"{policy}";q={allowance.requests};w={allowance.seconds}'.encode()),
        (b"ratelimit", f'"{policy}";r={remaining};t={more}'.encode()),
    )
