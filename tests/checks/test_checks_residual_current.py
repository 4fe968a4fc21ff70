"""Residual current devices, asked of the circuits of the demo houses."""

from typing import Any

import pytest

from ferrule.answering import Answer
from ferrule.checks import QUESTIONS
from ferrule.checks.question import Finding, Subject
from ferrule.constraint import Verdict
from ferrule.design import Decided
from ferrule.job.boards import Rcd
from houses import REMOVED, answered, constraint, finding

INVERTER = "parts.example-hybrid-6k-single"
AT_INVERTER = "boards.MB.circuits.C-inverter.rcd"
AT_LIGHTS = "boards.BB.circuits.C-light.rcd"
AT_GARAGE = "boards.MB.circuits.C-garage.rcd"


def rcd(kind: str = "A", residual: str = "30 mA", rating: str = "40 A", **more: Any) -> dict[str, Any]:
    return {
        "type": kind, "residual": residual, "rating": rating, "direction": "both", "all_poles": True, **more
    }  # fmt: skip


def asked(edits: dict[str, Any], circuit: str = "C-inverter", house: str = "meter-led") -> Finding:
    return finding(answered(edits, house), "circuit.rcd", f"circuit/{circuit}")


def chosen(result: Answer, circuit: str) -> Any:
    return result.design.choices[Decided("rcd", circuit)]


# Where one is needed


def test_an_inverter_on_a_tn_supply_needs_none() -> None:
    result = answered()
    assert chosen(result, "C-inverter") == "none"
    assert not [f for f in result.findings if (f.id, f.subject.id) == ("circuit.rcd", "C-inverter")]


def test_every_circuit_of_a_tt_supply_needs_one() -> None:
    found = asked({"supply.earthing": "TT", AT_INVERTER: "none"})
    assert constraint(found, "needed").verdict is Verdict.FAIL
    assert asked({"supply.earthing": "TT", AT_INVERTER: rcd(residual="300 mA")}).verdict is Verdict.PASS


def test_one_for_the_whole_board_serves_each_circuit() -> None:
    edits = {"supply.earthing": "TT", "boards.MB.rcd": rcd(residual="300 mA", rating="63 A", selective=True)}
    found = asked({**edits, AT_INVERTER: "none"})
    assert constraint(found, "needed").verdict is Verdict.PASS


def test_in_island_mode_one_before_the_inverter_protects_nobody() -> None:
    """The way of the island begins behind the inverter."""
    edits = {AT_LIGHTS: "none", AT_INVERTER: rcd()}
    found = asked(edits, "C-light")
    assert constraint(found, "needed").verdict is Verdict.FAIL
    by_mode = {
        dict(c.words)["when"]: c.verdict for c in found.constraints if c.name == "additional_protection"
    }
    assert by_mode == {"on the network": Verdict.PASS, "in island mode": Verdict.FAIL}


def test_one_at_the_backup_board_protects_in_both_modes() -> None:
    found = asked({AT_LIGHTS: "none", "boards.BB.rcd": rcd()}, "C-light")
    assert found.verdict is Verdict.PASS


def test_the_demo_house_on_a_tt_supply() -> None:
    """One delayed device for the main board on the network, one for each chosen circuit in island mode; the
    changeover unit's own circuit has people behind it only through these.
    """
    result = answered(house="changeover-led")
    for circuit in ("C-INV1", "C-changeover", "C-stove"):
        assert chosen(result, circuit) == "none"
    for circuit in ("C-heating", "C-cold", "C-light", "C-pump"):
        assert chosen(result, circuit).residual_a == 0.03
    found = finding(result, "circuit.rcd", "circuit/C-cold")
    assert {dict(c.words)["when"] for c in found.constraints if c.name == "needed"} == {
        "on the network", "in island mode",
    }  # fmt: skip
    assert constraint(found, "selective").verdict is Verdict.PASS
    without = asked(
        {"boards.MB.rcd": REMOVED, "boards.MB.circuits.C-stove.rcd": "none"}, "C-stove", "changeover-led"
    )
    assert constraint(without, "needed").verdict is Verdict.FAIL


