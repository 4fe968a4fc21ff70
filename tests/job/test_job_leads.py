"""What makes a lead of its own names things that are there, by an id nothing else has."""

from typing import Any

import pytest

import houses
from ferrule.document import Unreadable

LEAD = {"id": "E-X", "to": "INV1", "at": "MB", "size": "6 mm²", "length": "2 m"}


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"to": "INV9"}, "found 'INV9'; allowed: a device"),
        ({"at": "MB9"}, "found 'MB9'; allowed: a board or a device"),
        ({"id": "R-main"}, "found 'R-main', which one of runs has; allowed: an id of its own"),
        ({"id": "B-water"}, "found 'B-water', which one of bonding has; allowed: an id of its own"),
    ],
)
def test_a_lead_that_leads_nowhere_is_refused(changed: dict[str, Any], told: str) -> None:
    with pytest.raises(Unreadable) as refused:
        houses.loaded({"earth.leads": [{**LEAD, **changed}]})
    assert told in str(refused.value)


def test_two_leads_of_one_id_are_refused() -> None:
    with pytest.raises(Unreadable) as refused:
        houses.loaded({"earth.leads": [LEAD, dict(LEAD)]})
    assert "E-X" in str(refused.value)


def test_a_lead_between_things_that_are_there_is_read() -> None:
    assert [lead.id for lead in houses.loaded({"earth.leads": [LEAD]}).job.earth.leads] == ["E-X"]
