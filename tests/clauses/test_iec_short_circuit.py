"""Short circuits by the international rules."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.short_circuit import FaultEnergy
from ferrule.clauses.values import CableKind, Device, LoopPart
from ferrule.constraint import Constraint, Verdict
from ferrule.fact import Missing
from ferrule.quantity import Size
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
CLAUSE = FaultEnergy()
PVC = CableKind("pvc", "cu", "class2", "multicore")
SIZES = ("1.5", "2.5", "4", "6", "10", "16", "25", "35")


def part(size: str = "4", length_m: float = 20, back: str | None = None, insulation: str = "pvc") -> LoopPart:
    return LoopPart(Size("mm²", size), Size("mm²", back or size), "cu", "class2", insulation, length_m)


def breaker(
    rating_a: float = 16, curve: str = "B", energy_class: str = "3", let_through_a2s: float | None = None
) -> Device:
    return Device("mcb", rating_a, curve, energy_class, let_through_a2s)


def highest_a(*parts: LoopPart, lines: int = 1, origin_a: float = 4600, inverters_a: float = 0) -> float:
    return CLAUSE.highest_a(
        Trace(BOOK),
        origin_a=origin_a,
        line_to_neutral_v=230,
        parts=parts,
        lines=lines,
        inverters_a=inverters_a,
    )


def lowest_a(*parts: LoopPart) -> float:
    return CLAUSE.lowest_a(Trace(BOOK), origin_ohm=0.3, line_to_neutral_v=230, parts=parts)


# The currents


def test_without_a_cable_the_supply_counts() -> None:
    assert highest_a() == 4600


def test_behind_a_cable_of_one_phase() -> None:
    """253 V over 0.055 Ω of reactance at right angles to 2 · 20 m of 4.61 Ω/km."""
    assert highest_a(part()) == pytest.approx(253 / math.hypot(0.055, 2 * 0.020 * 4.61))


def test_behind_a_cable_of_three_phases_only_the_line_counts() -> None:
    assert highest_a(part(), lines=3) == pytest.approx(253 / math.hypot(0.055, 0.020 * 4.61))


def test_inverters_add_the_most_that_is_printed_for_them() -> None:
    """1.2 times what they give in service."""
    assert highest_a(inverters_a=30) == 4600 + 36


def test_the_lowest_current_is_that_of_warm_conductors() -> None:
    """At 70 °C copper has 304.5/254.5 of its resistance at 20 °C; the loop of the supply is not warmed. The
    network may show 207 V.
    """
    expected = 207 / (0.3 + 2 * 0.020 * 4.61 * 304.5 / 254.5)
    assert lowest_a(part()) == pytest.approx(expected)


def test_insulation_that_bears_more_heat_leaves_less_current() -> None:
    assert lowest_a(part(insulation="xlpe")) < lowest_a(part())


@given(st.integers(0, len(SIZES) - 2), st.floats(1, 200))
def test_a_thicker_cable_lets_more_through(at: int, length_m: float) -> None:
    thin, thick = part(SIZES[at], length_m), part(SIZES[at + 1], length_m)
    assert highest_a(thin) < highest_a(thick)
    assert lowest_a(thin) < lowest_a(thick)


@given(st.floats(1, 200), st.floats(1.01, 3), st.sampled_from([1, 3]))
def test_a_longer_cable_lets_less_through(length_m: float, times: float, lines: int) -> None:
    assert highest_a(part(length_m=length_m), lines=lines) > highest_a(
        part(length_m=length_m * times), lines=lines
    )
    assert lowest_a(part(length_m=length_m)) > lowest_a(part(length_m=length_m * times))


@given(st.floats(1, 200), st.floats(500, 10_000))
def test_the_highest_current_never_exceeds_the_supplys_own(length_m: float, origin_a: float) -> None:
    assert highest_a(part(length_m=length_m), origin_a=origin_a) <= origin_a


# The device


@pytest.mark.parametrize(
    ("breaks_a", "verdict"), [(4600, Verdict.PASS), (4599, Verdict.FAIL), (6000, Verdict.PASS)]
)
def test_breaking_capacity(breaks_a: float, verdict: Verdict) -> None:
    found = CLAUSE.breaks(Trace(BOOK), fault_a=4600, breaking_capacity_a=breaks_a)
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("curve", "start_a", "verdict"),
    [("B", 30, Verdict.PASS), ("B", 30.1, Verdict.FAIL), ("C", 50, Verdict.PASS), ("D", 100, Verdict.PASS),
     ("D", 101, Verdict.FAIL)],
)  # fmt: skip
def test_a_start_stays_below_the_band_in_which_a_breaker_may_trip(
    curve: str, start_a: float, verdict: Verdict
) -> None:
    """Type B holds three times its rating, C five times, D ten times (IEC 60898-1)."""
    found = CLAUSE.starting(Trace(BOOK), start_a=start_a, device=breaker(10, curve))
    assert found is not None
    assert found.verdict is verdict


def test_a_fuse_bears_a_start() -> None:
    assert CLAUSE.starting(Trace(BOOK), start_a=60, device=Device("fuse-gG", 16)) is None


@pytest.mark.parametrize(
    ("device", "trips_a"),
    [(breaker(16, "B"), 80), (breaker(16, "C"), 160), (breaker(16, "D"), 320), (Device("fuse-gG", 63), 320),
     (Device("fuse-gG", 35), 190)],
)  # fmt: skip
def test_the_far_end_trips_the_device_in_time(device: Device, trips_a: float) -> None:
    """The upper end of a breaker's band; a fuse's gate for 5 s (IEC 60269-1), for 35 A that of 40 A."""
    at, below = (CLAUSE.far_end(Trace(BOOK), fault_a=a, device=device) for a in (trips_a, trips_a - 1))
    assert (at.limit, at.verdict) == (trips_a, Verdict.PASS)
    assert below.verdict is Verdict.CAUTION  # what protects against overload ends it too, only later


def test_what_is_on_offer() -> None:
    assert CLAUSE.curves(BOOK, "mcb") == ("B", "C", "D")
    assert CLAUSE.curves(BOOK, "fuse-gG") == ()
    assert CLAUSE.breaking_capacities_a(BOOK, "mcb") == (3000, 4500, 6000, 10000)
    assert CLAUSE.breaking_capacities_a(BOOK, "fuse-gG") == (50000,)


# What a conductor bears


def withstand(device: Device, *, size: str, fault_a: float) -> dict[str, Constraint]:
    found = CLAUSE.withstand(
        Trace(BOOK), conductor="line", fault_a=fault_a, device=device, size=Size("mm²", size), cable=PVC
    )
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(
    ("size", "let_through_a2s", "verdict"),
    [("1.5", 29_756, Verdict.PASS), ("1.5", 29_757, Verdict.FAIL), ("2.5", 29_757, Verdict.PASS)],
)
def test_the_makers_figure_counts_first(size: str, let_through_a2s: float, verdict: Verdict) -> None:
    """115² · 1.5² = 29,756.25 A²s."""
    found = withstand(breaker(let_through_a2s=let_through_a2s), size=size, fault_a=6000)
    assert list(found) == ["line_withstand"]
    assert found["line_withstand"].verdict is verdict


def test_the_longest_time_of_a_breaker_is_enough_where_the_current_is_small() -> None:
    """500 A for a tenth of a second are 25,000 A²s."""
    found = withstand(breaker(), size="1.5", fault_a=500)
    assert list(found) == ["line_withstand"]
    assert (found["line_withstand"].value, found["line_withstand"].verdict) == (25_000, Verdict.PASS)


@pytest.mark.parametrize(
    ("device", "fault_a", "class_a2s"),
    [
        (breaker(16, "B"), 3000, 15_000), (breaker(16, "B"), 3001, 25_000), (breaker(10, "C"), 5500, 42_000),
        (breaker(20, "B"), 2000, 18_000), (breaker(32, "C"), 6000, 55_000),
    ],
)  # fmt: skip
def test_a_breaker_that_limits_current_protects_in_a_fault_what_it_protects_in_an_overload(
    device: Device, fault_a: float, class_a2s: float
) -> None:
    """Its class's figure at the fault level of its place is a look only: 1.5 mm² bears 29,756 A²s."""
    found = withstand(device, size="1.5", fault_a=fault_a)
    assert found["line_withstand"].verdict is Verdict.PASS
    assert found["line_class"].value == class_a2s
    assert found["line_class"].verdict is (Verdict.PASS if class_a2s < 29_756 else Verdict.CAUTION)


@pytest.mark.parametrize("device", [breaker(40, "B"), breaker(16, "D")])
def test_where_no_limit_of_the_class_is_printed_nothing_is_said_of_it(device: Device) -> None:
    assert list(withstand(device, size="4", fault_a=3000)) == ["line_withstand"]


@pytest.mark.parametrize("energy_class", ["1", "2"])
def test_a_breaker_that_limits_less_needs_its_makers_figure(energy_class: str) -> None:
    with pytest.raises(Missing, match="let-through energy"):
        withstand(breaker(energy_class=energy_class), size="1.5", fault_a=3000)


@pytest.mark.parametrize(("size", "verdict"), [("6", Verdict.FAIL), ("10", Verdict.PASS)])
def test_a_fuse_lets_most_through_in_its_longest_time(size: str, verdict: Verdict) -> None:
    """63 A: 320 A for 5 s are 512,000 A²s; 6 mm² bears 476,100 and 10 mm² 1,322,500."""
    found = withstand(Device("fuse-gG", 63), size=size, fault_a=3000)["line_withstand"]
    assert found.value == 512_000
    assert found.verdict is verdict
