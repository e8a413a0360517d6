"""The compose file is one, and lets nobody near what is not theirs."""

from ipaddress import ip_network

import pytest

from footvalve.web.settings import Settings

from .containerfile import final_stage
from .tools import CONTAINER, PROXY, passes, tool, yaml_of

FILE = CONTAINER / "compose.yaml"
COMPOSE = yaml_of(FILE)
SERVICES = COMPOSE["services"]


def seconds(text: str) -> int:
    """A time of the compose file."""
    assert text.endswith("s")
    return int(text[:-1])


def test_it_keeps_the_schema():
    passes(tool("check-jsonschema"), "--builtin-schema", "vendor.compose-spec", str(FILE))


@pytest.mark.parametrize("name", SERVICES)
def test_each_runs_without_rights_and_within_bounds(name):
    service = SERVICES[name]
    assert service["read_only"] is True
    assert service["cap_drop"] == ["ALL"]
    assert service["security_opt"] == ["no-new-privileges:true"]
    assert service["pids_limit"] > 0
    assert service["deploy"]["resources"]["limits"].keys() == {"cpus", "memory"}
    assert "privileged" not in service
    assert "cap_add" not in service
    assert ":" in service["image"]
    assert not service["image"].endswith(":latest")


@pytest.mark.parametrize("name", ["proxy", "valkey"])
def test_each_tells_how_it_is(name):
    assert SERVICES[name]["healthcheck"]["test"]


def test_the_service_tells_how_it_is_by_its_image():
    assert "healthcheck" not in SERVICES["footvalve"]
    assert final_stage()["HEALTHCHECK"]


def test_only_the_proxy_is_reached_from_outside():
    internal = {name for name, network in COMPOSE["networks"].items() if network.get("internal")}
    leading_out = {name for name, service in SERVICES.items() if set(service["networks"]) - internal}
    publishing = {name for name, service in SERVICES.items() if "ports" in service}
    assert leading_out == publishing == {"proxy"}
    assert SERVICES["proxy"]["ports"] == ["127.0.0.1:8080:8080"]


def test_the_counters_are_reached_by_the_service_alone():
    near = {
        name for name, service in SERVICES.items() if set(service["networks"]) & set(SERVICES["valkey"]["networks"])
    }
    assert near == {"valkey", "footvalve"}


def test_the_proxy_alone_is_believed():
    """The trusted network is the one on which the proxy and the service are, and nobody else."""
    trusted = SERVICES["footvalve"]["environment"]["FOOTVALVE_TRUSTED_PROXIES"]
    subnet = COMPOSE["networks"]["service"]["ipam"]["config"][0]["subnet"]
    assert ip_network(trusted) == ip_network(subnet)
    assert {name for name, service in SERVICES.items() if "service" in service["networks"]} == {"proxy", "footvalve"}


def test_each_has_longer_to_stop_than_it_takes():
    settings = Settings.from_environment(SERVICES["footvalve"]["environment"])
    assert seconds(SERVICES["footvalve"]["stop_grace_period"]) > settings.drain_seconds + settings.stop_seconds
    told = (PROXY / "front.cfg").read_text(encoding="utf-8")
    assert "hard-stop-after 60s" in told
    assert seconds(SERVICES["proxy"]["stop_grace_period"]) > 60


def test_the_proxy_finds_the_replicas():
    backend = (PROXY / "backend-container.cfg").read_text(encoding="utf-8")
    line = next(line.split() for line in backend.splitlines() if "server-template" in line)
    assert line[3] == f"footvalve:{final_stage()['EXPOSE']}"
    assert int(line[2]) >= 2 * SERVICES["footvalve"]["deploy"]["replicas"]  # the old ones and the new, in a roll


def test_its_paths_are_there():
    built = SERVICES["footvalve"]["build"]
    assert (CONTAINER / built["context"] / built["dockerfile"]).is_file()
    mounted = SERVICES["proxy"]["volumes"][0].split(":")
    assert (CONTAINER / mounted[0]).resolve() == PROXY
    named = [word for word in SERVICES["proxy"]["command"] if word.startswith(mounted[1])]
    assert [(PROXY / word.removeprefix(mounted[1] + "/")).is_file() for word in named] == [True, True]
