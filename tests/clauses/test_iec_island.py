"""Faults of a limited source, and what may hang on it, clause by clause against hand numbers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.backup import ChosenCircuits
from ferrule.clauses.iec60364.island_fault import LimitedSource
from ferrule.clauses.values import Device, LoopPart
from ferrule.constraint import Verdict
from ferrule.quantity import Size
from ferrule.working import Trace

BOOK = rules.load("iec-2024")
CLAUSE = LimitedSource()


def part(line: str, protective: str, length_m: float) -> LoopPart:
    return LoopPart(
        Size.parse(f"{line} mm²"), Size.parse(f"{protective} mm²"), "cu", "class2", "pvc", length_m
    )


def test_the_loop_is_warm_out_and_back() -> None:
    """2.5 mm² has 7.41 Ω/km at 20 °C (IEC 60228) and 1.196 times that at 70 °C: 20 m out and back."""
    loop_ohm = CLAUSE.loop_ohm(Trace(BOOK), outside_ohm=0.3, parts=[part("2.5", "2.5", 20.0)])
    assert loop_ohm == pytest.approx(0.3 + 2 * 7.41 * 1.1965 * 0.020, abs=1e-4)


@pytest.mark.parametrize(
    ("residual_a", "loop_ohm", "source_a", "verdicts"),
    [
        (0.03, 0.5, 45.0, ["pass", "pass"]),
        (0.03, 1666.0, 45.0, ["pass", "pass"]),
        (0.03, 1667.0, 45.0, ["fail", "pass"]),
        (0.3, 0.5, 1.5, ["pass", "pass"]),
        (0.3, 0.5, 1.49, ["pass", "fail"]),
    ],
)
def test_a_residual_current_device_needs_a_harmless_voltage_and_five_times_its_current(
    residual_a: float, loop_ohm: float, source_a: float, verdicts: list[str]
) -> None:
    """R · I_Δn ≤ 50 V; 5 × 300 mA = 1.5 A."""
    found = CLAUSE.residual(BOOK, residual_a=residual_a, loop_ohm=loop_ohm, source_a=source_a)
    assert [constraint.verdict.word for constraint in found] == verdicts


@pytest.mark.parametrize(
    ("curve", "rating_a", "expected_a"),
    [("B", 16.0, 80.0), ("C", 16.0, 160.0), ("B", 6.0, 30.0), ("D", 10.0, 200.0)],
)
def test_a_breaker_trips_at_the_upper_end_of_its_band(curve: str, rating_a: float, expected_a: float) -> None:
    """IEC 60898-1: 5, 10 and 20 times the rated current."""
    device = Device("mcb", rating_a, curve)
    assert CLAUSE.trips_at_a(Trace(BOOK), device=device, lasts_s=0.1) == pytest.approx(expected_a)


def test_a_source_that_gives_up_sooner_trips_nothing() -> None:
    assert CLAUSE.trips_at_a(Trace(BOOK), device=Device("mcb", 6.0, "B"), lasts_s=0.099) is None


def test_a_fuse_needs_more_than_a_breaker_of_the_same_rating() -> None:
    fuse_a = CLAUSE.trips_at_a(Trace(BOOK), device=Device("fuse-gG", 16.0), lasts_s=5.0)
    breaker_a = CLAUSE.trips_at_a(Trace(BOOK), device=Device("mcb", 16.0, "B"), lasts_s=5.0)
    assert fuse_a is not None
    assert breaker_a is not None
    assert fuse_a > breaker_a


@pytest.mark.parametrize(("source_a", "most_a"), [(45.0, 9.0), (21.7, 4.34), (65.1, 13.02)])
def test_the_largest_breaker_a_source_trips(source_a: float, most_a: float) -> None:
    """A fifth of the current, by curve B: 5 kVA at three times its rated 21.7 A trips B13."""
    assert CLAUSE.tripped_most_a(Trace(BOOK), source_a=source_a) == pytest.approx(most_a)


@pytest.mark.parametrize(("lasts_s", "verdict"), [(0.1, "pass"), (14.6, "pass"), (15.0, "fail")])
def test_a_thin_conductor_bears_a_small_current_for_long(lasts_s: float, verdict: str) -> None:
    """k² S² = 115² × 1.5² = 29756 A²s; at 45 A that is 14.69 s."""
    (found,) = CLAUSE.withstand(
        BOOK, size=Size.parse("1.5 mm²"), insulation="pvc", metal="cu", source_a=45.0, lasts_s=lasts_s
    )
    assert found.limit == pytest.approx(29756, abs=1)
    assert found.verdict.word == verdict


@given(
    residual_a=st.sampled_from([0.03, 0.1, 0.3]),
    loop_ohm=st.floats(0.01, 3000),
    source_a=st.floats(0.1, 500),
    better=st.floats(1, 10),
)
def test_a_stronger_source_or_a_shorter_loop_never_makes_it_worse(
    residual_a: float, loop_ohm: float, source_a: float, better: float
) -> None:
    def worst(loop_ohm: float, source_a: float) -> Verdict:
        found = CLAUSE.residual(BOOK, residual_a=residual_a, loop_ohm=loop_ohm, source_a=source_a)
        return max(constraint.verdict for constraint in found)

    assert worst(loop_ohm / better, source_a * better) <= worst(loop_ohm, source_a)


# What hangs on it


@pytest.mark.parametrize(
    ("kind", "multiple"), [("lighting", 1.0), ("resistive", 1.0), ("electronic", 2.0), ("sockets", 2.5)]
)
def test_usual_starts_are_taken_at_their_upper_end(kind: str, multiple: float) -> None:
    assert ChosenCircuits().start_multiple(Trace(BOOK), kind=kind) == multiple


@pytest.mark.parametrize("kind", ["motor", "charger"])
def test_a_motor_and_a_charger_must_be_asked(kind: str) -> None:
    assert ChosenCircuits().start_multiple(Trace(BOOK), kind=kind) is None


def test_a_neutral_is_not_shared_across_the_changeover() -> None:
    """BS 7671 regulation 314.4."""
    clause = ChosenCircuits()
    (alone,) = clause.shared_neutral(BOOK, others=[])
    (across,) = clause.shared_neutral(BOOK, others=["C1"])
    assert (alone.verdict, across.verdict) == (Verdict.PASS, Verdict.FAIL)


def test_contacts_that_nobody_declared_are_a_caution_since_that_is_disputed() -> None:
    """IEC 60364-5-53 annex B."""
    clause = ChosenCircuits()
    (declared,) = clause.isolating_contacts(BOOK, declared=True)
    (silent,) = clause.isolating_contacts(BOOK, declared=False)
    assert (declared.verdict, silent.verdict) == (Verdict.PASS, Verdict.CAUTION)


def test_a_phase_carries_a_third_and_a_start_may_last_five_seconds() -> None:
    assert ChosenCircuits().phase_share(Trace(BOOK)) == pytest.approx(1 / 3, abs=1e-6)
    assert ChosenCircuits().start_time_s(Trace(BOOK)) == 5.0
    assert ChosenCircuits().heater_most_w(Trace(BOOK)) == 3000.0
