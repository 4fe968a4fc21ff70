"""Neutral and earth, earthing and bonding, clause by clause against hand numbers."""

from collections.abc import Iterable

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.bonding import HalfTheProtective
from ferrule.clauses.iec60364.earthing import OwnElectrode
from ferrule.clauses.iec60364.neutral_earth import SwitchedBond
from ferrule.clauses.nec.neutral_earth import SourceBond
from ferrule.constraint import Constraint, Verdict
from ferrule.quantity import Size

BOOK = rules.load("iec-2024")
US = rules.load("us-2023")


def one(found: Iterable[Constraint]) -> Constraint:
    (constraint,) = found
    return constraint


def mm2(area: str) -> Size:
    return Size.parse(f"{area} mm²")


# The number of bonds


@pytest.mark.parametrize("position", ["grid", "island", "bypass", "generator"])
@pytest.mark.parametrize("earthing", ["TN-S", "TN-C-S", "TN-C", "TT"])
@pytest.mark.parametrize(("closed", "verdict"), [(0, "fail"), (1, "pass"), (2, "fail"), (3, "fail")])
def test_an_earthed_system_has_one_bond_in_each_steady_position(
    position: str, earthing: str, closed: int, verdict: str
) -> None:
    found = one(SwitchedBond().bonds(BOOK, position=position, earthing=earthing, closed=closed))
    assert found.verdict.word == verdict


@pytest.mark.parametrize(("closed", "verdict"), [(0, "pass"), (1, "pass"), (2, "fail")])
def test_in_transit_there_may_be_none_but_never_two(closed: int, verdict: str) -> None:
    found = one(SwitchedBond().bonds(BOOK, position="transit", earthing="TN-S", closed=closed))
    assert found.verdict.word == verdict


@pytest.mark.parametrize("position", ["grid", "island", "transit"])
def test_an_it_system_has_none(position: str) -> None:
    clause = SwitchedBond()
    verdicts = [
        one(clause.bonds(BOOK, position=position, earthing="IT", closed=closed)).verdict for closed in (0, 1)
    ]
    assert verdicts == [Verdict.PASS, Verdict.FAIL]


@pytest.mark.parametrize(("gap_s", "verdict"), [(0.02, "pass"), (0.2, "pass"), (0.201, "fail")])
def test_the_bond_may_be_open_for_a_fifth_of_a_second(gap_s: float, verdict: str) -> None:
    """NRS 097-2-1 clause 5.4: 200 ms."""
    found = one(SwitchedBond().gap(BOOK, gap_s=gap_s))
    assert (found.verdict.word, found.limit) == (verdict, 0.2)


@pytest.mark.parametrize("earthing", ["TN-S", "TN-C-S", "TT", "IT"])
def test_the_networks_neutral_is_opened_in_island_mode(earthing: str) -> None:
    clause = SwitchedBond()
    assert (
        one(clause.neutral(BOOK, earthing=earthing, through=False, position="island")).verdict is Verdict.PASS
    )
    through = one(clause.neutral(BOOK, earthing=earthing, through=True, position="island"))
    assert through.verdict is Verdict.FAIL
    assert "opens the neutral" in through.mend


def test_a_combined_conductor_is_never_opened() -> None:
    clause = SwitchedBond()
    assert one(clause.neutral(BOOK, earthing="TN-C", through=True, position="island")).verdict is Verdict.PASS
    opened = one(clause.neutral(BOOK, earthing="TN-C", through=False, position="island"))
    assert opened.verdict is Verdict.FAIL
    assert "run through" in opened.mend


@pytest.mark.parametrize("clause", [SwitchedBond(), SourceBond()], ids=["iec60364", "nec"])
def test_the_bond_stands_on_the_source_side_of_every_residual_current_device(
    clause: SwitchedBond | SourceBond,
) -> None:
    book = BOOK if isinstance(clause, SwitchedBond) else US
    assert one(clause.location(book, behind=[])).verdict is Verdict.PASS
    behind = one(clause.location(book, behind=["C1", "BB"]))
    assert behind.verdict is Verdict.FAIL
    assert dict(behind.words)["behind"] == "C1, BB"


@pytest.mark.parametrize("through", [True, False])
def test_island_mode_asks_for_an_electrode_of_its_own(through: bool) -> None:
    clause = SwitchedBond()
    assert one(clause.electrode(BOOK, through=through, fitted=True)).verdict is Verdict.PASS
    assert one(clause.electrode(BOOK, through=through, fitted=False)).verdict is Verdict.FAIL


def test_the_american_code_asks_for_an_electrode_only_of_a_separately_derived_source() -> None:
    """NFPA 70 section 250.30(A)(4)."""
    clause = SourceBond()
    assert one(clause.electrode(US, through=True, fitted=False)).verdict is Verdict.PASS
    assert one(clause.electrode(US, through=False, fitted=False)).verdict is Verdict.FAIL
    assert one(clause.electrode(US, through=False, fitted=True)).verdict is Verdict.PASS


