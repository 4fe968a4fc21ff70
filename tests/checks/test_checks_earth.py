"""Electrode, earthing conductor, bonding of the demo houses, and the sizes chosen for them."""

from typing import Any

import pytest

from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

TT = "changeover-led"


def asked(question: str, subject: str, edits: dict[str, Any], house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), question, subject)


# The earthing conductor


@pytest.mark.parametrize(
    ("size", "verdict"), [("4 mm²", Verdict.FAIL), ("6 mm²", Verdict.PASS), ("16 mm²", Verdict.PASS)]
)
def test_the_earthing_conductor(size: str, verdict: Verdict) -> None:
    assert asked("earth.conductor", "earth/conductor", {"earth.conductor": size}).verdict is verdict


def test_the_earthing_conductor_is_chosen_and_one_step_smaller_fails() -> None:
    result = answered({"earth.conductor": REMOVED})
    (choice,) = [c for c in result.choices if c.decided == Decided("earthing", "earth")]
    assert str(choice.value) == "6 mm²"
    assert choice.governed_by is not None
    assert choice.governed_by.constraint.name == "earthing_minimum"
    assert str(choice.governed_by.value) == "4 mm²"


def test_without_an_electrode_there_is_no_conductor_to_it() -> None:
    result = answered({"earth.electrode": "none"})
    assert not [f for f in result.findings if f.id == "earth.conductor"]


# The electrode


@pytest.mark.parametrize(
    ("resistance", "name", "verdict"),
    [
        ("166 Ω", "touch_voltage", Verdict.PASS),
        ("167 Ω", "touch_voltage", Verdict.FAIL),
        ("200 Ω", "stable", Verdict.PASS),
        ("201 Ω", "stable", Verdict.CAUTION),
    ],
)
def test_a_tt_electrode_against_the_largest_rcd(resistance: str, name: str, verdict: Verdict) -> None:
    """The demo's largest is the board's, 300 mA: 50 V / 300 mA = 167 Ω."""
    found = asked("earth.electrode", "earth/electrode", {"earth.electrode.resistance": resistance}, TT)
    assert constraint(found, name).verdict is verdict


def test_a_tt_supply_without_an_electrode_fails() -> None:
    found = asked("earth.electrode", "earth/electrode", {"earth.electrode": "none"}, TT)
    assert found.verdict is Verdict.FAIL


@pytest.mark.parametrize("edit", [{"earth.electrode": REMOVED}, {"earth.electrode.resistance": REMOVED}])
def test_an_unknown_electrode_is_asked(edit: dict[str, Any]) -> None:
    assert asked("earth.electrode", "earth/electrode", edit, TT).verdict is Verdict.UNKNOWN


def test_in_a_tn_house_the_electrode_only_has_to_stay_what_it_is() -> None:
    found = asked("earth.electrode", "earth/electrode", {})
    assert [each.name for each in found.constraints] == ["present", "stable"][1:]


def test_a_tn_house_without_backup_is_not_asked() -> None:
    assert not [f for f in answered(house="controller-led").findings if f.id == "earth.electrode"]


# Main bonding


@pytest.mark.parametrize(("size", "verdict"), [("6 mm²", Verdict.FAIL), ("10 mm²", Verdict.PASS)])
def test_main_bonding_is_half_of_the_largest_protective_conductor(size: str, verdict: Verdict) -> None:
    """The demo's tails have 16 mm²: half is 8 mm²."""
    found = asked("bonding.main", "bonding/B-water", {"earth.bonding.B-water.size": size})
    assert (found.verdict, found.governed_by.limit) == (verdict, 8.0)


def test_main_bonding_is_chosen_and_one_step_smaller_fails() -> None:
    result = answered({"earth.bonding.B-water.size": REMOVED})
    (choice,) = [c for c in result.choices if c.decided == Decided("bonding", "B-water")]
    assert str(choice.value) == "10 mm²"
    assert choice.governed_by is not None
    assert (str(choice.governed_by.value), choice.governed_by.constraint.name) == ("6 mm²", "main_bonding")


def test_metal_that_enters_the_house_must_be_bonded() -> None:
    found = asked("bonding.main", "installation/house", {"earth.extraneous": ["water", "gas"]})
    assert [each.verdict for each in found.constraints] == [Verdict.PASS, Verdict.FAIL]
    assert dict(found.remedies[0].words)["part"] == "gas"


def test_what_enters_the_house_is_asked() -> None:
    found = asked("bonding.main", "installation/house", {"earth.extraneous": REMOVED})
    assert found.verdict is Verdict.UNKNOWN
    assert "pipes" in found.constraints[0].find_out[0]


def test_a_house_that_nothing_enters_has_nothing_to_bond() -> None:
    result = answered({"earth.extraneous": [], "earth.bonding.B-water": REMOVED})
    assert not [f for f in result.findings if f.id == "bonding.main"]


# Supplementary bonding


def supplementary(**fields: Any) -> dict[str, Any]:
    return {"earth.bonding.+": {"id": "B-bath", "to": "other", "role": "supplementary", **fields}}


@pytest.mark.parametrize(
    ("protected", "size", "verdict"),
    [
        (True, "2.5 mm²", Verdict.PASS),
        (True, "1.5 mm²", Verdict.FAIL),
        (False, "4 mm²", Verdict.PASS),
        (False, "2.5 mm²", Verdict.FAIL),
    ],
)
def test_supplementary_bonding(protected: bool, size: str, verdict: Verdict) -> None:
    edits = supplementary(circuit="C-fridge", protected=protected, size=size)
    assert asked("bonding.supplementary", "bonding/B-bath", edits).verdict is verdict


def test_supplementary_bonding_needs_to_know_its_circuit() -> None:
    edits = supplementary(size="4 mm²")
    assert asked("bonding.supplementary", "bonding/B-bath", edits).verdict is Verdict.UNKNOWN


def test_supplementary_bonding_is_chosen() -> None:
    result = answered(supplementary(circuit="C-fridge"))
    assert str(result.design.choices[Decided("bonding", "B-bath")]) == "2.5 mm²"


# The array


@pytest.mark.parametrize(
    ("lightning", "size", "verdict"),
    [
        ("none", "6 mm²", Verdict.PASS),
        ("none", "4 mm²", Verdict.FAIL),
        ("separated", "6 mm²", Verdict.PASS),
        ("bonded", "10 mm²", Verdict.FAIL),
        ("bonded", "16 mm²", Verdict.PASS),
        (REMOVED, "16 mm²", Verdict.UNKNOWN),
    ],
)
def test_the_frame_by_its_lightning_protection(lightning: Any, size: str, verdict: Verdict) -> None:
    edits = {"site.lightning_protection": lightning, "earth.bonding.B-array.size": size}
    assert asked("bonding.array", "bonding/B-array", edits).verdict is verdict


@pytest.mark.parametrize(("lightning", "size"), [("none", "6 mm²"), ("bonded", "16 mm²")])
def test_the_frames_conductor_is_chosen(lightning: str, size: str) -> None:
    result = answered({"site.lightning_protection": lightning})
    (choice,) = [c for c in result.choices if c.decided == Decided("bonding", "B-array")]
    assert str(choice.value) == size
    assert choice.governed_by is not None
    assert choice.governed_by.constraint.name == "array_bonding"


def test_an_array_without_bonding_fails() -> None:
    found = asked("bonding.array", "array/frame", {"earth.bonding.B-array": REMOVED})
    assert found.verdict is Verdict.FAIL
    assert found.place == "roof"
