"""Which bore a part has that does not tell its own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footvalve.answers.line_bores import neighbours, spread_bores

bores = st.lists(st.one_of(st.none(), st.floats(0.01, 0.1)), min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("own", "pipes", "spread"),
    [
        ([None, 3, None, 2, None], [None, 3, None, 2, None], [3, 3, 3, 2, 2]),
        ([None, None, 3], [None, None, 3], [3, 3, 3]),
        ([3, 5, None], [3, None, None], [3, 5, 3]),
        ([None, 5, None], [None, None, None], [None, 5, None]),
    ],
    ids=[
        "of the pipe before",
        "at the start of the next pipe",
        "a fitting's own stays its own",
        "of no pipe, none",
    ],
)
def test_a_part_has_the_bore_of(own, pipes, spread):
    assert spread_bores(own, pipes) == spread


@given(bores)
def test_every_part_of_a_line_with_a_pipe_has_a_bore(pipes):
    spread = spread_bores(pipes, pipes)
    assert all(bore is not None for bore in spread) == any(bore is not None for bore in pipes)
    assert {bore for bore in spread if bore} == {bore for bore in pipes if bore}


@given(bores, st.data())
def test_the_neighbours_are_the_nearest_pipes(pipes, data):
    index = data.draw(st.integers(0, len(pipes) - 1))
    before, after = neighbours(pipes, index)
    for found, side in ((before, pipes[:index][::-1]), (after, pipes[index + 1 :])):
        known = [bore for bore in side if bore is not None]
        assert found == (known[0] if known else None)
