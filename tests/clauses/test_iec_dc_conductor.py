"""Cables of an array by the international rules, as laid on a roof and below it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.dc_conductor import HotRoof
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, Verdict
from ferrule.quantity import Size
from ferrule.working import NotPrinted, Trace

BOOK = rules.load("iec-2024")
CLAUSE = HotRoof()
PV = CableKind("pv", "cu", "class5-tinned", "single-core")
FOUR = Size("mm²", "4")


def laid(method: str, ambient_c: float, *, circuits: int = 1, on_roof: bool = False) -> Laid:
    return Laid(10.0, method, ambient_c, circuits, "bunched", on_roof=on_roof)


def capacity_a(stretch: Laid, *, size: Size = FOUR, cable: CableKind = PV) -> float:
    return CLAUSE.capacity_a(Trace(BOOK), size=size, cable=cable, stretch=stretch)


@pytest.mark.parametrize(
    ("stretch", "expected_a"),
    [
        (laid("C", 60), 44),  # two touching, EN 50618 table A.3
        (laid("C", 20), 44),  # cooler air is not counted on
        (laid("E", 60), 44),
        (laid("F", 60), 44),
        (laid("G", 60), 55),  # apart in free air
        (laid("F", 70), 40.17),  # √(50/60) = 0.9129 is less than the printed 0.92
        (laid("F", 75), 36.96),  # the printed 0.84 of the row above is less than √(45/60) = 0.866
        (laid("F", 80), 35.93),  # √(40/60) = 0.8165 is less than 0.84
        (laid("F", 50, on_roof=True), 35.93),  # a roof in the sun counts as 80 °C
        (laid("F", 85, on_roof=True), 33),  # its own heat where that is more: 0.75, row 90
        (laid("F", 60, circuits=2), 35.2),  # two circuits bunched: 0.80
        (laid("B1", 30), 42),  # in pipe as a cable of 90 °C, IEC 60364-5-52 table B.52.3
        (laid("B1", 50), 34.44),  # × 0.82
        (laid("A1", 30), 35),  # in an insulated wall
    ],
)
def test_what_four_square_millimetres_carry(stretch: Laid, expected_a: float) -> None:
    assert capacity_a(stretch) == pytest.approx(expected_a, abs=0.006)


def test_any_other_cable_carries_what_its_own_insulation_allows() -> None:
    """IEC 60364-5-52 table B.52.2: 4 mm², PVC, method C, two loaded: 36 A; at 70 °C air nothing is left."""
    pvc = CableKind("pvc", "cu", "class2", "multicore")
    assert capacity_a(laid("C", 30), cable=pvc) == pytest.approx(36)
    with pytest.raises(NotPrinted):
        capacity_a(laid("C", 30, on_roof=True), cable=pvc)


@pytest.mark.parametrize(
    ("size", "cable", "stretch"),
    [
        (Size("AWG", "10"), PV, laid("F", 60)),
        (FOUR, PV._replace(conductor="al"), laid("F", 60)),
        (FOUR, PV, laid("F", 100)),
    ],
    ids=["gauge", "aluminium", "too hot"],
)
def test_what_is_not_printed_is_refused(size: Size, cable: CableKind, stretch: Laid) -> None:
    with pytest.raises(NotPrinted):
        capacity_a(stretch, size=size, cable=cable)


def carries(
    *, count: int = 1, short_circuit_a: float = 10.0, backfeed_a: float = 0.0, fuse_a: float | None = None
) -> dict[str, Constraint]:
    found = CLAUSE.carries(
        BOOK,
        count=count,
        short_circuit_a=short_circuit_a,
        backfeed_a=backfeed_a,
        fuse_a=fuse_a,
        size=FOUR,
        cable=PV,
        stretches=[laid("G", 60), laid("F", 60)],
    )
    return {constraint.name: constraint for constraint in found}


def test_a_lone_string_asks_for_a_quarter_more_than_its_short_circuit_current() -> None:
    found = carries()
    assert set(found) == {"string_current"}
    assert (found["string_current"].value, found["string_current"].limit) == (44, 12.5)


@pytest.mark.parametrize(("short_circuit_a", "verdict"), [(35.2, Verdict.PASS), (35.21, Verdict.FAIL)])
def test_the_stretch_that_carries_least_decides(short_circuit_a: float, verdict: Verdict) -> None:
    """44 A are 1.25 × 35.2 A."""
    assert carries(short_circuit_a=short_circuit_a)["string_current"].verdict is verdict


def test_unfused_strings_drive_back_what_all_the_others_drive() -> None:
    """Two others of 1.25 × 10 A, and 3 A from the inverter."""
    assert carries(count=3, backfeed_a=3.0)["reverse_current"].limit == pytest.approx(28)
    assert carries(backfeed_a=3.0)["reverse_current"].limit == pytest.approx(3)


def test_a_fuse_takes_the_place_of_what_flows_back() -> None:
    found = carries(count=5, fuse_a=20.0)
    assert set(found) == {"string_current", "fuse_rating"}
    assert found["fuse_rating"].limit == 20


@pytest.mark.parametrize(("doubled", "verdict"), [(True, Verdict.PASS), (False, Verdict.FAIL)])
def test_its_insulation_is_double(doubled: bool, verdict: Verdict) -> None:
    assert CLAUSE.insulation(BOOK, doubled=doubled).verdict is verdict


@pytest.mark.parametrize(
    ("voltage_v", "drop", "ceiling"),
    [
        (260.0, Verdict.PASS, Verdict.PASS),
        (259.0, Verdict.CAUTION, Verdict.PASS),
        (87.0, Verdict.CAUTION, Verdict.PASS),
        (86.0, Verdict.CAUTION, Verdict.CAUTION),
    ],
)
def test_what_it_loses(voltage_v: float, drop: Verdict, ceiling: Verdict) -> None:
    """4 mm², class 5 tinned: 5.09 Ω/km at 20 °C, × (234.5 + 90)/254.5 = 6.490 Ω/km; 2 × 20 m at 10 A lose
    2.596 V, which is 1 % of 259.6 V and 3 % of 86.5 V. Both limits are conventions.
    """
    found = CLAUSE.drops(BOOK, length_m=20.0, current_a=10.0, voltage_v=voltage_v, size=FOUR, cable=PV)
    assert [constraint.verdict for constraint in found] == [drop, ceiling]


@given(
    thin=st.integers(0, 2),
    ambient_c=st.floats(0, 90),
    hotter_k=st.floats(0, 40),
    circuits=st.integers(1, 6),
    method=st.sampled_from(["F", "G", "C"]),
    on_roof=st.booleans(),
)
def test_thicker_carries_more_and_hotter_never_does(
    thin: int, ambient_c: float, hotter_k: float, circuits: int, method: str, on_roof: bool
) -> None:
    sizes = CLAUSE.sizes(BOOK)
    stretch = laid(method, min(ambient_c, 90), circuits=circuits, on_roof=on_roof)
    hotter = stretch._replace(ambient_c=min(ambient_c + hotter_k, 90))
    carried_a = capacity_a(stretch, size=sizes[thin])
    assert capacity_a(stretch, size=sizes[thin + 1]) > carried_a
    assert capacity_a(hotter, size=sizes[thin]) <= carried_a