def test_a_feeder_to_a_changeover_unit_gets_a_delayed_one() -> None:
    """Without one for the whole board each way out of it needs its own."""
    result = answered({"boards.MB.rcd": REMOVED}, "changeover-led")
    assert (chosen(result, "C-changeover").selective, chosen(result, "C-changeover").direction) == (
        True,
        "one",
    )
    assert (chosen(result, "C-INV1").selective, chosen(result, "C-INV1").direction) == (False, "both")


def test_an_inverter_with_circuits_behind_it_gets_a_delayed_one() -> None:
    """On a TT supply: through its backup port the network feeds circuits with devices of their own."""
    result = answered({"supply.earthing": "TT"})
    assert chosen(result, "C-inverter").selective
    assert constraint(finding(result, "circuit.rcd", "circuit/C-light"), "selective").verdict is Verdict.PASS
    alone = {"runs.R-backup": REMOVED, "supply.earthing": "TT"}
    assert not chosen(answered(alone), "C-inverter").selective


def test_an_earthing_system_nobody_knows() -> None:
    found = asked({"supply.earthing": REMOVED, AT_LIGHTS: rcd()}, "C-light")
    assert constraint(found, "needed").verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("residual", "verdict"), [("30 mA", Verdict.PASS), ("31 mA", Verdict.FAIL), ("10 mA", Verdict.PASS)]
)
def test_lights_of_a_dwelling_need_30_ma(residual: str, verdict: Verdict) -> None:
    assert asked({AT_LIGHTS: rcd(residual=residual)}, "C-light").verdict is verdict


def test_lights_elsewhere_need_only_what_the_island_needs() -> None:
    found = asked({AT_LIGHTS: rcd(residual="300 mA"), "site.building": "other"}, "C-light")
    assert found.verdict is Verdict.PASS
    assert asked({AT_LIGHTS: rcd(), "site.building": REMOVED}, "C-light").verdict is Verdict.UNKNOWN


def test_sockets_need_30_ma_up_to_32_a() -> None:
    kitchen = "boards.MB.circuits.C-kitchen"
    assert asked({f"{kitchen}.rcd": "none"}, "C-kitchen", "controller-led").verdict is Verdict.FAIL
    larger = answered({f"{kitchen}.rcd": "none", f"{kitchen}.device.rating": "40 A"}, "controller-led")
    assert not [f for f in larger.findings if (f.id, f.subject.id) == ("circuit.rcd", "C-kitchen")]


# Which type


@pytest.mark.parametrize(
    ("edits", "kind", "verdict"),
    [
        ({}, "A", Verdict.PASS),  # the demo inverter's maker excludes smooth direct current
        ({}, "AC", Verdict.FAIL),
        ({f"{INVERTER}.smooth_dc_residual": "possible"}, "A", Verdict.FAIL),
        ({f"{INVERTER}.smooth_dc_residual": "possible"}, "F", Verdict.FAIL),
        ({f"{INVERTER}.smooth_dc_residual": "possible"}, "B", Verdict.PASS),
        ({f"{INVERTER}.smooth_dc_residual": REMOVED}, "A", Verdict.UNKNOWN),
        ({f"{INVERTER}.smooth_dc_residual": REMOVED}, "B", Verdict.PASS),
        ({f"{INVERTER}.smooth_dc_residual": REMOVED, f"{INVERTER}.separation": "simple"}, "A", Verdict.PASS),
        ({f"{INVERTER}.separation": REMOVED}, "A", Verdict.PASS),  # with that statement it does not matter
        ({f"{INVERTER}.separation": REMOVED, f"{INVERTER}.smooth_dc_residual": "possible"}, "A",
         Verdict.UNKNOWN),
    ],
)  # fmt: skip
def test_the_type_before_an_inverter(edits: dict[str, Any], kind: str, verdict: Verdict) -> None:
    found = asked({**edits, AT_INVERTER: rcd(kind, "300 mA")})
    assert constraint(found, "own_type").verdict is verdict


def test_the_makers_statement_is_asked_for() -> None:
    found = asked({f"{INVERTER}.smooth_dc_residual": REMOVED, AT_INVERTER: rcd(residual="300 mA")})
    assert "smooth DC residual current" in constraint(found, "own_type").find_out[0]


