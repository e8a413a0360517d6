"""The page of the contract: Swagger UI as its makers released it, from the service and from nowhere else."""

import hashlib
import re

import pytest

SWAGGER_UI = {
    "swagger-ui-bundle.js": "93b7b0862a80e2786f85b560be7693c2344354ffa7e7e224f850a54349724c31",
    "swagger-ui.css": "9e576f8322132c76949da47f9bb53c891373c303ea3a761ff548ffc9de50a98c",
}
"""SHA-256 of the files of swagger-ui-dist 5.31.0, as its makers published them for npm."""


@pytest.mark.parametrize(("name", "digest"), SWAGGER_UI.items())
def test_the_files_are_those_of_the_release(send, name, digest):
    """With another version of the package: compare its files with that release of swagger-ui-dist, then change this."""
    assert hashlib.sha256(send("GET", f"/docs/assets/{name}").content).hexdigest() == digest


def test_the_style_loads_nothing(send):
    loaded = re.findall(r"(?:url\(|@import)\s*['\"]?([^'\")]{0,12})", send("GET", "/docs/assets/swagger-ui.css").text)
    assert all(address.startswith(("data:", "#")) for address in loaded)


def test_the_page_asks_for_the_contract_of_this_service_and_lets_nobody_validate_it(send):
    program = send("GET", "/docs/assets/docs.js").text
    assert "url: '/openapi.json'" in program
    assert "validatorUrl: null" in program
    assert "http" not in program


def test_other_files_of_the_package_are_not_served(send):
    for name in ("index.html", "swagger-initializer.js", "swagger-ui-bundle.js.map", "..%2F..%2F__init__.py"):
        assert send("GET", f"/docs/assets/{name}").status_code == 404


def test_the_index_leads_to_the_pages(send):
    for path in send("GET", "/").json()["pages"]:
        assert send("GET", path).headers["content-type"] == "text/html; charset=utf-8"
