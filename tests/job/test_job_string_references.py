"""What strings, their runs and their gear refer to must exist and agree."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({"runs.R-S1.to": "INV1.PV2"}, "INV1.PV2", "INV1.PV1"),
        ({"devices.INV1.inputs": [{"id": "PV9", "isolator": "built-in"}]}, "PV9", "PV1"),
        ({"site.cold_factor": 0.9}, "0.9", "not below 1"),
        ({"devices.INV1.inputs": [{"id": "PV1", "isolator": "none"}]}, "none", "built-in"),
    ],
    ids=["run to another input", "no such input", "factor below one", "no isolator"],
)
def test_a_contradiction_is_refused_where_it_stands(edits: dict[str, Any], found: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits)
    (problem,) = refused.value.problems
    assert found in problem.found
    assert allowed in problem.allowed
    assert problem.line > 1


@pytest.mark.parametrize("odd", ["INV.1", ""])
def test_an_id_that_could_not_be_told_from_a_port_is_refused(odd: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"devices.NET.id": odd})
    (problem,) = refused.value.problems
    assert problem.found == f"'{odd}'"
    assert "without a dot" in problem.allowed
