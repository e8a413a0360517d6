"""How deep the water stands by the time from letting a stone go to hearing it strike.

The stone falls from rest against the drag of the air, and the sound needs time to come back up.
"""

from math import exp, expm1, inf, log, log1p, sinh, sqrt, tanh

from footvalve.physics.method import Method, OutsideDomain, Range
from footvalve.physics.si import (
    STANDARD_GRAVITY,
    KilogramsPerCubicMetre,
    Metres,
    MetresPerSecond,
    Number,
    Seconds,
)

STONE_DROP = Method(
    name="Stone drop: fall from rest with quadratic drag, and the sound's way back",
    source="J. R. Taylor, Classical Mechanics (2005), section 2.4, quadratic drag; the sound's time added",
    ranges=(
        Range("time", 0.05, 10.0, "s"),
        Range("terminal_speed", 10.0, 200.0, "m/s"),
        Range("speed_of_sound", 300.0, 370.0, "m/s"),
    ),
    note="still air of one temperature; ranges: own choice",
)

TERMINAL_SPEED = Method(
    name="Terminal speed of a sphere with a constant drag coefficient",
    source="Balance of weight, buoyancy and drag; coefficients: Hoerner (1965), Ferguson & Church (2004)",
    ranges=(
        Range("stone_diameter", 0.005, 0.3, "m"),
        Range("stone_density", 2000.0, 3300.0, "kg/m^3"),
        Range("drag_coefficient", 0.4, 1.1),
    ),
    note="ranges: own choice; against a drag that follows the Reynolds number the depth is off by 2 % at most to 2 s, "
    "by 7 % at 10 s",
)

RULE_OF_THUMB = Method(
    name="Rule of thumb: 20 ft for each second",
    source="common practice, no source",
    note="right only where it crosses the true depth, from 1.2 to 1.4 s: too deep before, not deep enough after; no "
    "other step rests on it",
)

DRAG_COEFFICIENT: Number = 0.47
"""Of a sphere at Reynolds numbers from 1e4 to 1e5. Source: S. F. Hoerner, Fluid-Dynamic Drag (1965), ch. 3.

It stands for a rounded stone. Natural grains have about 1.0 (R. I. Ferguson & M. Church, A simple universal
equation for grain settling velocity, Journal of Sedimentary Research 74, 2004, 933-937). The sphere's makes
the water deeper, the careful side for a suction lift: by 0.14 m for a stone of 25 mm heard after 1.3 s.
"""

STONE_DENSITY: KilogramsPerCubicMetre = 2670.0
"""Usual mean of the upper crust's rocks. Source: S. B. Smithson, Geophysics 36 (1971), 690-694, abstract."""

RULE_OF_THUMB_SPEED: MetresPerSecond = 20 * 0.3048
"""20 ft/s. Common practice, no source."""

_SENSIBLE = {
    domain.quantity: domain
    for domain in (
        Range("time", 0.0, 60.0, "s"),
        Range("depth", 0.0, 2.0e4, "m"),
        Range("terminal_speed", 0.1, 1.0e6, "m/s"),
        Range("speed_of_sound", 10.0, 1.0e4, "m/s"),
        Range("stone_diameter", 1.0e-4, 10.0, "m"),
        Range("stone_density", 10.0, 2.5e4, "kg/m^3"),
        Range("air_density", 1.0e-3, 9.0, "kg/m^3"),
        Range("drag_coefficient", 1.0e-3, 10.0),
    )
}
"""What can be meant at all, far wider than the methods' ranges: a minute's fall is deeper than any hole."""


def _require(**quantities: float) -> None:
    for name, value in quantities.items():
        sensible = _SENSIBLE[name]
        if not sensible.low <= value <= sensible.high:
            raise OutsideDomain(f"{value:g} is outside what can be meant: {sensible}")


