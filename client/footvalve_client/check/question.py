"""From a site as a file has it to the question that a service is asked."""

from copy import deepcopy
from typing import Any, NamedTuple

from footvalve_client._coercion import coerced
from footvalve_client._errors import ProblemError, QuantityError
from footvalve_client._generated.endpoints import ENDPOINTS
from footvalve_client.check.exit_codes import CheckFailed, ExitCode
from footvalve_client.check.key_path import key_path, written
from footvalve_client.check.site_file import Site

PLAN = "site-plan"
SUCTION = "suction-feasibility"


class Question(NamedTuple):
    """What is asked of a site, and the site as it was written."""

    endpoint: str
    title: str
    site: Site
    body: Site

    @property
    def path(self) -> str:
        """Of the endpoint."""
        return f"/v1/{self.endpoint}"


def question(site: Site, units: str | None) -> Question:
    """The question about a site. Raises CheckFailed where it is none, or holds texts that are no quantities."""
    asked = {key: value for key, value in site.items() if key != "title"}
    endpoint = _endpoint(asked)
    if units:
        asked["units"] = units
    if endpoint == SUCTION:
        asked.setdefault("limits", True)  # a no is to tell what would make it a yes
    return Question(endpoint, str(site.get("title", "")), site, _held(asked, endpoint, site))


def refused(asked: Question, error: ProblemError) -> CheckFailed:
    """What a service found wrong with the site, in the words of the file."""
    faults = [
        f"{key_path(fault.pointer, asked.site)}{written(fault.pointer, asked.site)}: {fault.detail}"
        for fault in error.faults
    ]
    return _refusal(faults or [f"{error.problem.title}: {error.problem.detail}"])


def _refusal(faults: list[str]) -> CheckFailed:
    return CheckFailed(ExitCode.REFUSED, "\n  ".join(["the site was refused:", *faults]))


def _endpoint(site: Site) -> str:
    match "suction_line" in site, "line" in site:
        case True, False:
            return PLAN
        case False, True:
            return SUCTION
        case True, True:
            raise _refusal(
                ["it has `line` and `suction_line`: the first asks about suction alone, the second for a plan"]
            )
        case _:
            raise _refusal(
                ["it has neither `line`, which asks about suction, nor `suction_line`, which asks for a plan"]
            )


def _held(asked: Site, endpoint: str, site: Site) -> Site:
    """The body with quantities in place of texts; every text that is none is told."""
    left = deepcopy(asked)
    faults: list[str] = []
    while True:
        try:
            body = dict(coerced(left, ENDPOINTS[endpoint][0]))
        except QuantityError as error:
            faults.append(f"{key_path(error.pointer, site)}: {error.detail}")
            _clear(left, error.pointer)
        except TypeError as error:
            raise _refusal([*faults, f"the file holds what no JSON can say: {error}"]) from None
        else:
            break
    if faults:
        raise _refusal(faults)
    return body


def _clear(site: Any, pointer: str) -> None:
    """Put something where the pointer points that nobody takes for a quantity."""
    *way, last = pointer.split("/")[1:]
    for step in way:
        site = site[int(step) if isinstance(site, list) else step]
    site[int(last) if isinstance(site, list) else last] = {}
