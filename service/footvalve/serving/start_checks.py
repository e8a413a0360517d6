"""What settings may not be together with how the service is started; each is told in one sentence that names them."""

from collections.abc import Iterator

from footvalve.contract.fault_wording import cleaned, listed
from footvalve.serving.listener import is_loopback
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings


def check_start(settings: Settings, address: str, workers: int) -> None:
    """Raises BadSetting where the service must not start on this address, or with so many workers."""
    _check_who_may_ask(settings, address)
    check_keys_file(settings)
    keys_are_limited = _check_keys(settings)
    is_limited = keys_are_limited or settings.anonymous_limit is not None or settings.key_limit is not None
    if workers > 1 and not settings.counters_url and is_limited:
        raise BadSetting(
            "FOOTVALVE_COUNTERS_URL must name a Redis or Valkey where several workers share a limit "
            f"(there are {workers}): without it each would count alone. Set it, or start one worker."
        )


def _check_who_may_ask(settings: Settings, address: str) -> None:
    if not is_loopback(address) and settings.access == "auto" and settings.keys_file is None:
        raise BadSetting(
            f"FOOTVALVE_KEYS_FILE must name a file of keys where others can reach the service, as on {address}. "
            "Where everybody shall be free to ask, set FOOTVALVE_ACCESS=open."
        )


def _check_keys(settings: Settings) -> bool:
    """Whether the entry of any key tells a limit. Raises BadSetting where the keys cannot be used."""
    file = settings.named_keys_file
    if file is None:
        return False
    # imported here, as a keeper of workers needs little else of the service
    from footvalve.answers.endpoints import ENDPOINTS  # noqa: PLC0415
    from footvalve.web.key_ring import keys_at_the_start  # noqa: PLC0415

    keys = keys_at_the_start(file, None, [endpoint.name for endpoint in ENDPOINTS])
    return any(key.allowance for key in keys.values())


def check_keys_file(settings: Settings) -> None:
    """Raises BadSetting where there is no such file."""
    if settings.keys_file is not None and not settings.keys_file.is_file():
        raise BadSetting(
            "FOOTVALVE_KEYS_FILE must be the path of a file that is there, "
            f"but it is {cleaned(str(settings.keys_file))!r}."
        )


def doubts(settings: Settings) -> Iterator[str]:
    """What the service can be started with, though whoever has set it will not get what he wants: in sentences."""
    if settings.unknown_variables:
        names = listed(map(cleaned, settings.unknown_variables))
        yield (
            f"the environment holds what is no setting, and nothing reads it: {names}. "
            "`footvalve settings` tells every setting that there is."
        )
    if settings.key_limit is not None and settings.keys_file is None:
        yield "FOOTVALVE_KEY_LIMIT limits nobody, as there are no keys: FOOTVALVE_KEYS_FILE names no file of them."
    if settings.anonymous_limit is not None and settings.needs_a_key:
        yield (
            "FOOTVALVE_ANONYMOUS_LIMIT limits nobody, as whoever has no key is refused: "
            "with FOOTVALVE_ACCESS=open they could ask so much."
        )
