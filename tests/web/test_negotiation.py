"""Which representation an Accept header gets (RFC 9110, section 12.5.1)."""

import pytest

from footvalve.web.negotiation import HTML, JSON, best_of


@pytest.mark.parametrize(
    ("accept", "best"),
    [
        ("", HTML),
        ("*/*", HTML),
        ("application/json", JSON),
        ("text/html;q=0.2, application/json;q=0.3", JSON),
        ("text/*;q=0.5, application/json;q=0.5", HTML),
        ("text/html;q=0, */*", JSON),
        ("text/*, text/html;q=0.1, application/json;q=0.5", JSON),
        ("Text/HTML ; Q=0.9 , application/json ; q=1.0", JSON),
        ("text/html;level=1", HTML),
        ("image/png, */*;q=0.001", HTML),
        ("image/png", None),
        ("text/html;q=0, application/json;q=0.000", None),
        ("text/html;q=2", None),
        ("text/html;q=nan", None),
        (",,;;", HTML),
    ],
)
def test_the_best_offer(accept, best):
    assert best_of((HTML, JSON), accept) == best
