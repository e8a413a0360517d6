"""The manifests keep the cluster's schemas, and agree with each other, with the image and with the service."""

from functools import cache
from itertools import chain
from pathlib import Path
from typing import Any

import pytest
import yaml

from footvalve.web.settings import Settings

from .containerfile import command, final_stage
from .tools import KUBERNETES, passes, run, tool, yaml_of

BASE = KUBERNETES / "base"
OVERLAYS = sorted((KUBERNETES / "overlays").iterdir())
BUILT = [BASE, *OVERLAYS]
MADE_ELSEWHERE = {"footvalve-keys", "footvalve-counters"}
"""The Secrets that an operator makes."""

Manifest = dict[str, Any]


@cache
def build(folder: Path) -> str:
    """The manifests that kustomize makes of a folder."""
    return passes(tool("kubectl"), "kustomize", str(folder))


@pytest.fixture(params=BUILT, ids=lambda folder: folder.name)
def manifests(request) -> list[Manifest]:
    """Each way in which the service can be laid out, one after the other."""
    return list(yaml.safe_load_all(build(request.param)))


@pytest.fixture
def pod(manifests) -> Manifest:
    """What the Deployment makes its pods of."""
    return one(manifests, "Deployment")["spec"]["template"]


@pytest.fixture
def container(pod) -> Manifest:
    """The one container of a pod."""
    (only,) = pod["spec"]["containers"]
    return only


def one(manifests: list[Manifest], kind: str) -> Manifest:
    """The only manifest of its kind."""
    (found,) = (manifest for manifest in manifests if manifest["kind"] == kind)
    return found


def settings_of(manifests: list[Manifest]) -> dict[str, str]:
    """What the ConfigMap puts into the environment."""
    return one(manifests, "ConfigMap")["data"]


def selects(labels: Manifest, selector: Manifest) -> bool:
    """Whether a selector finds what has these labels; an empty one would find everything."""
    wanted = selector["matchLabels"]
    return bool(wanted) and wanted.items() <= labels.items()


def test_every_file_is_taken():
    """A manifest that no kustomization names is deployed nowhere."""
    for folder in BUILT:
        told = yaml_of(folder / "kustomization.yaml")
        named = {*told["resources"], *(patch["path"] for patch in told.get("patches", []))}
        beside = {file.name for file in folder.glob("*.yaml")} - {"kustomization.yaml"}
        assert {name for name in named if name.endswith(".yaml")} == beside


def test_each_file_of_the_base_keeps_the_schemas():
    files = sorted(set(BASE.glob("*.yaml")) - {BASE / "kustomization.yaml"})
    said = passes(tool("kubernetes-validate"), "--strict", *map(str, files))
    assert said.count(" passed for resource ") > len(files)


@pytest.mark.parametrize("folder", BUILT, ids=lambda folder: folder.name)
def test_what_is_built_keeps_the_schemas(folder, tmp_path):
    built = tmp_path / "built.yaml"
    built.write_text(build(folder), encoding="utf-8")
    passes(tool("kubernetes-validate"), "--strict", str(built))


def test_the_schemas_refuse_a_misspelt_field(tmp_path):
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text((BASE / "deployment.yaml").read_text(encoding="utf-8").replace("livenessProbe", "liveProbe"))
    assert run(tool("kubernetes-validate"), "--strict", str(wrong)).returncode != 0


def test_selectors_find_the_pods(manifests, pod):
    labels = pod["metadata"]["labels"]
    assert selects(labels, one(manifests, "Deployment")["spec"]["selector"])
    assert selects(labels, {"matchLabels": one(manifests, "Service")["spec"]["selector"]})
    assert selects(labels, one(manifests, "PodDisruptionBudget")["spec"]["selector"])
    policies = [manifest for manifest in manifests if manifest["kind"] == "NetworkPolicy"]
    assert all(selects(labels, policy["spec"]["podSelector"]) for policy in policies)
    spread = pod["spec"]["topologySpreadConstraints"]
    assert all(selects(labels, constraint["labelSelector"]) for constraint in spread)
    assert (len(policies), len(spread)) == (2, 2)


def test_names_that_are_referred_to_exist(manifests, pod, container):
    there = {(manifest["kind"], manifest["metadata"]["name"]) for manifest in manifests}
    target = one(manifests, "HorizontalPodAutoscaler")["spec"]["scaleTargetRef"]
    assert (target["kind"], target["name"]) in there
    assert ("ServiceAccount", pod["spec"]["serviceAccountName"]) in there
    assert [("ConfigMap", source["configMapRef"]["name"]) in there for source in container["envFrom"]] == [True]


def test_secrets_are_only_referred_to(manifests, pod, container):
    assert not any(manifest["kind"] == "Secret" for manifest in manifests)
    mounted = {volume["secret"]["secretName"] for volume in pod["spec"]["volumes"] if "secret" in volume}
    read = {variable["valueFrom"]["secretKeyRef"]["name"] for variable in container.get("env", [])}
    assert mounted | read <= MADE_ELSEWHERE


def test_volumes_and_mounts_are_the_same(pod, container):
    assert {volume["name"] for volume in pod["spec"]["volumes"]} == {m["name"] for m in container["volumeMounts"]}


