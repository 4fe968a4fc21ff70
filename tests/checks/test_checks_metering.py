"""Meters, current transformers and adapters."""

from typing import Any

import pytest

from ferrule.constraint import Verdict
from ferrule.document import Unreadable
from houses import REMOVED, answered, constraint, finding, loaded

OWN = "devices.SC.transformers"
PART = "parts.example-controller.transformers"
NET = "devices.NET"


def judged(edits: dict[str, Any], question: str, name: str, house: str = "controller-led") -> Verdict:
    subject = "adapter/NET" if question.startswith("adapter") else "controller/SC"
    return constraint(finding(answered(edits, house), question, subject), name).verdict


@pytest.mark.parametrize(
    ("edits", "question", "name", "expected"),
    [
        ({f"{OWN}.primary": "63 A"}, "meter.transformers", "primary", Verdict.PASS),
        ({f"{OWN}.primary": "60 A"}, "meter.transformers", "primary", Verdict.FAIL),
        # 63 A is a fifth of 315 A; with two turns 630 A on the plate are 315 A, and 100 A only 50 A
        ({f"{OWN}.primary": "315 A"}, "meter.transformers", "low_share", Verdict.PASS),
        ({f"{OWN}.primary": "316 A"}, "meter.transformers", "low_share", Verdict.FAIL),
        ({f"{OWN}.primary": "630 A", f"{OWN}.turns": 2}, "meter.transformers", "low_share", Verdict.PASS),
        ({f"{OWN}.turns": 2}, "meter.transformers", "primary", Verdict.FAIL),
        ({f"{OWN}.primary": REMOVED}, "meter.transformers", "low_share", Verdict.UNKNOWN),
        ({f"{OWN}.secondary": "5 A"}, "meter.transformers", "secondary", Verdict.FAIL),
        ({f"{OWN}.accuracy": 3}, "meter.transformers", "accuracy", Verdict.FAIL),
        # 0.05 VA and 1 A through twice 1.5 m of 13.3 Ω/km: 0.0899 VA
        ({f"{OWN}.burden": "0.09 VA"}, "meter.transformers", "burden", Verdict.PASS),
        ({f"{OWN}.burden": "0.0898 VA"}, "meter.transformers", "burden", Verdict.FAIL),
        ({f"{OWN}.lead": REMOVED}, "meter.transformers", "burden", Verdict.UNKNOWN),
        ({f"{OWN}.clamps.0.line": "L2"}, "meter.phases", "phases", Verdict.FAIL),
        ({f"{OWN}.clamps.2": REMOVED}, "meter.phases", "phases", Verdict.FAIL),
        ({f"{OWN}.clamps.0.line": REMOVED}, "meter.phases", "phases", Verdict.UNKNOWN),
        ({f"{OWN}.clamps.1.arrow": "house"}, "meter.phases", "arrows", Verdict.FAIL),
        ({f"{PART}.arrow": REMOVED}, "meter.phases", "arrows", Verdict.UNKNOWN),
        ({f"{OWN}.run": "R-garage"}, "meter.place", "place", Verdict.FAIL),
        ({OWN: REMOVED}, "meter.place", "place", Verdict.UNKNOWN),
    ],
)
def test_transformers(edits: dict[str, Any], question: str, name: str, expected: Verdict) -> None:
    assert judged(edits, question, name) is expected


def test_a_direct_meter_has_no_transformers_to_ask_about() -> None:
    found = {f.id for f in answered().findings if str(f.subject) == "meter/EM"}
    assert "meter.place" in found
    assert found.isdisjoint({"meter.transformers", "meter.phases"})


def test_how_often_a_conductor_leads_through_is_assumed_where_nobody_says() -> None:
    told = [each.text for each in answered({f"{OWN}.turns": REMOVED}, "controller-led").assumptions]
    assert "each line conductor leads once through its current transformer" in told


def test_transformers_of_a_direct_meter_are_refused() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"devices.EM.transformers": {"run": "R-tails"}})
    (problem,) = refused.value.problems
    assert problem.found == "transformers of 'EM', and its part 'example-meter-direct' is a direct meter"


