"""Few warnings for many doubts of one kind."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from footvalve.answers.alike_doubts import MOST_TOLD, Doubt, few_of_each
from footvalve.contract.answer import Warning


@given(st.lists(st.sampled_from("abc"), max_size=40))
def test_the_first_of_each_kind_are_told_in_order_and_the_rest_are_counted(kinds):
    told = few_of_each((Doubt(kind, Warning(f"/line/{i}", kind)) for i, kind in enumerate(kinds)), "/line")
    single = [warning for warning in told if warning.pointer != "/line"]
    places = [int(warning.pointer.rpartition("/")[2]) for warning in single]
    assert places == sorted(places)
    rest = told[len(single) :]
    for kind, count in Counter(kinds).items():
        assert sum(warning.detail == kind for warning in single) == min(count, MOST_TOLD)
        (more,) = [warning.detail for warning in rest if warning.detail.startswith(f"{kind}:")] or [""]
        assert more == (f"{kind}: so it is at {count - MOST_TOLD} more places" if count > MOST_TOLD + 1 else more)
        assert bool(more) == (count > MOST_TOLD)


def test_one_more_is_one_place():
    told = few_of_each([Doubt("fast", Warning("/line/0", "here"))] * (MOST_TOLD + 1), "/line")
    assert told[-1] == Warning("/line", "fast: so it is at 1 more place")
