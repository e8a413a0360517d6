"""The contract document that stands in the repository."""

import json
from pathlib import Path

from openapi_spec_validator import OpenAPIV31SpecValidator

from footvalve.web.document import contract_text

FILE = Path(__file__).parents[2] / "openapi" / "footvalve.json"


def test_the_file_is_what_the_code_says():
    assert FILE.read_text(encoding="utf-8") == contract_text(), "run `footvalve contract` and look at the difference"


def test_the_file_is_open_api():
    OpenAPIV31SpecValidator(json.loads(FILE.read_text(encoding="utf-8"))).validate()
