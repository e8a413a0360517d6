"""The threat model names what shows that each threat is answered: all of it is there."""

import re
from pathlib import Path

import pytest

from footvalve.web.settings import SETTINGS

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "deploy/SECURITY.md").read_text(encoding="utf-8")
NAMED = sorted(set(re.findall(r"`((?:tests|deploy|openapi)/[\w./-]+)`", PAGE)))
STRIDE = set("STRIDE")


@pytest.mark.parametrize("path", NAMED)
def test_what_the_page_names_is_there(path):
    assert (ROOT / path).exists()


def test_each_threat_says_what_shows_it_and_each_kind_has_one():
    rows = [[cell.strip() for cell in row.strip("|").split("|")] for row in PAGE.splitlines() if row.startswith("| ")]
    threats = [row for row in rows if row[0] and set(row[0].split()) <= STRIDE]
    assert len(threats) > 15
    assert {kind for row in threats for kind in row[0].split()} == STRIDE
    assert all(len(row) == 4 and "`" in row[3] for row in threats)


def test_the_settings_that_it_names_are_settings():
    assert set(re.findall(r"FOOTVALVE_[A-Z_]+", PAGE)) <= {setting.variable for setting in SETTINGS}