def test_a_device_further_up_is_blinded() -> None:
    """Type B on the inverter's own circuit does not help the type A before the garage."""
    edits = {
        "parts.example-hybrid-10k-three.smooth_dc_residual": "possible",
        "boards.GB.circuits.C-INV1.rcd": rcd("B", "300 mA"),
    }
    blinded = asked(
        {**edits, AT_GARAGE: rcd("A", "300 mA", "63 A", selective=True)}, "C-INV1", "controller-led"
    )
    assert constraint(blinded, "own_type").verdict is Verdict.PASS
    assert constraint(blinded, "upstream_type").verdict is Verdict.FAIL
    assert "C-garage" in dict(constraint(blinded, "upstream_type").words).values()
    seen = asked({**edits, AT_GARAGE: rcd("B", "300 mA", "63 A", selective=True)}, "C-INV1", "controller-led")
    assert constraint(seen, "upstream_type").verdict is Verdict.PASS


def test_a_boards_device_further_up_is_blinded_too() -> None:
    edits = {
        f"{INVERTER}.smooth_dc_residual": "possible",
        "boards.MB.rcd": rcd("A", "300 mA", "63 A", selective=True),
        AT_INVERTER: rcd("B", "100 mA"),
    }
    assert constraint(asked(edits), "upstream_type").verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("statement", "kind", "verdict"),
    [
        ("excluded", "A", Verdict.PASS),
        ("possible", "A", Verdict.FAIL),
        ("possible", "B", Verdict.PASS),
        (REMOVED, "A", Verdict.UNKNOWN),
        (REMOVED, "B", Verdict.PASS),
    ],
)
def test_the_type_before_a_charger(statement: Any, kind: str, verdict: Verdict) -> None:
    """IEC 60364-7-722: type B, unless the charging point itself switches off at 6 mA of direct current."""
    charger = "boards.GB.circuits.C-charger"
    edits = {f"{charger}.loads.0.smooth_dc_residual": statement, f"{charger}.rcd": rcd(kind)}
    assert asked(edits, "C-charger", "controller-led").verdict is verdict


# Which rating


@pytest.mark.parametrize(("rating", "verdict"), [("32 A", Verdict.PASS), ("31.9 A", Verdict.FAIL)])
def test_it_carries_what_the_circuits_device_lets_through(rating: str, verdict: Verdict) -> None:
    found = asked({AT_INVERTER: rcd(residual="300 mA", rating=rating)})
    assert constraint(found, "rating").verdict is verdict


@pytest.mark.parametrize(
    ("leakage", "verdict"),
    [
        ("9 mA", Verdict.PASS),
        ("9.1 mA", Verdict.CAUTION),
        ("15.1 mA", Verdict.FAIL),
        (REMOVED, Verdict.UNKNOWN),
    ],
)
def test_the_inverters_leakage(leakage: Any, verdict: Verdict) -> None:
    assert asked({AT_INVERTER: rcd(), f"{INVERTER}.leakage_max": leakage}).verdict is verdict


def test_the_leakage_of_all_inverters_behind_it_adds_up() -> None:
    """9 mA each: 18 mA of 30 mA may trip it."""
    found = asked({AT_GARAGE: rcd("A", "30 mA", "63 A")}, "C-INV2", "controller-led")
    assert constraint(found, "leakage").value == pytest.approx(0.018)
    assert constraint(found, "leakage").verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("all_poles", "verdict"), [(True, Verdict.PASS), (False, Verdict.FAIL), (REMOVED, Verdict.UNKNOWN)]
)
def test_one_with_an_inverter_behind_it_opens_the_neutral(all_poles: Any, verdict: Verdict) -> None:
    device = rcd(residual="300 mA")
    device["all_poles"] = all_poles
    if all_poles is REMOVED:
        del device["all_poles"]
    assert constraint(asked({AT_INVERTER: device}), "all_poles").verdict is verdict


@pytest.mark.parametrize(
    ("upper", "verdict"),
    [
        (rcd(residual="300 mA", rating="63 A", selective=True), Verdict.PASS),
        (rcd(residual="300 mA", rating="63 A"), Verdict.CAUTION),
        (rcd(residual="80 mA", rating="63 A", selective=True), Verdict.CAUTION),
    ],
)
def test_of_two_the_one_nearer_to_the_source_waits(upper: dict[str, Any], verdict: Verdict) -> None:
    found = asked({"boards.BB.rcd": upper, AT_LIGHTS: rcd()}, "C-light")
    assert constraint(found, "selective").verdict is verdict