def test_transformers_of_a_meter_that_needs_them_are_read() -> None:
    by_transformer = {"parts.example-meter-direct.connection": "transformer"}
    assert loaded({"devices.EM.transformers": {"run": "R-tails"}, **by_transformer})


@pytest.mark.parametrize(
    ("edits", "expected"),
    [
        ({"devices.EM.accuracy": 1}, Verdict.PASS),
        ({"devices.EM.accuracy": 0.5}, Verdict.FAIL),
        ({"parts.example-meter-direct.accuracy": 2}, Verdict.FAIL),
        ({"parts.example-meter-direct.accuracy": REMOVED}, Verdict.UNKNOWN),
        ({"devices.EM.accuracy": REMOVED}, Verdict.UNKNOWN),
    ],
)
def test_the_class_of_the_meter_itself(edits: dict[str, Any], expected: Verdict) -> None:
    assert finding(answered(edits), "meter.accuracy", "meter/EM").verdict is expected


def test_a_meter_behind_the_main_board_does_not_see_the_rest() -> None:
    """The tails lead to the board, and the meter hangs on it: inverter and board are fed before it."""
    edits = {"runs.R-tails.to": "MB", "runs.R-main.from": "MB", "runs.R-main.to": "EM"}
    found = finding(answered(edits), "meter.place", "meter/EM")
    assert constraint(found, "place").verdict is Verdict.FAIL


LTE = {"technology": "lte", "rsrp": "-100 dBm", "rsrq": "-15 dB", "sinr": "7 dB", "rssi": "-60 dBm"}


@pytest.mark.parametrize(
    ("level", "value", "expected"),
    [
        ("rsrp", "-100 dBm", Verdict.PASS),
        ("rsrp", "-101 dBm", Verdict.CAUTION),
        ("rsrq", "-16 dB", Verdict.CAUTION),
        ("sinr", "6.9 dB", Verdict.CAUTION),
    ],
)
def test_levels_of_lte(level: str, value: str, expected: Verdict) -> None:
    edits = {f"{NET}.levels": [{**LTE, level: value}]}
    found = finding(answered(edits, "changeover-led"), "adapter.signal", "adapter/NET")
    assert constraint(found, level).verdict is expected


UMTS = {"technology": "umts", "rscp": "-85 dBm", "ecio": "-10 dB"}
MOBILE = {"lte": LTE, "umts": UMTS, "gsm": {"technology": "gsm", "rssi": "-85 dBm"}}


@pytest.mark.parametrize(
    ("technology", "level", "value", "expected"),
    [
        ("lte", "rsrp", "-120 dBm", Verdict.CAUTION),
        ("lte", "rsrp", "-121 dBm", Verdict.FAIL),
        ("lte", "rsrp", "-130 dBm", Verdict.FAIL),
        ("lte", "rsrq", "-19.1 dB", Verdict.FAIL),
        ("lte", "sinr", "-0.1 dB", Verdict.FAIL),
        ("umts", "rscp", "-85 dBm", Verdict.PASS),
        ("umts", "rscp", "-100 dBm", Verdict.CAUTION),
        ("umts", "rscp", "-101 dBm", Verdict.FAIL),
        ("umts", "ecio", "-19.1 dB", Verdict.FAIL),
        ("gsm", "rssi", "-85 dBm", Verdict.PASS),
        ("gsm", "rssi", "-103 dBm", Verdict.FAIL),
        ("gsm", "rssi", "-99 dBm", Verdict.CAUTION),
    ],
)
def test_below_some_level_a_technology_does_not_work(
    technology: str, level: str, value: str, expected: Verdict
) -> None:
    edits = {f"{NET}.levels": [{**MOBILE[technology], level: value}]}
    assert finding(answered(edits, "changeover-led"), "adapter.signal", "adapter/NET").verdict is expected


@pytest.mark.parametrize(
    ("lead", "expected"),
    [
        ({"lead_loss": "2 dB"}, Verdict.PASS),
        ({"lead_loss": "2.1 dB"}, Verdict.CAUTION),
        ({"lead_loss": "22.1 dB"}, Verdict.FAIL),
        ({}, Verdict.UNKNOWN),
    ],
)
def test_the_lead_of_an_aerial_takes_from_the_power(lead: dict[str, str], expected: Verdict) -> None:
    """-98 dBm at the aerial; its quality stays."""
    levels = [{**LTE, "rsrp": "-98 dBm", "measured": "aerial", **lead}]
    found = finding(answered({f"{NET}.levels": levels}, "changeover-led"), "adapter.signal", "adapter/NET")
    assert found.verdict is expected