@pytest.mark.parametrize("through", [True, False])
def test_the_american_code_leaves_the_neutral_to_the_designer(through: bool) -> None:
    """NFPA 70 section 250.30."""
    assert (
        one(SourceBond().neutral(US, earthing="TN-C-S", through=through, position="island")).verdict
        is Verdict.PASS
    )
    assert list(SourceBond().gap(US, gap_s=10.0)) == []


# Earthing


@pytest.mark.parametrize(("size", "verdict"), [("4", "fail"), ("6", "pass"), ("16", "pass")])
def test_the_earthing_conductor_has_six_square_millimetres(size: str, verdict: str) -> None:
    """IEC 60364-5-54 clause 542.3.1."""
    found = one(OwnElectrode().conductor(BOOK, size=mm2(size)))
    assert (found.verdict.word, found.limit) == (verdict, 6.0)


@pytest.mark.parametrize(
    ("electrode_ohm", "residual_a", "verdict"),
    [
        (1666.0, 0.03, "pass"),
        (1667.0, 0.03, "fail"),
        (166.0, 0.3, "pass"),
        (167.0, 0.3, "fail"),
        (50.0, 1.0, "pass"),
    ],
)
def test_an_electrode_and_its_residual_current_device(
    electrode_ohm: float, residual_a: float, verdict: str
) -> None:
    """R_A · I_Δn ≤ 50 V: 50 V / 30 mA = 1667 Ω, 50 V / 300 mA = 167 Ω, rounded up in print."""
    found = one(OwnElectrode().touch_voltage(BOOK, electrode_ohm=electrode_ohm, residual_a=residual_a))
    assert found.verdict.word == verdict
    assert found.value == pytest.approx(electrode_ohm * residual_a)


@pytest.mark.parametrize(("electrode_ohm", "verdict"), [(200.0, "pass"), (201.0, "caution")])
def test_a_poor_electrode_may_not_stay_what_it_is(electrode_ohm: float, verdict: str) -> None:
    """BS 7671 table 41.5 note 2."""
    assert one(OwnElectrode().stable(BOOK, electrode_ohm=electrode_ohm)).verdict.word == verdict


# Bonding


@pytest.mark.parametrize(
    ("protective", "least"),
    [("2.5", 6.0), ("10", 6.0), ("16", 8.0), ("25", 12.5), ("50", 25.0), ("95", 25.0)],
)
def test_main_bonding_has_half_of_the_largest_protective_conductor_within_bounds(
    protective: str, least: float
) -> None:
    """IEC 60364-5-54 clause 544.1: half, at least 6 mm², no more than 25 mm² needed."""
    found = one(HalfTheProtective().main(BOOK, size=mm2("10"), largest_protective=mm2(protective)))
    assert found.limit == pytest.approx(least)
    assert (found.verdict is Verdict.PASS) == (least <= 10.0)


@pytest.mark.parametrize(
    ("protective", "protected", "least"),
    [("1.5", True, 2.5), ("1.5", False, 4.0), ("6", True, 3.0), ("10", False, 5.0)],
)
def test_supplementary_bonding_is_half_of_the_protective_conductor_and_strong_enough(
    protective: str, protected: bool, least: float
) -> None:
    """IEC 60364-5-54 clause 544.2: half, at least 2.5 mm² protected and 4 mm² unprotected."""
    found = one(
        HalfTheProtective().supplementary(
            BOOK, size=mm2("4"), protective=mm2(protective), protected=protected
        )
    )
    assert found.limit == pytest.approx(least)
    assert (found.verdict is Verdict.PASS) == (least <= 4.0)


@pytest.mark.parametrize(("lightning", "least"), [("none", 6.0), ("separated", 6.0), ("bonded", 16.0)])
def test_the_frame_has_a_size_of_its_own(lightning: str, least: float) -> None:
    """The stricter of IEC 60364-7-712 (4 mm²) and IEC 62548-1 (6 mm²); 16 mm² by IEC 62305-3."""
    clause = HalfTheProtective()
    assert one(clause.array(BOOK, size=mm2("4"), lightning=lightning)).verdict is Verdict.FAIL
    found = one(clause.array(BOOK, size=mm2("16"), lightning=lightning))
    assert (found.verdict, found.limit) == (Verdict.PASS, least)


def test_sizes_on_offer_rise() -> None:
    for sizes in (HalfTheProtective().sizes(BOOK), OwnElectrode().sizes(BOOK)):
        areas = [size.area_mm2 for size in sizes]
        assert areas == sorted(areas)
        assert 16.0 in areas
