"""Buses that cannot be as they are written are refused where it stands, with what is allowed."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded

HOUSE = "controller-led"
RS = "buses.RS"
BACK = {"from": "INV2.BUS", "to": "SC.BUS", "length": "48 m", "power": "apart"}


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({f"{RS}.links.+": BACK}, "a cable closing a ring from 'INV2.BUS' to 'SC.BUS'", "a line: leave out"),
        ({f"{RS}.links.1.from": "INV2.BUS"}, "a ring from 'INV2.BUS' to 'INV2.BUS'", "a line"),
        ({f"{RS}.nodes.2.address": 1}, "address '1' again", "one of its own (first on line"),
        ({f"{RS}.nodes.2.port": "INV2.COM"}, "'INV2.COM'", "a port of kind rs485 that the part of a device"),
        ({f"{RS}.nodes.2.port": "INV2.BMS"}, "'INV2.BMS'", "a port of kind rs485"),
        ({f"{RS}.nodes.2.port": "INV9.BUS"}, "'INV9.BUS'", "a port of kind rs485"),
        ({f"{RS}.nodes.2.port": "INV1.BUS"}, "port 'INV1.BUS' again", "one of its own"),
        ({"buses.CAN.nodes.+": {"port": "INV2.BMS"}}, "'INV2.BMS' that no cable joins", "join all nodes"),
        ({f"{RS}.links.1.to": "INV3.BUS"}, "'INV3.BUS'", "a port among the nodes of bus 'RS'"),
        ({f"{RS}.client": "INV1.BMS"}, "'INV1.BMS'", "a port among the nodes"),
        ({f"{RS}.screen": ["MB"]}, "'MB'", "a port among the nodes"),
        ({f"{RS}.terminators": ["SC.BUS", "EM.BUS"]}, "'EM.BUS'", "a port among the nodes"),
        ({f"{RS}.bias": ["EM.BUS"]}, "'EM.BUS'", "a port among the nodes"),
        ({f"{RS}.cable": "pv-single"}, "'pv-single'", "a signal-cable in parts"),
        ({"buses.CAN.id": "RS"}, "id 'RS' again", "another id"),
        ({f"{RS}.links.0.length": "-3 m"}, "'-3 m'", "not below 0"),
        ({f"{RS}.speed": "9600"}, "'9600'", "bit/s"),
        ({f"{RS}.nodes.1.address": 70_000}, "'70000'", "not above 65,535"),
        ({f"{RS}.nodes.0.first_core": "A"}, "'A'", "a terminal of SC.BUS"),
        ({"parts.example-controller.ports.BUS.minus": "+"}, "'+'", "another mark than plus"),
    ],
)
def test_a_slip_is_refused_where_it_stands(edits: dict[str, Any], found: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits, HOUSE)
    told = [each for each in refused.value.problems if found in each.found and allowed in each.allowed]
    assert told, [str(each) for each in refused.value.problems]
    assert told[0].line > 1


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [
        ({"contacts.K-stop.to": "INV1.HALT"}, "'INV1.HALT'", "an input of a device"),
        ({"contacts.K-island.from": "CO.PLACE"}, "'CO.PLACE'", "an output of a device, or a button"),
        ({"contacts.K-stop.id": "K-island"}, "id 'K-island' again", "another id"),
    ],
)
def test_a_contact_leads_from_an_output_to_an_input(edits: dict[str, Any], found: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits, "changeover-led")
    assert any(found in each.found and allowed in each.allowed for each in refused.value.problems)


def test_two_ports_of_one_id_are_refused() -> None:
    twice = {"parts.example-controller.ports.+": {"id": "BUS", "kind": "can"}}
    with pytest.raises(Unreadable) as refused:
        loaded(twice, HOUSE)
    assert any("each id once" in each.allowed for each in refused.value.problems)


def test_a_device_whose_part_is_not_there_is_not_blamed_for_its_ports() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"devices.SC.part": "no-such-part"}, HOUSE)
    assert not any("SC.BUS" in each.found for each in refused.value.problems)


def test_a_bus_may_be_left_out_and_there_may_be_none() -> None:
    assert loaded({"buses": []}, HOUSE).job.buses == []
