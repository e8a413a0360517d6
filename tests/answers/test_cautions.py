"""The cautions that answers carry are those of the table, and each of the table is called for somewhere."""

from importlib.resources import files

import pytest

from footvalve.answers.cautions import cautions
from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples
from footvalve.contract.faults import fitted
from footvalve.tables.cautions import CAUTIONS
from footvalve.tables.reading import UnknownEntry

SOURCES = "".join(path.read_text(encoding="utf-8") for path in files("footvalve.answers").iterdir() if path.is_file())


@pytest.mark.parametrize("code", CAUTIONS)
def test_every_caution_of_the_table_is_called_for_by_some_answer(code):
    """One that nothing calls for is dead: take the row out, or write the condition under which it is told."""
    assert f'"{code}"' in SOURCES


@pytest.mark.parametrize("endpoint", ENDPOINTS, ids=lambda endpoint: endpoint.name)
def test_every_example_carries_cautions_of_the_table_each_once_and_local_code_last(endpoint):
    for example in examples(endpoint.name):
        codes = [caution.code for caution in endpoint(fitted(example.request, endpoint.request)).cautions]
        assert set(codes) <= set(CAUTIONS)
        assert len(codes) == len(set(codes))
        assert codes[-1] == "local-code"


def test_a_code_that_is_in_no_table_is_no_caution():
    with pytest.raises(UnknownEntry):
        cautions(["made-up"])