def terminal_speed(
    *,
    stone_diameter: Metres,
    stone_density: KilogramsPerCubicMetre = STONE_DENSITY,
    air_density: KilogramsPerCubicMetre,
    drag_coefficient: Number = DRAG_COEFFICIENT,
) -> MetresPerSecond:
    """Speed at which drag carries a falling sphere's weight, less its buoyancy.

        v_t = sqrt[4 g D (rho_s - rho_a) / (3 C_D rho_a)]

    Valid for: 5 to 300 mm. Against a smooth sphere's coefficient that follows the Reynolds number, this constant
    one moves the sounded depth by less than 0.6 % for 20 mm and more to 3 s, by 2 % for 5 mm to 2 s, and by up
    to 7 % at 10 s.
    Source: balance of weight, buoyancy and drag on a sphere; the coefficient's sources stand beside it.
    Raises: OutsideDomain for a size, density or coefficient that no stone and no air can have.

    >>> round(terminal_speed(stone_diameter=0.02, air_density=1.225), 1)
    34.8
    """
    _require(
        stone_diameter=stone_diameter,
        stone_density=stone_density,
        air_density=air_density,
        drag_coefficient=drag_coefficient,
    )
    weight = 4.0 * STANDARD_GRAVITY * stone_diameter * (stone_density - air_density)
    return sqrt(weight / (3.0 * drag_coefficient * air_density))


def _log_cosh(x: float) -> float:
    # Each form keeps all digits on its side: the first overflows above, the second cancels below.
    if x < 1.0:
        return 0.5 * log1p(sinh(x) ** 2)
    return x + log1p(exp(-2.0 * x)) - log(2.0)


def depth_of_fall(*, time: Seconds, terminal_speed: MetresPerSecond) -> Metres:
    """Depth that a stone falls from rest in a time, against quadratic drag.

        d = (v_t^2 / g) ln cosh(g t / v_t)

    Valid for: any time; a constant drag coefficient. Buoyancy in the acceleration is left out (0.05 % of g).
    Source: J. R. Taylor, Classical Mechanics (2005), section 2.4.
    Raises: OutsideDomain for a negative time, or a time or speed that no fall in a well can have.

    >>> round(depth_of_fall(time=1.45416, terminal_speed=30.0), 3)
    10.0
    """
    _require(time=time, terminal_speed=terminal_speed)
    return _fallen(time, terminal_speed)


def _fallen(time: Seconds, terminal_speed: MetresPerSecond) -> Metres:
    return terminal_speed**2 / STANDARD_GRAVITY * _log_cosh(STANDARD_GRAVITY * time / terminal_speed)


def fall_time(*, depth: Metres, terminal_speed: MetresPerSecond) -> Seconds:
    """Time that a stone takes to fall to a depth from rest, against quadratic drag.

        t = (v_t / g) arcosh(exp(g d / v_t^2))

    Valid for: as `depth_of_fall`, whose inverse it is.
    Source: J. R. Taylor, Classical Mechanics (2005), section 2.4, solved for time.
    Raises: OutsideDomain for a negative depth, or a depth or speed that no fall in a well can have.

    >>> round(fall_time(depth=10.0, terminal_speed=30.0), 5)
    1.45416
    """
    _require(depth=depth, terminal_speed=terminal_speed)
    exponent = STANDARD_GRAVITY * depth / terminal_speed**2
    # arcosh(e^x) written out: e^x overflows for a deep fall, and has no digits left for a shallow one.
    return terminal_speed / STANDARD_GRAVITY * (exponent + log1p(sqrt(-expm1(-2.0 * exponent))))


def sounding_time(*, depth: Metres, terminal_speed: MetresPerSecond, speed_of_sound: MetresPerSecond) -> Seconds:
    """Time from letting a stone go to hearing it strike water at a depth.

        T = t_fall(d) + d / c

    Valid for: as `depth_of_fall`, in still air of one temperature.
    Source: J. R. Taylor, Classical Mechanics (2005), section 2.4; the sound's time added.
    Raises: OutsideDomain as `fall_time`, and for a speed that sound in air cannot have.

    >>> round(sounding_time(depth=10.0, terminal_speed=30.0, speed_of_sound=340.29), 5)
    1.48354
    """
    _require(speed_of_sound=speed_of_sound)
    return fall_time(depth=depth, terminal_speed=terminal_speed) + depth / speed_of_sound


