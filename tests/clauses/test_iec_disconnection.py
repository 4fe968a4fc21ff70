"""Automatic disconnection by the international rules."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.disconnection import AutomaticDisconnection
from ferrule.clauses.values import Device, LoopPart
from ferrule.constraint import Constraint, Verdict
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Trace

BOOK = rules.load("iec-2024")
CLAUSE = AutomaticDisconnection()
B16 = Device("mcb", 16, "B", "3")


def part(size: str = "2.5", length_m: float = 20, back: str | None = None) -> LoopPart:
    return LoopPart(Size("mm²", size), Size("mm²", back or size), "cu", "class2", "pvc", length_m)


@pytest.mark.parametrize(
    ("system", "rating_a", "final", "sockets", "longest_s"),
    [
        ("TN", 16, True, True, 0.4), ("TT", 16, True, True, 0.2),
        ("TN", 32, True, False, 0.4), ("TN", 40, True, False, 5), ("TT", 40, True, False, 1),
        ("TN", 63, True, True, 0.4), ("TN", 80, True, True, 5),
        ("TN", 16, False, False, 5), ("TT", 16, False, False, 1),
    ],
)  # fmt: skip
def test_how_long_a_fault_may_last(
    system: str, rating_a: float, final: bool, sockets: bool, longest_s: float
) -> None:
    """IEC 60364-4-41 table 41.1 at 230 V, and 411.3.2.2 to 411.3.2.4."""
    found = CLAUSE.longest_s(
        Trace(BOOK), system=system, line_to_neutral_v=230, rating_a=rating_a, final=final, sockets=sockets
    )
    assert found == longest_s


def test_the_loop_is_that_of_warm_conductors() -> None:
    """Two cables at 70 °C behind 0.35 Ω."""
    warm = 304.5 / 254.5
    expected = 0.35 + warm * (0.005 * 2 * 1.15 + 0.020 * (7.41 + 12.1))
    found = CLAUSE.loop_ohm(Trace(BOOK), origin_ohm=0.35, parts=[part("16", 5), part("2.5", 20, "1.5")])
    assert found == pytest.approx(expected)


def by_device(
    loop_ohm: float, device: Device = B16, within_s: float = 0.4, parts: tuple[LoopPart, ...] = ()
) -> dict[str, Constraint]:
    found = CLAUSE.by_device(
        Trace(BOOK),
        loop_ohm=loop_ohm,
        origin_ohm=loop_ohm,
        parts=parts,
        device=device,
        line_to_neutral_v=230,
        within_s=within_s,
    )
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(
    ("loop_ohm", "verdict"), [(2.874, Verdict.PASS), (2.875, Verdict.PASS), (2.876, Verdict.FAIL)]
)
def test_the_loop_lets_enough_through_to_trip_the_breaker(loop_ohm: float, verdict: Verdict) -> None:
    """230 V / (5 · 16 A) = 2.875 Ω."""
    assert by_device(loop_ohm)["loop_impedance"].verdict is verdict


def test_a_fuse_has_a_current_for_each_time() -> None:
    """63 A: 320 A within 5 s, 820 A within 0.1 s (IEC 60269-1)."""
    fuse = Device("fuse-gG", 63)
    assert by_device(0.5, fuse, within_s=5)["loop_impedance"].limit == pytest.approx(230 / 320)
    assert by_device(0.2, fuse, within_s=0.4)["loop_impedance"].limit == pytest.approx(230 / 820)


def test_the_reading_to_expect_is_cold_and_has_two_thirds_of_the_limit() -> None:
    """IEC 60364-6 annex D; missed it is a look, for the loop itself is what counts."""
    found = by_device(0.5, parts=(part("2.5", 80),))["cold_reading"]
    assert found.value == pytest.approx(0.5 + 0.080 * 2 * 7.41)
    assert found.limit == pytest.approx(2 / 3 * 2.875, rel=1e-6)
    assert by_device(2.5)["cold_reading"].verdict is Verdict.CAUTION


@pytest.mark.parametrize("device", [B16, Device("fuse-gG", 16)])
def test_a_time_too_short_for_any_device_is_refused(device: Device) -> None:
    with pytest.raises(NotPrinted):
        by_device(0.5, device, within_s=0.04)


def by_residual(
    loop_ohm: float, *, residual_a: float = 0.3, selective: bool = False, within_s: float = 0.2
) -> Constraint:
    return CLAUSE.by_residual(
        Trace(BOOK),
        loop_ohm=loop_ohm,
        residual_a=residual_a,
        selective=selective,
        line_to_neutral_v=230,
        within_s=within_s,
    )


@pytest.mark.parametrize(
    ("loop_ohm", "selective", "time_s"),
    [(100, False, 0.04), (153, False, 0.04), (154, False, 0.15), (400, False, 0.3), (100, True, 0.15),
     (200, True, 0.2), (500, True, 0.5)],
)  # fmt: skip
def test_a_residual_current_device_is_as_quick_as_the_fault_is_large(
    loop_ohm: float, selective: bool, time_s: float
) -> None:
    """IEC 61008-1: times at once, twice and five times the rated residual current, here 0.3 A."""
    found = by_residual(loop_ohm, selective=selective)
    assert found.value == time_s
    assert found.verdict is (Verdict.PASS if time_s <= 0.2 else Verdict.FAIL)


def test_a_fault_too_small_to_see_is_not_disconnected() -> None:
    assert by_residual(800).verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("electrode_ohm", "verdict"), [(166, Verdict.PASS), (166.7, Verdict.FAIL), (500, Verdict.FAIL)]
)
def test_earthed_metal_stays_below_the_touch_voltage(electrode_ohm: float, verdict: Verdict) -> None:
    """50 V / 0.3 A = 166.67 Ω."""
    found = CLAUSE.touch_voltage(Trace(BOOK), electrode_ohm=electrode_ohm, parts=[], residual_a=0.3)
    assert found.verdict is verdict


def test_the_protective_conductor_adds_to_the_electrode() -> None:
    found = CLAUSE.touch_voltage(
        Trace(BOOK), electrode_ohm=100, parts=[part("2.5", 1000, "1.5")], residual_a=0.1
    )
    assert found.value == pytest.approx(0.1 * (100 + 12.1 * 304.5 / 254.5))


@given(st.sampled_from(["1.5", "2.5", "4", "6", "10"]), st.floats(1, 200), st.floats(1.01, 3))
def test_a_shorter_cable_never_has_a_larger_loop(size: str, length_m: float, times: float) -> None:
    short, long = (
        CLAUSE.loop_ohm(Trace(BOOK), origin_ohm=0.3, parts=[part(size, each)])
        for each in (length_m, length_m * times)
    )
    assert short < long
