"""What a connection is told by the server itself."""

import json

from footvalve.serving.refusal import refusal
from footvalve.web import problem_types as kinds


def test_a_refusal_is_a_whole_answer_with_the_callers_id():
    scope = {"method": "POST", "headers": [(b"x-request-id", b"mine-1")], "state": {}}
    head, _, body = refusal(kinds.CLOSING_DOWN, "No time.", scope).partition(b"\r\n\r\n")
    problem = json.loads(body)
    assert head.startswith(b"HTTP/1.1 503 Service Unavailable\r\ndate: ")
    assert b"\r\nretry-after: 1\r\n" in head
    assert head.endswith(b"\r\nx-request-id: mine-1\r\nconnection: close")
    assert (problem["request_id"], problem["detail"], problem["type"]) == (
        "mine-1",
        "No time.",
        "/problems/closing-down",
    )


def test_who_asked_by_head_is_told_the_length_alone():
    answer = refusal(kinds.REQUEST_TIMEOUT, "Late.", {"method": "HEAD", "headers": [], "state": {}})
    assert answer.endswith(b"\r\n\r\n")
    assert b"content-length: 0" not in answer