# Choices


def test_what_is_chosen_leaves_nothing_to_find_out() -> None:
    """A garage on a TT supply: a delayed one for the whole feeder, those that add protection behind it."""
    result = answered({"supply.earthing": "TT"}, "controller-led")
    feeder = chosen(result, "C-garage")
    assert (feeder.type, feeder.residual_a, feeder.selective) == ("A", 0.3, True)
    assert (feeder.direction, feeder.all_poles) == ("both", True)
    assert feeder.rating_a >= result.design.rating_a("C-garage")
    assert chosen(result, "C-INV1") == "none"
    charger = chosen(result, "C-charger")
    assert (charger.residual_a, charger.selective, charger.direction) == (0.03, False, "one")
    assert all(f.verdict is Verdict.PASS for f in result.findings if f.id == "circuit.rcd")


def test_a_feeder_of_inverters_whose_maker_excludes_nothing_gets_type_b() -> None:
    edits = {"supply.earthing": "TT", "parts.example-hybrid-10k-three.smooth_dc_residual": "possible"}
    assert chosen(answered(edits, "controller-led"), "C-garage").type == "B"


@pytest.mark.parametrize(
    ("change", "misses"),
    [
        ({"rating_a": 10.0}, "rating"),
        ({"type": "AC"}, "own_type"),
        ({"residual_a": 0.1}, "additional_protection"),
    ],
)
def test_each_step_less_fails_a_named_constraint(change: dict[str, Any], misses: str) -> None:
    """The next smaller rated current, the next lesser type, the next larger residual current."""
    result = answered(house="controller-led")
    device: Rcd = chosen(result, "C-charger")
    lesser = result.design.choose("rcd", "C-charger", device.model_copy(update=change))
    question = next(question for question in QUESTIONS if question.id == "circuit.rcd")
    constraints = question.ask(lesser, result.code, Subject("circuit", "C-charger"))
    assert [c.name for c in constraints if c.verdict is Verdict.FAIL] == [misses]


def test_what_a_given_device_lacks_is_not_mended_further_up() -> None:
    """The lights' own device is of the wrong type whatever stands before the inverter."""
    result = answered({AT_LIGHTS: rcd("AC", rating="16 A")})
    assert chosen(result, "C-inverter") == "none"


def test_a_missing_fact_leaves_the_choice_open() -> None:
    edits = {"supply.earthing": "TT", f"{INVERTER}.smooth_dc_residual": REMOVED}
    result = answered(edits)
    assert Decided("rcd", "C-inverter") not in result.design.choices
    assert finding(result, "circuit.rcd", "circuit/C-inverter").verdict is Verdict.UNKNOWN


def test_a_given_one_of_the_wrong_type_is_answered_with_one_that_passes() -> None:
    found = asked({AT_LIGHTS: rcd("AC", rating="16 A")}, "C-light")
    assert found.verdict is Verdict.FAIL
    remedy = next(each for each in found.remedies if each.path == "circuits.C-light.rcd")
    assert remedy.value.startswith("{type: A, residual: 30 mA")


@pytest.mark.parametrize(("delayed", "verdict"), [(True, Verdict.PASS), (False, Verdict.CAUTION)])
def test_a_boards_own_device_leaves_a_fault_to_that_of_a_board_behind_it(
    delayed: bool, verdict: Verdict
) -> None:
    """300 mA before 30 mA: ten times as much, and a delay is needed besides (IEC 60364-5-53 clause 536)."""
    behind = {"type": "A", "residual": "30 mA", "rating": "63 A", "direction": "both", "all_poles": True}
    edits = {
        "boards.MB.rcd.selective": delayed,
        "boards.BB.rcd": behind,
        "boards.BB.circuits.C-cold.rcd": "none",
    }
    found = finding(answered(edits, "changeover-led"), "circuit.rcd", "circuit/C-cold")
    judged = [each for each in found.constraints if each.name == "selective"]
    assert [each.verdict for each in judged] == [verdict]
