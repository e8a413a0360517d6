"""How many standard uncertainties make as sure as two of a normal spread, where few readings tell the spread."""

from typing import Final

NORMAL: Final = 2.0
"""Standard uncertainties that 95.45 % of a normal spread lie within."""

_FACTORS: Final = (13.97, 4.53, 3.31, 2.87, 2.65, 2.52, 2.43, 2.37, 2.32, 2.28)
"""Those of Student's t with 1 to 10 degrees of freedom."""

_SECOND: Final = (5.0 * NORMAL**5 + 16.0 * NORMAL**3 + 3.0 * NORMAL) / 96.0
"""The second term of the expansion beyond those."""

_FACTORS_OF_ONE: Final = (1.84, 1.32)
"""The same where one standard uncertainty of a normal spread is meant, with 1 and 2 degrees of freedom: 68.27 %."""


def coverage_factor(freedom: float) -> float:
    """How many standard uncertainties make as sure as `NORMAL` ones do, by the degrees of freedom of the spread.

    These are the readings less what is worked out of them: one less for a mean, two less for a line. Infinite where
    the spread does not come from readings.

    Valid for: 1 degree of freedom and more.
    Source: JCGM 100:2008, Table G.2, 95.45 %; beyond 10 the first terms of Abramowitz & Stegun (1964), equation
    26.7.5, by which the table's last digit is met.

    >>> from math import inf
    >>> coverage_factor(1), coverage_factor(20), coverage_factor(inf)
    (13.97, 2.13, 2.0)
    """
    if freedom <= len(_FACTORS):
        return _FACTORS[round(freedom) - 1]
    return round(NORMAL + (NORMAL**3 + NORMAL) / (4.0 * freedom) + _SECOND / freedom**2, 2)


def factor_of_one(freedom: int) -> float | None:
    """By how much a standard uncertainty of so few readings must be greater to hold as often as it seems to.

    Valid for: 1 and 2 degrees of freedom; None beyond, where it is below a fifth.

    Source: JCGM 100:2008, Table G.2, 68.27 %.
    """
    return _FACTORS_OF_ONE[freedom - 1] if freedom <= len(_FACTORS_OF_ONE) else None
