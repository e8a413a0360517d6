"""Whether a decoded body is plainly sound, which is asked of every one: by a function that is made once for each type.

What is not is walked by `ranges.stated_quantities`, which tells where.
"""

from collections.abc import Callable, Iterator
from typing import Any, get_args, get_origin, get_type_hints

from msgspec import UNSET, Struct

from footvalve.contract.quantities import Quantity
from footvalve.contract.ranges import Limits, limits_of, outside_ranges

Check = Callable[[Any], bool]


def is_plainly_sound(body: Struct) -> bool:
    """Whether no quantity of a decoded body lies outside its field's range, and none is uncertain."""
    return _CHECKS[type(body)](body)


def is_inside_ranges(body: Struct) -> bool:
    """Whether no quantity of a decoded body lies outside its field's range, be it uncertain or not."""
    return is_plainly_sound(body) or not any(outside_ranges(body))


class _Checks(dict[type, Check]):
    """The function of each type, made when it is first asked for; what is no Struct holds no quantities."""

    def __missing__(self, kind: type) -> Check:
        self[kind] = check = _made(kind) if issubclass(kind, Struct) else _nothing_in_it
        return check


def _nothing_in_it(_: Any) -> bool:
    return True


_CHECKS = _Checks()


def _made(struct: type[Struct]) -> Check:
    """The function of one type: a line or two for each field that may hold quantities, in place of a loop over them."""
    if issubclass(struct, Quantity):
        return lambda quantity: not quantity.uncertainty
    known: dict[str, Any] = {"UNSET": UNSET, "CHECKS": _CHECKS}
    hints = get_type_hints(struct, include_extras=True)
    lines = ["def check(body):"]
    for name, _, limits in limits_of(struct):
        known[f"limits_of_{name}"] = limits
        lines += _of_field(name, limits, is_list=_may_be_list(hints[name]))
    exec("\n".join([*lines, " return True"]), known)  # of the contract's own names alone
    made: Check = known["check"]
    return made


def _may_be_list(annotation: Any) -> bool:
    return get_origin(annotation) is list or any(map(_may_be_list, get_args(annotation)))


def _of_field(name: str, limits: Limits | None, *, is_list: bool) -> Iterator[str]:
    yield f" value = body.{name}"
    yield " if value is not UNSET:"
    indent = "  "
    if is_list:
        yield "  for value in value:"
        indent = "   "
    if limits is None:
        yield f"{indent}if not CHECKS[type(value)](value): return False"
    else:
        yield f"{indent}low, high, _ = limits_of_{name}[value.unit]"
        yield f"{indent}if not low <= value.value <= high or value.uncertainty: return False"
