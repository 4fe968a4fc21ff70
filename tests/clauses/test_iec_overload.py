"""A conductor with its device by the international rules."""

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.conductor import OverloadProtection
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, Verdict
from ferrule.quantity import Size
from ferrule.working import Given, NotPrinted, Trace

BOOK = rules.load("iec-2024")
CLAUSE = OverloadProtection()
PVC = CableKind("pvc", "cu", "class2", "multicore")
PVC_SINGLE = CableKind("pvc", "cu", "class2", "single-core")


def laid(method: str = "C", ambient_c: float = 30, circuits: int = 1, grouping: str = "") -> Laid:
    return Laid(10, method, ambient_c, circuits, grouping or ("wall" if method == "C" else "bunched"))


def judged(
    *,
    rating_a: float,
    kind: str = "mcb",
    size: str = "2.5",
    cable: CableKind = PVC,
    stretches: tuple[Laid, ...] = (laid(),),
    loaded: int = 2,
) -> dict[str, Constraint]:
    found = CLAUSE.conductor(
        Trace(BOOK), design_a=rating_a, kind=kind, rating_a=rating_a, size=Size("mm²", size), cable=cable,
        stretches=stretches, loaded=loaded,
    )  # fmt: skip
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(
    ("design_a", "verdict"), [(15.9, Verdict.PASS), (16.0, Verdict.PASS), (16.01, Verdict.FAIL)]
)
def test_the_device_carries_the_design_current(design_a: float, verdict: Verdict) -> None:
    found = CLAUSE.device(Trace(BOOK), design_a=design_a, kind="mcb", rating_a=16)
    assert found.verdict is verdict


def test_the_working_begins_with_where_the_current_comes_from() -> None:
    t = Trace(BOOK)
    t.given("power_w", 3000, "boiler")
    found = CLAUSE.device(t, design_a=13, kind="mcb", rating_a=16)
    assert found.steps[0] == Given("power_w", 3000, "boiler")


@pytest.mark.parametrize(
    ("rating_a", "verdict"), [(25.0, Verdict.PASS), (27.0, Verdict.PASS), (27.1, Verdict.FAIL)]
)
def test_the_conductor_carries_what_the_device_lets_through(rating_a: float, verdict: Verdict) -> None:
    """2.5 mm² of PVC clipped to a wall, two loaded: 27 A (IEC 60364-5-52 table B.52.2)."""
    found = judged(rating_a=rating_a)["conductor_capacity"]
    assert found.value == 27
    assert found.verdict is verdict


def test_every_factor_multiplies_and_the_worst_stretch_counts() -> None:
    """27 · 0.94 · 0.79 in the cellar; 23 · 1.06 in the conduit is more."""
    cellar, conduit = laid(ambient_c=35, circuits=3), laid("B2", ambient_c=25)
    found = judged(rating_a=20, stretches=(conduit, cellar))["conductor_capacity"]
    assert found.value == pytest.approx(27 * 0.94 * 0.79)
    assert [read.value for read in found.reads] == [27, 0.94, 0.79]


@pytest.mark.parametrize(
    ("kind", "rating_a", "sure_a"), [("mcb", 20, 29), ("fuse-gG", 20, 32), ("fuse-gG", 10, 19)]
)
def test_what_surely_trips(kind: str, rating_a: float, sure_a: float) -> None:
    """1.45 times the rating for a breaker, 1.6 for a fuse, 1.9 for one below 16 A; against 1.45 · 27 A."""
    found = judged(rating_a=rating_a, kind=kind)["overload_trip"]
    assert found.value == pytest.approx(sure_a)
    assert found.limit == pytest.approx(1.45 * 27)


def test_a_fuse_needs_more_cable_than_a_breaker_of_the_same_rating() -> None:
    """25 A on 27 A: 1.6 · 25 = 40 A is more than 1.45 · 27 = 39.15 A."""
    assert judged(rating_a=25, kind="mcb")["overload_trip"].verdict is Verdict.PASS
    assert judged(rating_a=25, kind="fuse-gG")["overload_trip"].verdict is Verdict.FAIL


