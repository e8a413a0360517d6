"""The real server in a process of its own, over a real socket: what no in-process test can see."""

import json
import socket
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing

import httpx
import pytest
from tests.faults.raw_caller import one_answer
from tests.faults.service_process import PATIENCE_S, serving, until

from footvalve.contract.examples import examples

JSON = {"content-type": "application/json"}
BODY = json.dumps(examples("friction")[0].request).encode()


@pytest.fixture(scope="module")
def port():
    with serving() as service:
        httpx.get(f"{service.url}/ready", timeout=PATIENCE_S)
        yield service.port


def exchanged(port, *pieces):
    """What comes back over one connection for these pieces, until the server closes it."""
    with closing(socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)) as connection:
        for piece in pieces:
            connection.sendall(piece)
        return rest_of(connection)


def first_answer(port, *pieces):
    """The head and the body of the first answer; the server keeps the connection for what is still to come."""
    with closing(socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)) as connection:
        for piece in pieces:
            connection.sendall(piece)
        return one_answer(connection)


def rest_of(connection):
    received = b""
    while piece := connection.recv(65_536):
        received += piece
    return received


def head(method="POST", path="/v1/friction", **headers):
    lines = [
        f"{method} {path} HTTP/1.1",
        "Host: localhost",
        *(f"{k.replace('_', '-')}: {v}" for k, v in headers.items()),
    ]
    return "\r\n".join([*lines, "", ""]).encode()


def test_an_answer_comes_over_the_wire(port):
    response = httpx.post(f"http://127.0.0.1:{port}/v1/friction", json=json.loads(BODY), timeout=PATIENCE_S)
    assert response.status_code == 200
    assert response.json()["total_head_loss"]["unit"] == "ft"
    assert "date" in response.headers
    assert "server" not in response.headers


def test_a_body_may_come_octet_by_octet(port):
    request = head(Content_Type="application/json", Content_Length=len(BODY), Connection="close") + BODY
    answer = exchanged(port, *(request[i : i + 1] for i in range(len(request))))
    assert answer.startswith(b"HTTP/1.1 200 ")


def test_two_requests_may_stand_in_line(port):
    first, last = (
        head(Content_Type="application/json", Content_Length=len(BODY), **more) + BODY
        for more in ({}, {"Connection": "close"})
    )
    assert exchanged(port, first + last).count(b"HTTP/1.1 200 ") == 2


def test_a_client_that_waits_for_leave_to_send_gets_it(port):
    opening = head(Content_Type="application/json", Content_Length=len(BODY), Expect="100-continue", Connection="close")
    with closing(socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)) as connection:
        connection.sendall(opening)
        leave = connection.recv(65_536)
        connection.sendall(BODY)
        answer = rest_of(connection)
    assert leave.startswith(b"HTTP/1.1 100 Continue")
    assert b"HTTP/1.1 200 " in answer


def test_an_announced_length_beyond_the_limit_is_refused_before_the_body_comes(port):
    opening = head(Content_Type="application/json", Content_Length=10**9, Expect="100-continue")
    assert first_answer(port, opening)[0].startswith(b"HTTP/1.1 413 ")


def test_chunks_beyond_the_limit_are_refused(port):
    chunk = b"2710\r\n" + b" " * 10_000 + b"\r\n"
    opening = head(Content_Type="application/json", Transfer_Encoding="chunked")
    answer, _ = first_answer(port, opening, *[chunk] * 30, b"0\r\n\r\n")
    assert answer.startswith(b"HTTP/1.1 413 ")
    assert b"application/problem+json" in answer


def test_a_connection_lives_on_after_a_refusal(port):
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=PATIENCE_S) as client:
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
    with httpx.Client(timeout=PATIENCE_S) as client:
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
    """Slices that are too long, or without free turns after them, show here: see pace.py. A sign of life waits for a
    few of a thousand items, and never for a tenth of them."""
    batch = heavy_batch(1000)
    statuses, waits, answered = [], [], threading.Event()

    def ask():
        try:
            response = httpx.post(f"http://127.0.0.1:{port}/v1/batch", content=batch, headers=JSON, timeout=PATIENCE_S)
            statuses.extend(item["status"] for item in response.json()["items"])
        finally:
            answered.set()

    begin = time.perf_counter()
    asking = threading.Thread(target=ask)
    asking.start()
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", timeout=PATIENCE_S) as client:
        while not answered.wait(0.01):
            start = time.perf_counter()
            assert client.get("/live").status_code == 200
            waits.append(time.perf_counter() - start)
    asking.join()
    assert statuses == [200] * 1000
    assert len(waits) > 10, "the batch is too light to tell anything: give it heavier items"
    assert sorted(waits)[len(waits) * 9 // 10] < (time.perf_counter() - begin) / 10


def test_two_batches_at_once_are_answered_alike(port):
    batch, url = heavy_batch(50), f"http://127.0.0.1:{port}/v1/batch"
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda _: httpx.post(url, content=batch, headers=JSON, timeout=PATIENCE_S), range(4)))
    assert [answer.status_code for answer in answers] == [200] * 4
    assert len({answer.content for answer in answers}) == 1


def test_two_workers_answer_and_end_together():
    with serving("--workers", "2") as service:
        processes = set()
        until(lambda: processes.add(process_of(service)) or len(processes) == 2, "both have answered")
    assert service.process.returncode == 0


def process_of(service):
    """What tells the process that has answered from the others: the beginning of the ids that it gives."""
    return httpx.get(f"{service.url}/live", timeout=PATIENCE_S).headers["x-request-id"][:23]
