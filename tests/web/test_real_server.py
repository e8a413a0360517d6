"""The real server in a process of its own, over a real socket: what no in-process test can see."""

import json
import socket
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing

import httpx
import pytest
from tests.faults.service_process import serving

from footvalve.contract.examples import examples

JSON = {"content-type": "application/json"}
BODY = json.dumps(examples("friction")[0].request).encode()


@pytest.fixture(scope="module")
def port():
    with serving() as service:
        httpx.get(f"{service.url}/ready", timeout=20)
        yield service.port


def exchanged(port, *pieces, pause=0.0):
    """What comes back over one connection for these pieces, until the server closes it or says no more."""
    received = b""
    with closing(socket.create_connection(("127.0.0.1", port), timeout=10)) as connection:
        for piece in pieces:
            connection.sendall(piece)
            time.sleep(pause)
        connection.settimeout(1.0)
        try:
            while piece := connection.recv(65_536):
                received += piece
        except TimeoutError:
            pass
    return received


def head(method="POST", path="/v1/friction", **headers):
    lines = [
        f"{method} {path} HTTP/1.1",
        "Host: localhost",
        *(f"{k.replace('_', '-')}: {v}" for k, v in headers.items()),
    ]
    return "\r\n".join([*lines, "", ""]).encode()


def test_an_answer_comes_over_the_wire(port):
    response = httpx.post(f"http://127.0.0.1:{port}/v1/friction", json=json.loads(BODY))
    assert response.status_code == 200
    assert response.json()["total_head_loss"]["unit"] == "ft"
    assert "date" in response.headers
    assert "server" not in response.headers


def test_a_body_may_come_octet_by_octet(port):
    request = head(Content_Type="application/json", Content_Length=len(BODY), Connection="close") + BODY
    answer = exchanged(port, *(request[i : i + 1] for i in range(len(request))))
    assert answer.startswith(b"HTTP/1.1 200 ")


def test_two_requests_may_stand_in_line(port):
    request = head(Content_Type="application/json", Content_Length=len(BODY)) + BODY
    assert exchanged(port, request + request).count(b"HTTP/1.1 200 ") == 2


def test_a_client_that_waits_for_leave_to_send_gets_it(port):
    opening = head(Content_Type="application/json", Content_Length=len(BODY), Expect="100-continue", Connection="close")
    answer = exchanged(port, opening, BODY, pause=0.3)
    assert answer.startswith(b"HTTP/1.1 100 Continue")
    assert b"HTTP/1.1 200 " in answer


def test_an_announced_length_beyond_the_limit_is_refused_before_the_body_comes(port):
    answer = exchanged(port, head(Content_Type="application/json", Content_Length=10**9, Expect="100-continue"))
    assert answer.startswith(b"HTTP/1.1 413 ")


def test_chunks_beyond_the_limit_are_refused(port):
    chunk = b"2710\r\n" + b" " * 10_000 + b"\r\n"
    opening = head(Content_Type="application/json", Transfer_Encoding="chunked")
    answer = exchanged(port, opening, *[chunk] * 30, b"0\r\n\r\n")
    assert answer.startswith(b"HTTP/1.1 413 ")
    assert b"application/problem+json" in answer


def test_a_connection_lives_on_after_a_refusal(port):
    with httpx.Client(base_url=f"http://127.0.0.1:{port}") as client:
        statuses = [
            client.post("/v1/friction", content=content, headers={"content-type": "application/json"}).status_code
            for content in (b"{", b"[" * 100_000, b" " * 300_000, BODY)
        ]
    assert statuses == [400, 400, 413, 200]


def test_head_sends_no_body(port):
    answer = exchanged(port, head("HEAD", "/openapi.json", Connection="close"))
    assert answer.startswith(b"HTTP/1.1 200 ")
    assert answer.endswith(b"\r\n\r\n")


def test_a_table_that_is_held_is_not_sent_again(port):
    url = f"http://127.0.0.1:{port}/v1/tables/fittings"
    with httpx.Client() as client:
        tag = client.get(url).headers["etag"]
        unchanged = client.get(url, headers={"if-none-match": f"W/{tag}"})
        assert (unchanged.status_code, unchanged.content, unchanged.headers["etag"]) == (304, b"", tag)
        assert "transfer-encoding" not in unchanged.headers
        assert client.get(url).status_code == 200


def heavy_batch(number):
    """A batch of line curves: each item takes far longer than a request for a sign of life."""
    request = examples("friction")[0].request
    body = request | {"flows": [{"value": 1 + step / 10, "unit": "gal/min"} for step in range(60)]}
    items = [{"id": str(place), "endpoint": "friction", "body": body} for place in range(number)]
    return json.dumps({"items": items}).encode()


def test_signs_of_life_come_while_a_batch_is_worked_out(port):
    """Slices that are too long, or without free turns after them, show here: see pace.py."""
    batch = heavy_batch(1000)
    statuses, waits, answered = [], [], threading.Event()

    def ask():
        try:
            response = httpx.post(f"http://127.0.0.1:{port}/v1/batch", content=batch, headers=JSON, timeout=60)
            statuses.extend(item["status"] for item in response.json()["items"])
        finally:
            answered.set()

    asking = threading.Thread(target=ask)
    asking.start()
    with httpx.Client(base_url=f"http://127.0.0.1:{port}") as client:
        while not answered.wait(0.01):
            start = time.perf_counter()
            assert client.get("/live").status_code == 200
            waits.append(time.perf_counter() - start)
    asking.join()
    assert statuses == [200] * 1000
    assert len(waits) > 10, "the batch is too light to tell anything: give it heavier items"
    assert sorted(waits)[len(waits) * 9 // 10] < 0.1


def test_two_batches_at_once_are_answered_alike(port):
    batch = heavy_batch(50)
    with ThreadPoolExecutor(2) as pool:
        answers = list(
            pool.map(lambda _: httpx.post(f"http://127.0.0.1:{port}/v1/batch", content=batch, headers=JSON), range(4))
        )
    assert [answer.status_code for answer in answers] == [200] * 4
    assert len({answer.content for answer in answers}) == 1


def test_two_workers_answer_and_end_together():
    with serving("--workers", "2") as service:
        processes = {httpx.get(f"{service.url}/live", timeout=20).headers["x-request-id"][:23] for _ in range(60)}
        assert len(processes) == 2
    assert service.process.returncode == 0
