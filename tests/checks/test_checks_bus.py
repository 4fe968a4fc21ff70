"""Whether a signal bus will answer: its line, its settings, its terminators and bias, its cable."""

from typing import Any

import pytest

from ferrule.answering import Answer
from ferrule.checks import bus as checks
from ferrule.checks.question import Finding
from ferrule.constraint import Verdict
from ferrule.design import Decided
from houses import REMOVED, answered, constraint, finding

HOUSE = "controller-led"
NODES = "buses.RS.nodes"
PORT = {
    "INV": "parts.example-hybrid-10k-three.ports.BUS",
    "SC": "parts.example-controller.ports.BUS",
    "CAN": "parts.example-hybrid-10k-three.ports.BMS",
    "CABLE": "parts.signal-2x2",
}


def asked(question: str, edits: dict[str, Any] | None = None, subject: str = "bus/RS") -> Finding:
    return finding(answered(edits, HOUSE), question, subject)


def verdict(question: str, edits: dict[str, Any] | None = None, subject: str = "bus/RS") -> str:
    return asked(question, edits, subject).verdict.word


def chosen(result: Answer, kind: str, bus: str = "RS") -> Any:
    return next((c.value for c in result.choices if c.decided == Decided(kind, bus)), None)


# Who is on it


@pytest.mark.parametrize(
    ("edits", "expected"),
    [({}, "pass"), ({"buses": REMOVED}, "unknown"), ({"buses": []}, "fail"),
     ({"buses.CAN": REMOVED}, "fail"), ({"buses.RS": REMOVED}, "fail")],
)  # fmt: skip
def test_a_bus_reaches_every_device(edits: dict[str, Any], expected: str) -> None:
    assert verdict("bus.connected", edits, "signal/house") == expected


def test_the_one_left_out_is_named() -> None:
    found = asked("bus.connected", {"buses.CAN": REMOVED}, "signal/house")
    assert dict(found.governed_by.words)["alone"] == "BAT"


def test_cables_that_nobody_measured_are_a_plan_and_no_answer() -> None:
    link = {"buses.RS.links.0.length": REMOVED}
    assert verdict("bus.connected", link, "signal/house") == "unknown"
    assert verdict("bus.topology", link) == "unknown"
    assert verdict("bus.load", {"buses.CAN.links.0.length": REMOVED}, "bus/CAN") == "unknown"


# Which wire


@pytest.mark.parametrize(
    ("edits", "expected"),
    [
        ({}, "pass"),
        ({f"{NODES}.1.first_core": "B"}, "fail"),
        # the other core throughout is no mistake, and neither is a maker who swaps the letters
        ({f"{NODES}.0.first_core": "-", f"{NODES}.1.first_core": "B", f"{NODES}.2.first_core": "B"}, "pass"),
        ({f"{PORT['INV']}.plus": "B", f"{PORT['INV']}.minus": "A"}, "fail"),
        ({f"{NODES}.1.first_core": REMOVED}, "unknown"),
        ({f"{PORT['SC']}.plus": REMOVED}, "unknown"),
    ],
)
def test_one_core_is_positive_everywhere(edits: dict[str, Any], expected: str) -> None:
    assert verdict("bus.polarity", edits) == expected


def test_the_device_with_the_wires_crossed_is_named() -> None:
    found = asked("bus.polarity", {f"{NODES}.2.first_core": "B"})
    assert dict(found.governed_by.words)["crossed"] == "INV2.BUS"


# The line

STAR = [
    {"from": "SC.BUS", "to": "INV1.BUS", "length": "46 m", "power": "apart"},
    {"from": "INV1.BUS", "to": "INV2.BUS", "length": "3 m", "power": "apart"},
    {"from": "INV1.BUS", "to": "INV3.BUS", "length": "3 m", "power": "apart"},
]
THIRD = {
    "devices.+": {"id": "INV3", "kind": "inverter", "part": "example-hybrid-10k-three", "link": "disabled"},
    f"{NODES}.+": {"port": "INV3.BUS", "address": 3},
}


def test_a_star_is_no_line_and_has_no_place_for_terminators() -> None:
    star = {**THIRD, "buses.RS.links": STAR}
    found = asked("bus.topology", star)
    assert constraint(found, "one_line").verdict is Verdict.FAIL
    assert dict(constraint(found, "one_line").words)["branches"] == "INV1.BUS"
    assert chosen(answered(star, HOUSE), "terminators") is None
    assert verdict("bus.termination", star) == "unknown"