def test_rssi_alone_never_passes_umts() -> None:
    edits = {f"{NET}.levels": [{"technology": "umts", "rssi": "-50 dBm"}]}
    found = finding(answered(edits, "changeover-led"), "adapter.signal", "adapter/NET")
    assert found.verdict is Verdict.UNKNOWN
    assert len(found.governed_by.find_out) == 2


def test_rssi_alone_never_passes_lte() -> None:
    """At one place an RSSI of -68 dBm went with an RSRP of -102 dBm."""
    edits = {f"{NET}.levels": [{"technology": "lte", "rssi": "-50 dBm"}]}
    found = finding(answered(edits, "changeover-led"), "adapter.signal", "adapter/NET")
    assert found.verdict is Verdict.UNKNOWN


def test_the_level_of_another_technology_does_not_stand_in() -> None:
    edits = {f"{NET}.levels": [{"technology": "wlan", "rssi": "-50 dBm"}]}
    found = finding(answered(edits, "changeover-led"), "adapter.signal", "adapter/NET")
    assert found.verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("edits", "question", "name", "expected"),
    [
        ({f"{NET}.router": "100 m"}, "adapter.link", "cable", Verdict.PASS),
        ({f"{NET}.router": "101 m"}, "adapter.link", "cable", Verdict.FAIL),
        ({f"{NET}.router": REMOVED}, "adapter.link", "cable", Verdict.UNKNOWN),
        ({"parts.example-adapter.links": ["mobile"]}, "adapter.link", "link", Verdict.FAIL),
        ({f"{NET}.cover": "open"}, "adapter.port", "cover", Verdict.FAIL),
        ({f"{NET}.held": False}, "adapter.port", "cover", Verdict.FAIL),
        ({f"{NET}.held": REMOVED}, "adapter.port", "cover", Verdict.UNKNOWN),
    ],
)
def test_adapters(edits: dict[str, Any], question: str, name: str, expected: Verdict) -> None:
    assert judged(edits, question, name, "meter-led") is expected


@pytest.mark.parametrize(
    ("path", "slip", "allowed"),
    [
        (f"{OWN}.run", "R-tail", "a run"),
        (f"{OWN}.clamps.0.line", "L4", "a line conductor"),
        (f"{OWN}.clamps.0.channel", "L4", "a line conductor"),
    ],
)
def test_transformers_sit_on_what_there_is(path: str, slip: str, allowed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({path: slip}, "controller-led")
    (problem,) = refused.value.problems
    assert (problem.found, problem.allowed.partition(":")[0]) == (f"'{slip}'", allowed)


def test_a_channel_named_twice_is_refused() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({f"{OWN}.clamps.1.channel": "L1"}, "controller-led")
    assert len(refused.value.problems) == 1


@pytest.mark.parametrize(
    ("edits", "found", "allowed"),
    [  # a sign lost on the way would pass every limit, a level of another technology would be passed over
        ({"levels": [{**LTE, "rsrq": "15 dB"}]}, "15 dB", "not above 3"),
        ({"levels": [{**LTE, "rsrp": "40 dBm"}]}, "40 dBm", "not above 0"),
        ({"levels": [{"technology": "wlan", "rssi": "5 dBm"}]}, "5 dBm", "not above 0"),
        ({"levels": [{"technology": "wlan", "rsrp": "-90 dBm"}]}, "-90 dBm", "none for wlan: lte has it"),
        ({"levels": [{**LTE, "ecio": "-5 dB"}]}, "-5 dB", "none for lte: umts has it"),
    ],
)
def test_a_level_that_nobody_can_have_read_is_refused(
    edits: dict[str, Any], found: str, allowed: str
) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({f"{NET}.{key}": value for key, value in edits.items()}, "changeover-led")
    (problem,) = map(str, refused.value.problems)
    assert found in problem
    assert allowed in problem
