"""Labels in a column, each as near to its own height as the others let it be."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Heights from `low` to `high` that lie at least `gap` apart, in the order of the wanted ones.

    The room must suffice: (number - 1) * gap at the most.

    >>> spread([10.0, 11.0, 50.0], 14.0, 0.0, 100.0)
    [10.0, 24.0, 50.0]
    >>> spread([95.0, 99.0], 14.0, 0.0, 100.0)
    [86.0, 100.0]
    """
    order = sorted(range(len(wanted)), key=wanted.__getitem__)
    found = [0.0] * len(wanted)
    floor = low
    for place in order:
        found[place] = max(wanted[place], floor)
        floor = found[place] + gap
    ceiling = high
    for place in reversed(order):
        found[place] = min(found[place], ceiling)
        ceiling = found[place] - gap
    return found