def test_a_line_of_four_is_one() -> None:
    line = [*STAR[:2], {**STAR[2], "from": "INV2.BUS"}]
    result = answered({**THIRD, "buses.RS.links": line}, HOUSE)
    assert finding(result, "bus.topology", "bus/RS").verdict is Verdict.PASS
    assert chosen(result, "terminators") == ("SC.BUS", "INV3.BUS")


def test_who_asks_should_be_at_an_end() -> None:
    middle = {
        "buses.RS.links.0": {"from": "INV1.BUS", "to": "SC.BUS", "length": "46 m", "power": "apart"},
        "buses.RS.links.1": {"from": "SC.BUS", "to": "INV2.BUS", "length": "46 m", "power": "apart"},
    }
    found = asked("bus.topology", middle)
    assert found.verdict is Verdict.CAUTION
    assert found.governed_by.name == "client_at_end"


@pytest.mark.parametrize(("client", "expected"), [("SC.BUS", "pass"), ("INV2.BUS", "fail")])
def test_the_controller_asks_where_it_leads(client: str, expected: str) -> None:
    found = asked("bus.topology", {"buses.RS.client": client})
    assert constraint(found, "leader").verdict.word == expected


def test_a_meter_asks_nobody() -> None:
    result = answered({"buses.RS.client": "EM.BUS"})
    assert constraint(finding(result, "bus.topology", "bus/RS"), "leader").verdict is Verdict.FAIL
    assert constraint(finding(result, "bus.addresses", "bus/RS"), "roles").verdict is Verdict.FAIL


def test_a_can_bus_has_no_client() -> None:
    found = asked("bus.topology", subject="bus/CAN")
    assert [each.name for each in found.constraints] == ["one_line"]
    assert all(str(f.subject) != "bus/CAN" for f in answered({}, HOUSE).findings if f.id == "bus.addresses")


# The settings


@pytest.mark.parametrize(
    ("address", "expected"), [(1, "pass"), (32, "pass"), (33, "fail"), (0, "fail"), (REMOVED, "unknown")]
)
def test_an_address_it_can_be_set_to(address: Any, expected: str) -> None:
    """The inverter takes 1 to 32."""
    assert verdict("bus.addresses", {
        f"{NODES}.1.address": address
    }) == expected  # fmt: skip


@pytest.mark.parametrize(("address", "expected"), [(247, "pass"), (248, "fail")])
def test_the_highest_address_there_is(address: int, expected: str) -> None:
    free = {f"{PORT['INV']}.address_high": REMOVED, f"{NODES}.1.address": address}
    assert verdict("bus.addresses", free) == expected


@pytest.mark.parametrize(
    ("edits", "expected"),
    [({"buses.RS.speed": "19200 bit/s"}, "pass"), ({"buses.RS.speed": "115200 bit/s"}, "fail"),
     ({"buses.RS.parity": "odd"}, "fail"), ({"buses.RS.parity": "even"}, "pass"),
     ({f"{PORT['INV']}.speeds": REMOVED}, "unknown"), ({"buses.RS.parity": REMOVED}, "unknown")],
)  # fmt: skip
def test_one_speed_and_one_parity(edits: dict[str, Any], expected: str) -> None:
    assert verdict("bus.speed", edits) == expected


def test_a_wrong_speed_names_one_that_all_take() -> None:
    found = asked("bus.speed", {"buses.RS.speed": "115200 bit/s"}).governed_by
    assert dict(found.words)["shared_bit_per_s"] == 19_200
    assert dict(found.words)["without"] == "INV1.BUS and INV2.BUS"


@pytest.mark.parametrize(
    ("protocol", "expected"),
    [("EX battery 2", "pass"), ("ex BATTERY 2", "pass"), ("EX battery 1", "fail"), (REMOVED, "unknown")],
)
def test_one_protocol(protocol: Any, expected: str) -> None:
    assert verdict("bus.protocol", {"buses.CAN.protocol": protocol}, "bus/CAN") == expected


# Terminators


def test_terminators_are_chosen_at_both_ends() -> None:
    result = answered({}, HOUSE)
    assert chosen(result, "terminators") == ("SC.BUS", "INV2.BUS")
    assert chosen(result, "terminators", "CAN") == ()  # built in at both ends


