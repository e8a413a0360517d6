"""What settings may not be together with how the service is started; each is told in one sentence that names them."""

from footvalve.serving.listener import is_loopback
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings


def check_start(settings: Settings, address: str, workers: int) -> None:
    """Raises BadSetting where the service must not start on this address, or with so many workers."""
    _check_who_may_ask(settings, address)
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
    if settings.keys_file is None and settings.access != "keys":
        return False
    # imported here, as a keeper of workers needs little else of the service
    from footvalve.answers.endpoints import ENDPOINTS  # noqa: PLC0415
    from footvalve.web.access_layer import key_ring  # noqa: PLC0415
    from footvalve.web.key_file import read_keys  # noqa: PLC0415

    endpoints = [endpoint.name for endpoint in ENDPOINTS]
    key_ring(settings, endpoints)
    keys = read_keys(settings.keys_file, None, endpoints) if settings.keys_file else {}
    return any(key.allowance for key in keys.values())