def stone_drop_depth(*, time: Seconds, terminal_speed: MetresPerSecond, speed_of_sound: MetresPerSecond) -> Metres:
    """Depth to the water by the time from letting a stone go to hearing it strike.

        t + (v_t^2 / (g c)) ln cosh(g t / v_t) = T,    d = c (T - t)

    solved for the time of fall t by Newton's method from the time without drag.

    Valid for: 0.05 to 10 s, stones of 5 to 300 mm, still air of one temperature.
    Source: J. R. Taylor, Classical Mechanics (2005), section 2.4; the sound's time added.
    Raises: OutsideDomain as `depth_of_fall`, and for a speed that sound in air cannot have.

    >>> round(stone_drop_depth(time=1.48355, terminal_speed=30.0, speed_of_sound=340.29), 3)
    10.0
    """
    _require(time=time, terminal_speed=terminal_speed, speed_of_sound=speed_of_sound)
    falling = _fall_time_without_drag(time, speed_of_sound)
    # The left side rises and curves upward in t: after the first, Newton's steps run down onto the root from
    # above, and need no bracket.
    step = inf
    while abs(step) > 1e-12 * time:
        depth = _fallen(falling, terminal_speed)
        speed = terminal_speed * tanh(STANDARD_GRAVITY * falling / terminal_speed)
        step = (falling + depth / speed_of_sound - time) / (1.0 + speed / speed_of_sound)
        falling -= step
    return _fallen(falling, terminal_speed)


def _fall_time_without_drag(time: Seconds, speed_of_sound: MetresPerSecond) -> Seconds:
    # The root of t + g t^2 / (2 c) = T, in the form that does not subtract nearly equal numbers.
    return 2.0 * time / (1.0 + sqrt(1.0 + 2.0 * STANDARD_GRAVITY * time / speed_of_sound))


def no_drag_depth(*, time: Seconds, speed_of_sound: MetresPerSecond) -> Metres:
    """Depth to the water by a dropped stone whose drag is left out, but not the sound's way back.

        d = [sqrt(c^2 + 2 g c T) - c]^2 / (2 g)

    Valid for: heavy stones and shallow wells; elsewhere too deep.
    Source: OpenStax, College Physics, chapter 2, problem 55 (rock dropped into a well).
    Raises: OutsideDomain for a negative or endless time, or a speed that sound in air cannot have.

    >>> round(no_drag_depth(time=1.3, speed_of_sound=340.28), 3)
    7.99
    """
    _require(time=time, speed_of_sound=speed_of_sound)
    return STANDARD_GRAVITY / 2.0 * _fall_time_without_drag(time, speed_of_sound) ** 2


def depth_without_sound(*, time: Seconds) -> Metres:
    """Depth by a dropped stone when drag and the sound's way back are both left out.

        d = g T^2 / 2

    Valid for: showing what the two corrections are worth; always too deep.
    Source: OpenStax, College Physics, chapter 2, problem 55 (rock dropped into a well).
    Raises: OutsideDomain for a negative or endless time.

    >>> round(depth_without_sound(time=2.0), 1)
    19.6
    """
    _require(time=time)
    return STANDARD_GRAVITY * time**2 / 2.0


def rule_of_thumb_depth(*, time: Seconds) -> Metres:
    """Depth by the trade's rule of 20 ft for each second.

        d = 20 ft/s * T

    Valid for: about 1.3 s, where it crosses the true depth; too deep for shorter times, not deep enough for
    longer ones.
    Source: common practice, no source.
    Raises: OutsideDomain for a negative or endless time.

    >>> round(rule_of_thumb_depth(time=1.0), 3)
    6.096
    """
    _require(time=time)
    return RULE_OF_THUMB_SPEED * time
