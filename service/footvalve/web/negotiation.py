"""Which of the representations on offer a request accepts (RFC 9110, section 12.5.1)."""

import re
from collections.abc import Iterator, Sequence

JSON = "application/json"
HTML = "text/html"
SVG = "image/svg+xml"
JAVASCRIPT = "text/javascript"
CSS = "text/css"

_WEIGHT = re.compile(r"(?:0(?:\.\d{0,3})?|1(?:\.0{0,3})?)", re.ASCII)


def best_of(offers: Sequence[str], accept: str) -> str | None:
    """The offer that an Accept header likes best, the first of them on a tie; None where it admits none."""
    ranges = tuple(_ranges(accept))
    if not ranges:
        return offers[0]
    weight, _, offer = max((_weight_of(offer, ranges), -place, offer) for place, offer in enumerate(offers))
    return offer if weight > 0 else None


def _ranges(accept: str) -> Iterator[tuple[str, float]]:
    for element in accept.lower().split(","):
        media_range, *parameters = (part.strip() for part in element.split(";"))
        if media_range:
            yield media_range, _weight(parameters)


def _weight(parameters: Sequence[str]) -> float:
    for parameter in parameters:
        name, _, value = parameter.partition("=")
        if name.strip() == "q":
            value = value.strip()
            return float(value) if _WEIGHT.fullmatch(value) else 0.0
    return 1.0


def _weight_of(offer: str, ranges: Sequence[tuple[str, float]]) -> float:
    """The weight that the most specific matching range gives to an offer; 0 where none matches."""
    for candidate in (offer, f"{offer.partition('/')[0]}/*", "*/*"):
        weights = [weight for media_range, weight in ranges if media_range == candidate]
        if weights:
            return max(weights)
    return 0.0
