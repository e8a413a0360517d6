"""What the runbook names is there: metrics, files, kinds of problem, commands."""

import re

import pytest

from footvalve.command import main
from footvalve.web.metrics_catalogue import METRICS
from footvalve.web.problem_types import PROBLEM_TYPES

from .tools import DEPLOY

TEXT = (DEPLOY / "RUNBOOK.md").read_text(encoding="utf-8")
PROJECT = DEPLOY.parent


def metrics_named() -> set[str]:
    """The metrics of the alarms, without what Prometheus puts behind a counter's or a histogram's name."""
    named = set(re.findall(r"\bfootvalve_[a-z_]+", TEXT))
    return {re.sub(r"_(total|bucket|count|sum)$", "", name) for name in named}


def test_every_metric_that_is_named_is_told():
    assert metrics_named() <= METRICS.keys()


def test_counters_are_named_as_prometheus_does():
    for name in re.findall(r"\bfootvalve_[a-z_]+", TEXT):
        kind = METRICS[re.sub(r"_(total|bucket)$", "", name)].kind
        assert name.endswith("_total") == (kind == "counter")
        assert name.endswith("_bucket") == (kind == "histogram")


def test_labels_of_alarms_are_those_of_their_metrics():
    found = re.findall(r"(footvalve_[a-z_]+?)(?:_total|_bucket)?\{([a-z]+)[=~]", TEXT)
    assert len(found) >= 4
    assert all(label in METRICS[name].labels for name, label in found)


def test_everything_that_may_go_wrong_has_an_alarm():
    """But for the numbers that only describe the load."""
    assert METRICS.keys() - metrics_named() <= {"footvalve_batch_items"}


def test_every_kind_of_problem_that_is_named_is_one():
    named = set(re.findall(r'problem="([a-z-]+)"', TEXT))
    assert named
    assert named <= {kind.slug for kind in PROBLEM_TYPES}


def test_every_file_that_is_named_is_there():
    """Globs and the files of other machines apart."""
    named = set(re.findall(r"\bdeploy/[\w./@-]*\w", TEXT)) | {
        f"deploy/{name}" for name in re.findall(r"\]\((\w+\.md)\)", TEXT)
    }
    assert len(named) > 8
    assert [name for name in sorted(named) if not (PROJECT / name).exists()] == []


@pytest.mark.parametrize("command", sorted(set(re.findall(r"`footvalve ([a-z]+)", TEXT))))
def test_every_command_that_is_named_is_one(command, capsys):
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    assert f"footvalve {command}" in capsys.readouterr().out
