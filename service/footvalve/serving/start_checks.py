"""What settings may not be together with how the service is started; each is told in one sentence that names them."""

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.serving.listener import is_loopback
from footvalve.web.access_layer import key_ring
from footvalve.web.key_file import read_keys
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings


def check_start(settings: Settings, address: str, workers: int) -> None:
    """Raises BadSetting where the service must not start on this address, or with so many workers."""
    endpoints = [endpoint.name for endpoint in ENDPOINTS]
    key_ring(settings, endpoints)
    _check_who_may_ask(settings, address)
    if workers > 1 and not settings.counters_url and _limits_anybody(settings, endpoints):
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


def _limits_anybody(settings: Settings, endpoints: list[str]) -> bool:
    if settings.anonymous_limit is not None or settings.key_limit is not None:
        return True
    file = settings.keys_file
    return file is not None and any(key.allowance for key in read_keys(file, None, endpoints).values())
