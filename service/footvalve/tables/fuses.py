"""Ratings that fuses and breakers come in."""

from footvalve.tables.reading import rows

FUSE_RATINGS = tuple(sorted(float(row["rating_A"]) for row in rows("fuses")))
"""A, from the smallest up."""


def fuse_rating(least: float) -> float | None:
    """The smallest rating in A that is not below a current in A; None where none is made so large.

    >>> fuse_rating(13.2), fuse_rating(20.0), fuse_rating(7000.0)
    (15.0, 20.0, None)
    """
    return next((rating for rating in FUSE_RATINGS if rating >= least), None)
