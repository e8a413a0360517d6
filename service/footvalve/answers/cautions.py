"""The cautions that an answer carries, by their codes in the table."""

from collections.abc import Iterable
from functools import cache

from footvalve.contract.answer import Caution
from footvalve.contract.request import Site
from footvalve.tables.cautions import caution_row


@cache
def _caution(code: str) -> Caution:
    row = caution_row(code)
    return Caution(row.code, row.severity, row.text)


def cautions(codes: Iterable[str]) -> list[Caution]:
    """The cautions of these codes, each once, in the order given; that local code decides closes every list."""
    return [_caution(code) for code in dict.fromkeys((*codes, "local-code"))]


FREEZING = 273.15
"""K, of water. Source: NIST SP 811 (2008), 4.2.1.1."""


LEAST_RISE = 0.001
"""In m: water that stands above a point by less stands at it, as well as anyone reads."""


def flowing_codes(depth: float) -> tuple[str, ...]:
    """The code of the caution about a flowing well, where the water at rest stands above the point that a depth in m
    is told from."""
    return ("flowing-well",) if depth < -LEAST_RISE else ()


def frost_codes(site: Site) -> tuple[str, ...]:
    """The code of the caution about frost, where the site's air can freeze the water."""
    return ("frost",) if site.air_temperature.base <= FREEZING else ()
