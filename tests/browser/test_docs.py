"""The contract in the browser: read, and tried with the project's own examples."""

import base64

import pytest
from playwright.sync_api import expect

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples

from .axe import found


@pytest.fixture
def open_docs(new_context, service):
    """Open the page, and note what it asks for."""

    def opened(**settings):
        page = new_context(**settings).new_page()
        asked = []
        page.on("request", lambda request: asked.append(request.url))
        page.add_init_script("addEventListener('securitypolicyviolation', ({ blockedURI }) => { throw blockedURI; })")
        page.goto(f"{service}/docs")
        expect(page.locator(".opblock").first).to_be_visible()
        return page, asked

    return opened


def called(docs):
    """The operation of sounding, answered."""
    operation = docs.locator("#operations-answers-sounding")
    operation.locator(".opblock-summary-control").click()
    operation.get_by_role("button", name="Execute").click()
    expect(operation.locator(".live-responses-table .response-col_status").last).to_contain_text("200")
    return operation


def test_every_endpoint_is_there_and_nothing_is_asked_of_any_other_host(open_docs, service, picture):
    docs, asked = open_docs()
    paths = {path.replace("\u200b", "") for path in docs.locator(".opblock-summary-path").all_inner_texts()}
    assert {f"/v1/{endpoint.name}" for endpoint in ENDPOINTS} <= paths
    assert [url for url in asked if not url.startswith((f"{service}/", "data:"))] == []
    assert f"{service}/openapi.json" in asked
    assert found(docs) == []
    picture(docs, "docs")


def test_a_call_with_the_example_and_a_key_is_answered(open_docs, picture):
    docs, _ = open_docs()
    docs.locator(".scheme-container").get_by_role("button", name="Authorize").click()
    asking = docs.locator(".dialog-ux")
    asking.locator("input").fill("an-invented-key")
    asking.locator("button.authorize").click()
    asking.locator("button.btn-done").click()
    with docs.expect_response("**/v1/sounding") as response:
        operation = called(docs)
    request = response.value.request
    assert request.all_headers()["authorization"] == "Bearer an-invented-key"
    assert request.post_data_json in [example.request for example in examples("sounding")]
    expect(operation.locator(".live-responses-table")).to_contain_text("depth_to_water")
    expect(operation.get_by_role("combobox", name="Example").first).to_be_visible()
    assert docs.evaluate("location.hash") == "#/answers/sounding"
    assert found(docs, ".opblock-section", ".live-responses-table") == []
    picture(docs, "docs-called")


def test_the_contract_is_dark_for_who_wants_it_dark(open_docs, picture):
    """What is painted in the end, where colours are turned about."""
    docs, _ = open_docs(color_scheme="dark")
    called(docs)
    picture(docs, "docs-dark")
    docs.set_viewport_size({"width": 300, "height": 300})
    painted = docs.evaluate(
        """async (picture) => {
            const image = new Image();
            image.src = `data:image/png;base64,${picture}`;
            await image.decode();
            const pen = document.createElement('canvas').getContext('2d');
            pen.drawImage(image, 0, 0, 1, 1);
            return [...pen.getImageData(0, 0, 1, 1).data];
        }""",
        base64.b64encode(docs.screenshot()).decode(),
    )
    assert max(painted[:3]) < 90


def test_the_contract_fits_a_phone(open_docs, picture):
    docs, _ = open_docs(viewport={"width": 320, "height": 640}, is_mobile=True, has_touch=True)
    assert docs.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    picture(docs, "phone-docs")
