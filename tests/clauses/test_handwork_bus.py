"""What a signal bus may be, by the clause alone."""

from typing import Any

import pytest

from ferrule import rules
from ferrule.clauses import bind
from ferrule.clauses.handwork.bus import TwistedPair
from ferrule.clauses.procedures.bus import BusKind, Expected
from ferrule.constraint import Constraint, Verdict
from ferrule.physics.bus import Bias, Link, Network, Node

CODE = bind(rules.load("iec-2024"))
CLAUSE = TwistedPair()


def network(*, terminators: int = 2, resistor_ohm: float = 560, devices: int = 3) -> Network:
    nodes = [Node(120 if at < terminators else None, 96_000) for at in range(devices)]
    nodes[0] = nodes[0]._replace(bias=Bias(resistor_ohm, resistor_ohm, 5.0))
    return Network(tuple(nodes), tuple(Link(at, at + 1, 0.5) for at in range(devices - 1)))


def verdicts(found: Any) -> dict[str, Verdict]:
    each = [found] if isinstance(found, Constraint) else list(found)
    return {constraint.name: constraint.verdict for constraint in each}


def test_every_family_has_it() -> None:
    for edition in rules.editions():
        assert isinstance(bind(rules.load(edition)).procedures.signal_bus, TwistedPair)


def test_a_reading_within_its_band() -> None:
    found = CLAUSE.resistance(CODE.trace(), network=network(), at=0)
    assert found.low < found.value < (found.high or 0)
    assert [found.holds(ohm) for ohm in (40, 57, 120)] == [False, True, False]
    assert Expected(12_000, 9_000, None).holds(1e9)
    assert not Expected(12_000, 9_000, None).holds(120)


@pytest.mark.parametrize(
    ("resistor_ohm", "terminators", "expected"),
    [(560, 2, {"idle_voltage": "pass", "idle_voltage_at_worst": "pass"}),
     (650, 2, {"idle_voltage": "pass", "idle_voltage_at_worst": "caution"}),
     (560, 3, {"idle_voltage": "fail"}), (4700, 2, {"idle_voltage": "fail"})],
)  # fmt: skip
def test_the_idle_bus(resistor_ohm: float, terminators: int, expected: dict[str, str]) -> None:
    found = CLAUSE.idle_enough(
        CODE.rulebook, network=network(resistor_ohm=resistor_ohm, terminators=terminators)
    )
    assert {name: verdict.word for name, verdict in verdicts(found).items()} == expected


@pytest.mark.parametrize(("places", "verdict"), [(0, "pass"), (1, "pass"), (2, "caution")])
def test_bias_at_one_place(places: int, verdict: str) -> None:
    assert CLAUSE.biased(CODE.rulebook, places=places).verdict.word == verdict


@pytest.mark.parametrize(
    ("loads", "biases_ohm", "verdict"),
    [([1.0] * 32, [], "pass"), ([1.0] * 33, [], "fail"), ([0.125] * 84, [560], "pass"),
     ([0.125] * 85, [560], "fail"), ([0.125] * 3, [560, 560], "fail")],
)  # fmt: skip
def test_loads(loads: list[float], biases_ohm: list[float], verdict: str) -> None:
    """Two resistors of 560 Ω are 12000/560 = 21.43 unit loads, which leaves 10.57 for receivers."""
    found = CLAUSE.load(CODE.rulebook, kind="rs485", loads=loads, biases_ohm=biases_ohm)
    assert found.verdict.word == verdict


@pytest.mark.parametrize(("devices", "verdict"), [(32, "pass"), (33, "fail")])
def test_can_devices(devices: int, verdict: str) -> None:
    found = CLAUSE.load(CODE.rulebook, kind="can", loads=[1.0] * devices, biases_ohm=[])
    assert found.verdict.word == verdict


@pytest.mark.parametrize(
    ("kind", "speed", "length_m", "verdict"),
    [("rs485", 9600, 1000, "pass"), ("rs485", 9600, 1000.1, "fail"), ("rs485", 115_200, 868, "pass"),
     ("rs485", 115_200, 869, "fail"), ("can", 500_000, 80, "pass"), ("can", 500_000, 81, "fail"),
     ("can", 250_000, 200, "pass"), ("can", 300_000, 81, "fail"), ("can", 10_000, 800, "pass")],
)  # fmt: skip
def test_length(kind: BusKind, speed: float, length_m: float, verdict: str) -> None:
    found = CLAUSE.length(CODE.rulebook, kind=kind, speed_bit_per_s=speed, length_m=length_m)
    assert found.verdict.word == verdict


@pytest.mark.parametrize(
    ("kind", "taps_m", "expected"),
    [("rs485", [0, 0], {}), ("rs485", [0.3], {"tap": "pass", "short_tap": "pass"}),
     ("rs485", [0.3, 1], {"tap": "pass", "short_tap": "caution"}),
     ("rs485", [3.1], {"tap": "fail", "short_tap": "caution"}),
     ("can", [5, 5, 5, 5, 5], {"tap": "pass", "all_taps": "pass"}),
     ("can", [5.1], {"tap": "fail", "all_taps": "pass"}),
     ("can", [5, 5, 5, 5, 5, 1], {"tap": "pass", "all_taps": "fail"})],
)  # fmt: skip
def test_taps(kind: BusKind, taps_m: list[float], expected: dict[str, str]) -> None:
    found = CLAUSE.taps(CODE.rulebook, kind=kind, speed_bit_per_s=500_000, taps_m=taps_m)
    assert {name: verdict.word for name, verdict in verdicts(found).items()} == expected


@pytest.mark.parametrize(
    ("power_screened", "screened", "divider", "least_mm"),
    [(False, False, "none", 200), (False, True, "none", 50), (True, False, "none", 30),
     (True, True, "none", 0), (False, False, "steel", 50), (False, True, "aluminium", 20)],
)  # fmt: skip
def test_separation(power_screened: bool, screened: bool, divider: Any, least_mm: float) -> None:
    """EN 50174-2:2000, as printed."""
    asked = {"power_screened": power_screened, "screened": screened, "divider": divider}
    at = CLAUSE.separation(CODE.rulebook, distance_mm=least_mm, **asked)
    assert (at.verdict, at.limit) == (Verdict.PASS, least_mm)
    if least_mm:
        assert CLAUSE.separation(CODE.rulebook, distance_mm=least_mm - 1, **asked).verdict is Verdict.CAUTION


def test_what_is_read_off() -> None:
    t = CODE.trace()
    assert CLAUSE.addresses(t) == (1, 247)
    assert (CLAUSE.terminators(t), CLAUSE.terminator_ohm(t), CLAUSE.screen_places(t)) == (2, 120, 1)
    assert CLAUSE.joined_reference(t)
    assert CLAUSE.input_ohm(t, kind="rs485", load=0.25) == 48_000
    assert CLAUSE.input_ohm(t, kind="can", load=1.0) == 5_000
