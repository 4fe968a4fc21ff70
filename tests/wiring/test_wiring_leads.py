"""Where conductors land by the supply's earthing: a PEN is one core until the main board splits it."""

from typing import Any

import pytest

import houses
from ferrule.checks.wired import Wired, wired
from ferrule.constraint import Verdict
from ferrule.sheets.schedule import schedule
from ferrule.wiring.proof import faults
from ferrule.wiring.terminal import Lead

COMBINED = {"supply.earthing": "TN-C-S", "supply.pen_split": "board"}


def house(edits: dict[str, Any], name: str = "meter-led") -> Wired:
    return wired(houses.answered(edits, name).design)


def landed(lead: Lead) -> list[tuple[str, str, str]]:
    return [(core.name, str(core.start), str(core.end)) for core in lead.cores]


@pytest.mark.parametrize("edits", [COMBINED, {"supply.earthing": "TN-C"}])
def test_a_pen_is_one_core_through_the_meter_and_ends_on_the_protective_bar(edits: dict[str, Any]) -> None:
    """IEC 60364-5-54 clause 543.4.3: on the protective terminal first; from there a bridge to the neutral."""
    leads = house(edits).leads
    assert landed(leads["R-tails"]) == [
        ("L1", "supply L1", "EM.network L1"),
        ("PEN", "supply PEN", "EM.network N"),
    ]
    assert landed(leads["R-main"]) == [
        ("L1", "EM.house L1", "MB.incoming L"),
        ("PEN", "EM.house N", "MB.bars PE"),
    ]
    assert landed(leads["MB.split"]) == [("PEN", "MB.bars PE", "MB.incoming N")]
    assert [name for name, *_ in landed(leads["R-inverter"])] == ["L1", "N", "PE"]


def test_neutral_and_earth_leave_a_supply_apart_where_it_is_split_there() -> None:
    leads = house({**COMBINED, "supply.pen_split": "supply"}).leads
    assert [name for name, *_ in landed(leads["R-tails"])] == ["L1", "N", "PE"]
    assert "MB.split" not in leads


def test_where_nobody_knows_where_the_pen_is_split_it_is_asked() -> None:
    result = houses.answered({"supply.pen_split": houses.REMOVED})
    for lead, verdict in (
        ("R-tails", Verdict.UNKNOWN),
        ("R-main", Verdict.UNKNOWN),
        ("R-light", Verdict.PASS),
    ):
        assert houses.finding(result, "lead.landed", f"lead/{lead}").verdict is verdict


@pytest.mark.parametrize("earthing", ["TN-S", "TT", "IT"])
def test_a_supply_without_a_pen_is_not_asked_where_it_is_split(earthing: str) -> None:
    edits = {"supply.earthing": earthing, "supply.pen_split": houses.REMOVED}
    lead = house(edits).leads["R-tails"]
    assert (lead.asks, [core.name for core in lead.cores]) == ((), ["L1", "N", "PE"])
    assert (lead.cores[-1].start is None) is (earthing != "TN-S")


def test_the_meter_that_no_earth_reaches_any_more_is_told() -> None:
    """Its earth had come with the core that is gone; a lead of its own mends it."""
    without = houses.finding(houses.answered(COMBINED), "device.wired", "meter/EM")
    assert without.verdict is Verdict.FAIL
    lead = {"id": "E-EM", "to": "EM", "at": "MB", "size": "16 mm²", "length": "1 m"}
    found = house({**COMBINED, "earth.leads.+": lead})
    cores = [core for lead in found.leads.values() for core in lead.cores]
    assert list(faults(found.plan, cores)) == []


def test_before_a_changeover_unit_the_pen_is_split_at_its_terminals_and_never_switched() -> None:
    edits = {
        **COMBINED,
        "runs.R-tails.to": "CO.grid", "runs.R-main.from": "CO.house", "runs.R-chosen.from": "EM",
        "runs.R-chosen.to": "BB", "runs.R-changeover.from": "MB", "runs.R-changeover.to": "EM",
    }  # fmt: skip
    leads = house(edits, "changeover-led").leads
    assert ("PEN", "supply PEN", "CO.grid PE") in landed(leads["R-tails"])
    assert landed(leads["CO.split"]) == [("PEN", "CO.grid PE", "CO.grid N")]
    assert [name for name, *_ in landed(leads["R-main"])][-2:] == ["N", "PE"]


def test_a_combined_conductor_is_as_thick_as_each_of_the_two_and_marked_as_both() -> None:
    """IEC 60445:2017 clause 6.3.3."""
    edits = {**COMBINED, "runs.R-tails.protective": "10 mm²"}
    row = next(row for row in schedule(houses.answered(edits)) if row.lead == "R-tails")
    assert [(each.name, each.colour, str(each.size)) for each in row.conductors] == [
        ("L1", "brown", "16 mm²"), ("PEN", "green-yellow, blue at its ends", "16 mm²"),
    ]  # fmt: skip


@pytest.mark.parametrize(("size", "verdict"), [("10 mm²", Verdict.PASS), ("6 mm²", Verdict.FAIL)])
def test_a_combined_conductor_has_ten_square_millimetres_at_least(size: str, verdict: Verdict) -> None:
    """IEC 60364-5-54 clause 543.4.1; lines of 6 mm² would be content with 6 mm²."""
    edits = {**COMBINED, "runs.R-tails.size": "6 mm²", "runs.R-tails.protective": size}
    found = houses.finding(houses.answered(edits), "run.protective", "run/R-tails")
    assert houses.constraint(found, "combined").verdict is verdict


def test_what_may_still_land_there_is_asked_for_and_no_fault() -> None:
    """A controller whose transformers nobody has placed yet, an adapter with no port yet."""
    for house, path, subject in (
        ("controller-led", "devices.SC.transformers.clamps", "controller/SC"),
        ("meter-led", "devices.NET.into", "adapter/NET"),
    ):
        found = houses.answered({path: houses.REMOVED}, house).findings
        wired_up = next(f for f in found if f.id == "device.wired" and str(f.subject) == subject)
        assert wired_up.verdict is Verdict.UNKNOWN, subject


def test_two_adapters_have_a_socket_each_at_the_router() -> None:
    second = {"id": "NET2", "kind": "adapter", "part": "example-adapter", "into": "INV1.ACC", "link": "wired"}
    found = houses.answered({"devices.+": second}).findings
    joined = [f for f in found if f.id == "lead.landed" and f.subject.id in {"NET.router", "NET2.router"}]
    assert [f.verdict for f in joined] == [Verdict.PASS, Verdict.PASS]


def test_an_earth_conductor_nobody_named_is_asked_for_by_what_it_is() -> None:
    found = houses.finding(
        houses.answered({"earth.cable": houses.REMOVED}), "terminal.fits", "terminals/BAT.earth"
    )
    asks = {ask for each in found.constraints for ask in each.find_out}
    assert "the conductor used for earthing and bonding, by the id of its part" in asks
    assert not any("the class of the conductors" in ask for ask in asks)