@pytest.mark.parametrize(
    ("on", "expected"),
    [(["SC.BUS", "INV2.BUS"], "pass"), (["INV2.BUS", "SC.BUS"], "pass"), (["SC.BUS"], "fail"), ([], "fail"),
     (["SC.BUS", "INV1.BUS"], "fail"), (["SC.BUS", "INV1.BUS", "INV2.BUS"], "fail")],
)  # fmt: skip
def test_terminators_at_the_two_ends(on: list[str], expected: str) -> None:
    found = asked("bus.termination", {"buses.RS.terminators": on})
    assert found.verdict.word == expected
    if expected == "fail":
        assert found.remedies[0].path == "buses.RS.terminators"
        assert found.remedies[0].value == "[SC.BUS, INV2.BUS]"


@pytest.mark.parametrize(
    ("ends", "on"), [("last", ("INV2.BUS",)), ("none", ()), ("both", ("SC.BUS", "INV2.BUS"))]
)
def test_the_leading_devices_maker_decides(ends: str, on: tuple[str, ...]) -> None:
    result = answered({f"{PORT['SC']}.ends": ends}, HOUSE)
    assert chosen(result, "terminators") == on
    assert finding(result, "bus.termination", "bus/RS").verdict is Verdict.PASS


def test_one_that_is_built_in_between_has_to_come_out() -> None:
    result = answered({f"{PORT['INV']}.terminator": "built-in"}, HOUSE)
    assert chosen(result, "terminators") == ("SC.BUS",)
    found = finding(result, "bus.termination", "bus/RS")
    assert constraint(found, "ends").verdict is Verdict.PASS
    assert constraint(found, "between").verdict is Verdict.FAIL
    assert dict(constraint(found, "between").words)["beyond"] == "INV1.BUS"


def test_an_unknown_terminator_leaves_the_choice_open() -> None:
    result = answered({f"{PORT['INV']}.terminator": REMOVED}, HOUSE)
    assert chosen(result, "terminators") is None
    assert finding(result, "bus.termination", "bus/RS").verdict is Verdict.UNKNOWN


def test_what_the_meter_reads_is_there_as_data_and_in_words() -> None:
    """Two terminators of 120 Ω and receivers that hardly count; 49 m of 0.34 mm² have 2.5 Ω a core; the dead
    bias pair of the controller is 1120 Ω.
    """
    result = answered({}, HOUSE)
    found = checks.resistance(result.design, result.code, "RS", "SC.BUS", result.code.trace())
    core_ohm = 49 / 1000 * 17.241 / 0.34
    by_hand = 1 / (1 / 120 + 1 / 1120 + 1 / (120 + 2 * core_ohm))
    assert found.value == pytest.approx(by_hand, rel=0.002)
    assert found.low < by_hand < (found.high or 0)
    words = constraint(finding(result, "bus.termination", "bus/RS"), "reading_SC.BUS").words
    assert dict(words)["reading_ohm"] == found.value


def test_what_is_missing_for_the_reading_is_asked() -> None:
    for path in (f"{PORT['CABLE']}.core", f"{PORT['INV']}.load", "buses.RS.links.0.length"):
        assert verdict("bus.termination", {path: REMOVED}) == "unknown"


def test_whose_manual_is_missing_is_told() -> None:
    asks = asked("bus.termination", {f"{PORT['SC']}.terminator": REMOVED}).governed_by.find_out
    assert asks[0].startswith("SC.BUS: whether the port has a terminator")


# Bias


def test_bias_is_chosen_where_it_is_needed_and_where_the_asking_device_is() -> None:
    assert chosen(answered({}, HOUSE), "bus_bias") == ("SC.BUS",)
    fail_safe = {f"{PORT['INV']}.fail_safe": True}
    result = answered(fail_safe, HOUSE)
    assert chosen(result, "bus_bias") == ()
    assert finding(result, "bus.bias", "bus/RS").verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("edits", "expected"),
    [({"buses.RS.bias": ["SC.BUS"]}, "pass"), ({"buses.RS.bias": []}, "fail"),
     ({"buses.RS.bias": ["SC.BUS", "INV1.BUS"]}, "caution"),
     ({"buses.RS.terminators": ["SC.BUS", "INV1.BUS", "INV2.BUS"]}, "fail"),
     ({f"{PORT['INV']}.fail_safe": REMOVED}, "unknown")],
)  # fmt: skip
def test_the_silent_bus(edits: dict[str, Any], expected: str) -> None:
    assert verdict("bus.bias", edits) == expected