def test_the_keys_are_where_the_service_looks(manifests, container):
    """A whole folder: into a subPath the cluster never brings a changed Secret."""
    (keys,) = (mount for mount in container["volumeMounts"] if mount["name"] == "keys")
    assert settings_of(manifests)["FOOTVALVE_KEYS_FILE"] == f"{keys['mountPath']}/keys"
    assert "subPath" not in keys


def test_ports_agree(manifests, container):
    ports = {port["name"]: port["containerPort"] for port in container["ports"]}
    told = dict(zip(container["args"][1::2], container["args"][2::2], strict=True))
    assert told["--port"] == str(ports["http"]) == final_stage()["EXPOSE"]
    assert settings_of(manifests)["FOOTVALVE_METRICS_PORT"] == str(ports["metrics"])
    assert {port["targetPort"] for port in one(manifests, "Service")["spec"]["ports"]} == {"http"}
    probes = [container[f"{name}Probe"]["httpGet"] for name in ("startup", "liveness", "readiness")]
    assert [probe["port"] for probe in probes] == ["http"] * 3
    assert [probe["path"] for probe in probes] == ["/live", "/live", "/ready"]
    rules = [manifest["spec"].get("ingress", []) for manifest in manifests if manifest["kind"] == "NetworkPolicy"]
    assert {port["port"] for rule in chain(*rules) for port in rule["ports"]} == ports.keys()


def test_the_metrics_are_told_where_they_are_asked_for(pod, container):
    notes = pod["metadata"]["annotations"]
    ports = {port["name"]: str(port["containerPort"]) for port in container["ports"]}
    assert notes["prometheus.io/port"] == ports["metrics"]


def test_one_worker_a_pod(container):
    assert container["args"][:5] == command()[1:]
    assert container["args"][5:] == ["--workers", "1"]


def test_pods_have_longer_to_stop_than_they_take(manifests, pod):
    told = {name: value for name, value in settings_of(manifests).items() if name.endswith("_SECONDS")}
    settings = Settings.from_environment(told)
    assert pod["spec"]["terminationGracePeriodSeconds"] > settings.drain_seconds + settings.stop_seconds
    assert "lifecycle" not in pod["spec"]["containers"][0]


def test_draining_lasts_until_the_cluster_has_noticed(manifests, container):
    probe = container["readinessProbe"]
    noticed = probe["periodSeconds"] * probe["failureThreshold"]
    assert int(settings_of(manifests)["FOOTVALVE_DRAIN_SECONDS"]) > noticed


def test_pods_have_no_rights(pod, container):
    spec = pod["spec"]
    assert spec["automountServiceAccountToken"] is False
    assert spec["enableServiceLinks"] is False
    assert spec["securityContext"]["runAsNonRoot"] is True
    assert spec["securityContext"]["seccompProfile"] == {"type": "RuntimeDefault"}
    user, group = final_stage()["USER"].split(":")
    assert (spec["securityContext"]["runAsUser"], spec["securityContext"]["runAsGroup"]) == (int(user), int(group))
    assert container["securityContext"] == {
        "allowPrivilegeEscalation": False,
        "privileged": False,
        "readOnlyRootFilesystem": True,
        "capabilities": {"drop": ["ALL"]},
    }
    assert not {"hostNetwork", "hostPID", "hostIPC"} & spec.keys()


def test_pods_are_bounded(container):
    assert container["resources"]["limits"].keys() == container["resources"]["requests"].keys() == {"cpu", "memory"}


def test_the_account_has_no_token(manifests):
    assert one(manifests, "ServiceAccount")["automountServiceAccountToken"] is False


def test_nothing_passes_that_is_not_named(manifests):
    policies = {m["metadata"]["name"]: m["spec"] for m in manifests if m["kind"] == "NetworkPolicy"}
    assert all(set(policy["policyTypes"]) == {"Ingress", "Egress"} for policy in policies.values())
    assert not {"ingress", "egress"} & policies["footvalve-deny"].keys()
    allowed = policies["footvalve"]
    assert all(rule["from"] and rule["ports"] for rule in allowed["ingress"])
    assert all(rule["to"] and rule["ports"] for rule in allowed["egress"])
    assert {port["port"] for rule in allowed["egress"] for port in rule["ports"]} == {53, 6379}


def test_some_pods_always_stay(manifests):
    scaling = one(manifests, "HorizontalPodAutoscaler")["spec"]
    assert one(manifests, "PodDisruptionBudget")["spec"]["maxUnavailable"] < scaling["minReplicas"]
    assert scaling["minReplicas"] < scaling["maxReplicas"]
    assert "replicas" not in one(manifests, "Deployment")["spec"]
    assert one(manifests, "Deployment")["spec"]["strategy"]["rollingUpdate"]["maxUnavailable"] == 0


@pytest.mark.parametrize("overlay", OVERLAYS, ids=lambda folder: folder.name)
def test_an_overlay_changes_what_it_says(overlay):
    manifests = list(yaml.safe_load_all(build(overlay)))
    told = yaml_of(overlay / "kustomization.yaml")
    assert all(m["metadata"].get("namespace") == told["namespace"] for m in manifests if m["kind"] != "Namespace")
    assert one(manifests, "Namespace")["metadata"]["labels"]["pod-security.kubernetes.io/enforce"] == "restricted"
    image = one(manifests, "Deployment")["spec"]["template"]["spec"]["containers"][0]["image"]
    assert image == "{newName}:{newTag}".format(**told["images"][0])
