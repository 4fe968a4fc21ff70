"""The cable schedule: colours that a fitter can rely on from one end of the house to the other."""

import pytest

import houses
from ferrule.sheets.schedule import Row, schedule

RULEBOOKS = ("iec-2024", "uk-2022", "us-2023", "aunz-2024")


def rows(edits: dict[str, object], house: str = "controller-led") -> dict[str, Row]:
    return {row.lead: row for row in schedule(houses.answered(edits, house))}


def colours(row: Row) -> dict[str, str]:
    return {conductor.name: conductor.colour for conductor in row.conductors}


@pytest.mark.parametrize("phases", [["L3", "L1"], ["L2", "L3"], ["L3", "L2", "L1"]])
def test_a_line_keeps_its_colour_whichever_lines_a_circuit_takes_and_in_whatever_order(
    phases: list[str],
) -> None:
    """IEC 60445:2017 clause 6.2.3: brown, black and grey."""
    found = colours(rows({"boards.MB.circuits.C-hob.phases": phases})["R-hob"])
    wanted = {"L1": "brown", "L2": "black", "L3": "grey"}
    assert {name: found[name] for name in phases} == {name: wanted[name] for name in phases}


def test_a_single_line_is_brown_whichever_it_is() -> None:
    """As single-phase cable comes."""
    found = colours(rows({"boards.MB.circuits.C-light.phases": ["L2"]})["R-light"])
    assert found == {"L2": "brown", "N": "blue", "PE": "green-yellow"}


@pytest.mark.parametrize("rulebook", RULEBOOKS)
def test_no_two_conductors_of_a_lead_share_a_colour(rulebook: str) -> None:
    for row in rows({"rulebook": rulebook}).values():
        given = [colour for name, colour in colours(row).items() if colour and name != "PE2"]
        assert len(given) == len(set(given)), row.lead