@pytest.mark.parametrize(
    ("resistor", "expected"), [("650 Ω", "caution"), ("690 Ω", "caution"), ("4.7 kΩ", "fail")]
)
def test_weaker_bias(resistor: str, expected: str) -> None:
    """5 V · 60 Ω / (2 R + 60 Ω): 0.22 V, 0.21 V, 0.03 V."""
    bias = {"up": resistor, "down": resistor, "supply": "5 V"}
    ports = {f"{PORT['SC']}.bias": bias, f"{PORT['INV']}.bias": "none"}
    assert verdict("bus.bias", ports) == expected


def test_the_idle_voltage_is_there_as_data() -> None:
    result = answered({}, HOUSE)
    near, far = (
        checks.idle_voltage(result.design, result.code, "RS", port, result.code.trace())
        for port in ("SC.BUS", "INV2.BUS")
    )
    assert near.value == pytest.approx(0.26, abs=0.005)
    assert near.value > far.value
    assert near.holds(0.25)


# Load, length, cable


def test_bias_counts_as_load() -> None:
    """560 Ω are 21.4 unit loads, which leaves 10.6: the controller is a quarter, each inverter the rest."""
    for load, expected in ((5.1, "pass"), (5.3, "fail")):
        ports = {f"{PORT['INV']}.load": load}
        assert verdict("bus.load", ports) == expected


@pytest.mark.parametrize(
    ("edits", "expected"),
    [({"buses.RS.links.0.length": "496 m"}, "pass"), ({"buses.RS.links.0.length": "498 m"}, "fail"),
     ({"buses.RS.links.0.length": REMOVED}, "unknown"), ({f"{NODES}.1.tap": "0.2 m"}, "pass"),
     ({f"{NODES}.1.tap": "2 m"}, "caution"), ({f"{NODES}.1.tap": "4 m"}, "fail")],
)  # fmt: skip
def test_line_and_taps(edits: dict[str, Any], expected: str) -> None:
    """The inverters' maker allows 500 m, of which 3 m lie between them."""
    assert verdict("bus.length", edits) == expected


@pytest.mark.parametrize(
    ("edits", "name", "expected"),
    [({"buses.RS.reference": False}, "reference", "fail"),
     ({"buses.RS.reference": REMOVED}, "reference", "unknown"),
     ({f"{PORT['CABLE']}.pairs": 1}, "pairs", "fail"),
     ({f"{PORT['INV']}.reference": False}, "reference_terminal", "caution"),
     ({"buses.RS.screen": ["SC.BUS", "INV2.BUS"]}, "screen", "caution"),
     ({"buses.RS.screen": ["INV2.BUS"]}, "screen", "caution"),
     ({f"{PORT['SC']}.screen": REMOVED, "buses.RS.screen": ["INV2.BUS"]}, "screen", "pass"),
     ({f"{PORT['SC']}.screen": REMOVED, "buses.RS.screen": []}, "screen", "caution"),
     ({f"{PORT['SC']}.screen": REMOVED, "buses.RS.screen": ["SC.BUS", "INV2.BUS"]}, "screen", "caution"),
     ({f"{PORT['INV']}.screen": "open", "buses.RS.screen": ["SC.BUS", "INV2.BUS"]}, "screen", "caution"),
     ({"buses.RS.links.0.power.distance": "49 mm"}, "separation", "caution"),
     ({f"{PORT['CABLE']}.voltage_max": "400 V", "buses.RS.links.0.power.distance": "0 mm"},
      "insulation_SC.BUS_INV1.BUS", "pass"),
     ({"buses.RS.links.0.power.distance": "0 mm"}, "insulation_SC.BUS_INV1.BUS", "fail"),
     ({"buses.RS.links.0.power": REMOVED}, "separation", "unknown")],
)  # fmt: skip
def test_the_cable(edits: dict[str, Any], name: str, expected: str) -> None:
    """The controller's maker wants the screen earthed there."""
    assert constraint(asked("bus.cable", edits), name).verdict.word == expected


def test_an_unscreened_cable_keeps_further_away_and_has_no_screen_to_earth() -> None:
    found = asked("bus.cable", {f"{PORT['CABLE']}.screened": False})
    assert constraint(found, "separation").limit == 200
    assert "screen" not in {each.name for each in found.constraints}
