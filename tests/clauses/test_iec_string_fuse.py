"""String fuses by the international rules: when, which rating, in which poles."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.string_fuse import ReverseCurrent
from ferrule.constraint import Constraint, Verdict

BOOK = rules.load("iec-2024")
CLAUSE = ReverseCurrent()


def fused(rating_a: float, *, poles: str = "both", module_limit_a: float = 30.0) -> dict[str, Constraint]:
    found = CLAUSE.fused(
        BOOK, rating_a=rating_a, poles=poles, short_circuit_a=10.0, module_limit_a=module_limit_a
    )
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(
    ("count", "short_circuit_a", "backfeed_a", "reverse_a", "verdict"),
    [
        (1, 10.0, 0.0, 0.0, Verdict.PASS),
        (2, 10.0, 0.0, 10.0, Verdict.PASS),
        (3, 10.0, 0.0, 20.0, Verdict.PASS),  # as much as the modules bear
        (3, 10.1, 0.0, 20.2, Verdict.FAIL),  # IEC 60364-7-712 alone would still allow 1.08 times as much
        (3, 10.0, 0.1, 20.1, Verdict.FAIL),
        (1, 10.0, 5000.0, 5000.0, Verdict.FAIL),
    ],
)
def test_without_fuses_the_modules_must_bear_what_flows_back(
    count: int, short_circuit_a: float, backfeed_a: float, reverse_a: float, verdict: Verdict
) -> None:
    exposed = {"short_circuit_a": short_circuit_a, "backfeed_a": backfeed_a, "module_limit_a": 20.0}
    (unfused,) = CLAUSE.unfused(BOOK, count=count, **exposed)
    assert unfused.value == pytest.approx(reverse_a)
    assert unfused.limit == 20
    assert unfused.verdict is verdict
    (of_use,) = CLAUSE.of_use(BOOK, count=count, **exposed)
    assert of_use.verdict is (Verdict.PASS if verdict is Verdict.FAIL else Verdict.CAUTION)


@pytest.mark.parametrize(
    ("rating_a", "least", "most"),
    [
        (15.0, Verdict.FAIL, Verdict.PASS),  # 1.5 × 10 A must be exceeded
        (16.0, Verdict.PASS, Verdict.PASS),
        (23.9, Verdict.PASS, Verdict.PASS),
        (24.0, Verdict.PASS, Verdict.FAIL),  # 2.4 × 10 A must not be reached
    ],
)
def test_the_window_of_the_rating(rating_a: float, least: Verdict, most: Verdict) -> None:
    found = fused(rating_a)
    assert (found["fuse_least"].limit, found["fuse_most"].limit) == (15, 24)
    assert found["fuse_least"].verdict is least
    assert found["fuse_most"].verdict is most


@pytest.mark.parametrize(
    ("module_limit_a", "verdict"), [(20.0, Verdict.PASS), (19.9, Verdict.FAIL)], ids=["at", "beyond"]
)
def test_the_modules_mark_is_never_exceeded(module_limit_a: float, verdict: Verdict) -> None:
    assert fused(20.0, module_limit_a=module_limit_a)["fuse_module"].verdict is verdict


@pytest.mark.parametrize(("poles", "verdict"), [("both", Verdict.PASS), ("one", Verdict.FAIL)])
def test_a_string_without_earthed_pole_has_its_fuse_in_both(poles: str, verdict: Verdict) -> None:
    assert fused(20.0, poles=poles)["fuse_poles"].verdict is verdict


@given(
    short_circuit_a=st.floats(0.5, 25),
    count=st.integers(1, 12),
    more=st.integers(0, 5),
    module_limit_a=st.floats(1, 40),
)
def test_more_strings_never_do_without_a_fuse_that_fewer_needed(
    short_circuit_a: float, count: int, more: int, module_limit_a: float
) -> None:
    few, many = (
        next(
            iter(
                CLAUSE.unfused(
                    BOOK,
                    count=strings,
                    short_circuit_a=short_circuit_a,
                    backfeed_a=0.0,
                    module_limit_a=module_limit_a,
                )
            )
        )
        for strings in (count, count + more)
    )
    assert many.verdict >= few.verdict


@given(short_circuit_a=st.floats(2, 20))
def test_some_rating_on_offer_fits_every_usual_current(short_circuit_a: float) -> None:
    """The list of ratings is fine enough that the window between the two bounds is never empty."""
    fitting = [
        rating_a
        for rating_a in CLAUSE.ratings_a(BOOK)
        if 1.5 * short_circuit_a < rating_a < 2.4 * short_circuit_a
    ]
    assert fitting