@pytest.mark.parametrize(
    ("method", "loaded", "printed_a"),
    [("F", 2, 131), ("F", 3, 110), ("G", 2, 131), ("G", 3, 130)],
)
def test_single_cables_in_free_air_get_the_least_of_their_layings(
    method: str, loaded: int, printed_a: float
) -> None:
    """25 mm², IEC 60364-5-52 table B.52.10: touching flat, trefoil, and spaced one above the other."""
    found = judged(rating_a=80, size="25", cable=PVC_SINGLE, stretches=(laid(method),), loaded=loaded)
    assert found["conductor_capacity"].value == printed_a


@pytest.mark.parametrize(
    ("method", "cable", "other"),
    [("B1", PVC, "B2"), ("A1", PVC, "A2"), ("F", PVC, "E"), ("G", PVC, "E"), ("E", PVC_SINGLE, "F"),
     ("B2", PVC_SINGLE, "B1"), ("A2", PVC_SINGLE, "A1")],
)  # fmt: skip
def test_a_method_for_another_build_is_refused_with_the_right_one(
    method: str, cable: CableKind, other: str
) -> None:
    with pytest.raises(NotPrinted, match=f"{other}$"):
        judged(rating_a=16, size="25", cable=cable, stretches=(laid(method),))


@pytest.mark.parametrize(("source_a", "verdict"), [(27, Verdict.PASS), (27.1, Verdict.FAIL)])
def test_a_source_of_limited_current_protects_what_carries_it(source_a: float, verdict: Verdict) -> None:
    found = CLAUSE.limited(
        Trace(BOOK),
        source_a=source_a,
        size=Size("mm²", "2.5"),
        cable=PVC,
        stretches=[laid()],
        loaded=2,
    )
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("method", "cable", "circuits", "factor"),
    [
        ("D2", PVC, 1, 1.0),
        ("D2", PVC, 2, 0.75),
        ("D2", PVC_SINGLE, 4, 0.60),
        ("D1", PVC, 2, 0.85),
        ("D1", PVC_SINGLE, 2, 0.80),
        ("D1", PVC, 6, 0.60),
    ],
)
def test_neighbours_in_the_ground_count_as_touching(
    method: str, cable: CableKind, circuits: int, factor: float
) -> None:
    """IEC 60364-5-52:2009 tables B.52.18 and B.52.19, first column of each; bunched in air two leave 0.80."""
    alone, beside = (
        judged(rating_a=16, cable=cable, stretches=(laid(method, 20, n),))["conductor_capacity"].value
        for n in (1, circuits)
    )
    assert alone is not None
    assert beside == pytest.approx(factor * alone)


def test_more_circuits_in_the_ground_than_house_work_has_are_refused() -> None:
    with pytest.raises(NotPrinted, match="grouping_factor_ground"):
        judged(rating_a=16, stretches=(laid("D2", 20, 7),))


@pytest.mark.parametrize(
    ("method", "cable", "grouping"),
    [("B2", PVC, "wall"), ("B2", PVC, "ladder"), ("C", PVC, "perforated_tray"), ("E", PVC, "ceiling")],
)
def test_an_arrangement_that_the_method_rules_out_is_refused(
    method: str, cable: CableKind, grouping: str
) -> None:
    """Table B.52.17: one layer on a wall goes with method C, trays and ladders with E and F."""
    with pytest.raises(NotPrinted, match=f"not laid by method {method}"):
        judged(rating_a=16, cable=cable, stretches=(laid(method, 30, 2, grouping),))


def test_a_photovoltaic_cable_has_no_tabulated_alternating_current() -> None:
    with pytest.raises(NotPrinted, match="direct current only"):
        judged(rating_a=16, cable=CableKind("pv", "cu", "class5-tinned", "single-core"), stretches=(laid(),))
