"""The service against the contract that it publishes: schemathesis, every check, sound and broken requests."""

from pathlib import Path

import schemathesis
from schemathesis.config import SchemathesisConfig

from footvalve.web.application import create_app
from footvalve.web.settings import Settings

CONFIGURATION = Path(__file__).parents[2] / "openapi" / "schemathesis.toml"

contract = schemathesis.openapi.from_asgi(
    "/openapi.json", create_app(Settings()), config=SchemathesisConfig.from_path(CONFIGURATION)
)


@contract.parametrize()
def test_every_answer_keeps_the_contract(case):
    """An answer breaks the contract: read the failure's curl line, then mend the schema or the handler."""
    case.call_and_validate()
