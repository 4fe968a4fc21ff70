"""Neutral and protective conductors by the international rules."""

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.other_cores import EqualCores
from ferrule.clauses.values import CableKind, Device
from ferrule.constraint import Constraint, Verdict
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Trace

BOOK = rules.load("iec-2024")
CLAUSE = EqualCores()
PVC = CableKind("pvc", "cu", "class2", "multicore")


def mm2(name: str) -> Size:
    return Size("mm²", name)


@pytest.mark.parametrize(
    ("line", "neutral", "lines", "verdict"),
    [
        ("2.5", "2.5", 1, Verdict.PASS), ("2.5", "1.5", 1, Verdict.FAIL), ("2.5", "4", 1, Verdict.PASS),
        ("16", "10", 3, Verdict.FAIL), ("25", "16", 3, Verdict.CAUTION), ("25", "10", 3, Verdict.FAIL),
        ("25", "25", 3, Verdict.PASS), ("25", "16", 1, Verdict.FAIL),
    ],
)  # fmt: skip
def test_neutral(line: str, neutral: str, lines: int, verdict: Verdict) -> None:
    """IEC 60364-5-52 clause 524.2."""
    found = CLAUSE.neutral(Trace(BOOK), line=mm2(line), neutral=mm2(neutral), lines=lines)
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("line", "least_mm2"),
    [("1.5", 1.5), ("16", 16), ("25", 16), ("35", 16), ("50", 25), ("70", 35), ("95", 47.5)],
)
def test_protective_by_its_lines(line: str, least_mm2: float) -> None:
    """IEC 60364-5-54 table 54.2."""
    found = CLAUSE.protective(Trace(BOOK), line=mm2(line), protective=mm2("120"))
    assert found.limit == least_mm2


@pytest.mark.parametrize(("protective", "verdict"), [("2.5", Verdict.PASS), ("1.5", Verdict.FAIL)])
def test_protective_thinner_than_its_lines(protective: str, verdict: Verdict) -> None:
    found = CLAUSE.protective(Trace(BOOK), line=mm2("2.5"), protective=mm2(protective))
    assert found.verdict is verdict


def in_fault(let_through_a2s: float | None, fault_a: float = 3000) -> Constraint:
    return CLAUSE.protective_in_fault(
        Trace(BOOK),
        line=mm2("2.5"),
        protective=mm2("1.5"),
        cable=PVC,
        fault_a=fault_a,
        device=Device("mcb", 16, "B", "3", let_through_a2s),
    )


@pytest.mark.parametrize(
    ("let_through_a2s", "verdict"),
    [(29_756, Verdict.CAUTION), (29_757, Verdict.FAIL), (None, Verdict.CAUTION)],
)
def test_a_thinner_protective_conductor_must_bear_the_fault(
    let_through_a2s: float | None, verdict: Verdict
) -> None:
    """115² · 1.5² = 29,756.25 A²s; without the maker's figure 15,000 A²s of its class at 3 kA."""
    assert in_fault(let_through_a2s).verdict is verdict


def test_at_a_higher_fault_level_its_class_lets_too_much_through() -> None:
    assert in_fault(None, fault_a=6000).verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("methods", "size", "verdict"),
    [(["B1"], "2.5", Verdict.PASS), (["B1"], "1.5", Verdict.FAIL), (["B1", "F"], "2.5", Verdict.FAIL),
     (["C"], "4", Verdict.PASS)],
)  # fmt: skip
def test_a_protective_conductor_by_itself(methods: list[str], size: str, verdict: Verdict) -> None:
    """543.1.3: 2.5 mm² where it is protected, else 4 mm²."""
    found = CLAUSE.separate(Trace(BOOK), protective=mm2(size), metal="cu", methods=methods)
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("leakage_a", "size", "doubled", "verdict"),
    [(0.010, "2.5", False, None), (0.011, "6", False, Verdict.FAIL), (0.011, "10", False, Verdict.PASS),
     (0.011, "6", True, None)],
)  # fmt: skip
def test_current_in_normal_service(
    leakage_a: float, size: str, doubled: bool, verdict: Verdict | None
) -> None:
    """543.7: above 10 mA one of 10 mm² of copper, or a second one."""
    found = CLAUSE.reinforced(
        Trace(BOOK), protective=mm2(size), metal="cu", leakage_a=leakage_a, doubled=doubled
    )
    assert (found and found.verdict) is verdict


def test_american_sizes_are_refused() -> None:
    with pytest.raises(NotPrinted, match="AWG"):
        CLAUSE.neutral(Trace(BOOK), line=Size("AWG", "10"), neutral=Size("AWG", "10"), lines=1)
