"""The battery circuit by the international rules, against hand numbers."""

from collections.abc import Iterable

import pytest

from ferrule import rules
from ferrule.clauses.iec60364.battery import ShortAndFused
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Constraint, Verdict
from ferrule.fact import Missing
from ferrule.quantity import Size

BOOK = rules.load("iec-2024")
CLAUSE = ShortAndFused()
FLEX = CableKind("xlpe", "cu", "class5", "single-core")
PV = CableKind("pv", "cu", "class5-tinned", "single-core")


def laid(method: str = "F", ambient_c: float = 30.0, circuits: int = 1) -> tuple[Laid, ...]:
    return (Laid(2.5, method, ambient_c, circuits, "bunched"),)


def by_name(found: Iterable[Constraint]) -> dict[str, Constraint]:
    return {constraint.name: constraint for constraint in found}


@pytest.mark.parametrize(
    ("design_a", "rated", "spare"),
    [
        (160.0, Verdict.PASS, Verdict.PASS),
        (160.1, Verdict.PASS, Verdict.CAUTION),
        (200.0, Verdict.PASS, Verdict.CAUTION),
        (200.1, Verdict.FAIL, Verdict.CAUTION),
    ],
)
def test_the_device_carries_the_current_and_should_have_a_quarter_to_spare(
    design_a: float, rated: Verdict, spare: Verdict
) -> None:
    """200 A over 1.25 are 160 A."""
    found = by_name(CLAUSE.rating(BOOK, rating_a=200.0, design_a=design_a))
    assert (found["device_rating"].verdict, found["device_spare"].verdict) == (rated, spare)


def device(
    kind: str = "fuse-gBat", *, polarised: bool = False, poles: str = "both", earthed_pole: str = "none"
) -> dict[str, Constraint]:
    return by_name(
        CLAUSE.device(BOOK, kind=kind, polarised=polarised, poles=poles, earthed_pole=earthed_pole)
    )


@pytest.mark.parametrize(
    ("kind", "verdict"),
    [
        ("fuse-gBat", Verdict.PASS),
        ("fuse-gR", Verdict.PASS),
        ("fuse-aR", Verdict.PASS),
        ("fuse-T", Verdict.PASS),
        ("breaker-dc", Verdict.PASS),
        ("fuse-gG", Verdict.FAIL),
        ("breaker-ac", Verdict.FAIL),
    ],
)
def test_kinds_of_device(kind: str, verdict: Verdict) -> None:
    assert device(kind)["device_class"].verdict is verdict


def test_a_fuse_for_short_circuits_only_is_a_caution() -> None:
    assert device("fuse-aR")["device_range"].verdict is Verdict.CAUTION
    assert "device_range" not in device("fuse-gBat")
    assert "device_range" not in device("breaker-dc")


def test_a_polarity_fails_for_current_flows_both_ways() -> None:
    assert device("breaker-dc", polarised=True)["device_direction"].verdict is Verdict.FAIL
    assert device("breaker-dc")["device_direction"].verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("poles", "earthed_pole", "verdict"),
    [
        ("both", "none", Verdict.PASS),
        ("one", "none", Verdict.FAIL),
        ("one", "minus", Verdict.PASS),
        ("both", "minus", Verdict.PASS),
    ],
)
def test_every_pole_that_is_not_earthed_is_protected(poles: str, earthed_pole: str, verdict: Verdict) -> None:
    assert device(poles=poles, earthed_pole=earthed_pole)["device_poles"].verdict is verdict


@pytest.mark.parametrize(("separated", "verdict"), [(True, Verdict.PASS), (False, Verdict.FAIL)])
def test_a_pole_is_earthed_only_where_the_inverter_separates(separated: bool, verdict: Verdict) -> None:
    (found,) = CLAUSE.earthed_pole(BOOK, separated=separated)
    assert found.verdict is verdict


@pytest.mark.parametrize(("distance_m", "verdict"), [(0.178, Verdict.PASS), (0.18, Verdict.CAUTION)])
def test_seven_inches_to_the_device_are_the_stricter_convention(distance_m: float, verdict: Verdict) -> None:
    (found,) = CLAUSE.distance(BOOK, distance_m=distance_m)
    assert (found.verdict, found.limit) == (verdict, 0.178)


@pytest.mark.parametrize(
    ("size", "cable", "stretches", "carries_a"),
    [
        ("35", FLEX, laid(), 200.0),  # IEC 60364-5-52 table B.52.12, two in air, touching
        ("35", FLEX, laid(ambient_c=40.0), 0.91 * 200),  # table B.52.14
        ("35", FLEX, laid("C"), 171.0),  # table B.52.3
        ("6", PV, laid(ambient_c=35.0), 57.0),  # EN 50618 table A.3, two touching
        ("6", PV, laid(ambient_c=70.0), 0.9129 * 57),  # √(50/60), below the printed 0.92
    ],
)
def test_what_the_cable_carries_limits_its_device(
    size: str, cable: CableKind, stretches: tuple[Laid, ...], carries_a: float
) -> None:
    def carries(rating_a: float) -> Constraint:
        (found,) = CLAUSE.carries(
            BOOK, rating_a=rating_a, size=Size("mm²", size), cable=cable, stretches=stretches
        )
        return found

    assert carries(1.0).value == pytest.approx(carries_a, rel=1e-4)
    value = carries(1.0).value
    assert value is not None
    assert carries(value).verdict is Verdict.PASS
    assert carries(value + 0.1).verdict is Verdict.FAIL


def withstands(
    kind: str = "fuse-gBat", *, rating_a: float = 200.0, let_through_a2s: float | None = None
) -> Constraint:
    (found,) = CLAUSE.withstands(
        BOOK,
        kind=kind,
        rating_a=rating_a,
        let_through_a2s=let_through_a2s,
        size=Size("mm²", "35"),
        cable=FLEX,
        stretches=laid(),
        fault_a=4_800.0,
    )
    return found


@pytest.mark.parametrize("kind", ["fuse-gBat", "fuse-aR", "breaker-dc"])
def test_what_the_device_lets_through_is_compared_where_its_sheet_says(kind: str) -> None:
    """By k = 143 and 35 mm²: 143² · 35² = 25 050 025 A²s."""
    at_limit = withstands(kind, let_through_a2s=25_050_025.0)
    assert (at_limit.verdict, at_limit.limit) == (Verdict.PASS, 25_050_025.0)
    assert withstands(kind, let_through_a2s=25_050_026.0).verdict is Verdict.FAIL


def test_a_fuse_of_full_range_also_guards_from_a_short_circuit() -> None:
    """(143 · 35 / 4800)² s = 1.087 s that the cable bears by itself."""
    found = withstands()
    assert found.verdict is Verdict.PASS
    assert dict(found.words)["bears_s"] == pytest.approx(1.0872, rel=1e-4)
    assert withstands(rating_a=200.1).verdict is Verdict.FAIL


@pytest.mark.parametrize("kind", ["fuse-aR", "breaker-dc"])
def test_others_do_not_without_their_sheet(kind: str) -> None:
    with pytest.raises(Missing, match="lets through"):
        withstands(kind)


@pytest.mark.parametrize(("length_m", "verdict"), [(3.66, Verdict.PASS), (3.67, Verdict.CAUTION)])
def test_drop(length_m: float, verdict: Verdict) -> None:
    """50 mm² of class 5: 0.386 Ω/km at 20 °C, 0.4922 Ω/km at 90 °C; 142 A over 51.2 V lose 1 % in 3.663 m."""
    (found,) = CLAUSE.drops(
        BOOK, length_m=length_m, current_a=142.0, voltage_v=51.2, size=Size("mm²", "50"), cable=FLEX
    )
    assert found.verdict is verdict
    assert found.value == pytest.approx(length_m / 3.663, rel=1e-3)


@pytest.mark.parametrize(
    ("poles", "verdict"),
    [("all-poles", Verdict.PASS), ("one-pole", Verdict.FAIL), ("none", Verdict.FAIL)],
)
def test_the_switch_opens_all_poles(poles: str, verdict: Verdict) -> None:
    (found,) = CLAUSE.isolates(BOOK, poles=poles)
    assert found.verdict is verdict


def test_the_switch_can_be_locked() -> None:
    (locked,) = CLAUSE.locks(BOOK, lockable=True)
    (loose,) = CLAUSE.locks(BOOK, lockable=False)
    assert (locked.verdict, loose.verdict) == (Verdict.PASS, Verdict.FAIL)


@pytest.mark.parametrize(
    ("coldest_c", "hottest_c", "cold", "hot"),
    [
        (0.0, 55.0, Verdict.PASS, Verdict.PASS),
        (-0.1, 55.0, Verdict.CAUTION, Verdict.PASS),
        (0.0, 55.1, Verdict.PASS, Verdict.CAUTION),
    ],
)
def test_cells_of_iron_phosphate(coldest_c: float, hottest_c: float, cold: Verdict, hot: Verdict) -> None:
    found = by_name(CLAUSE.charged_cold(BOOK, chemistry="lfp", coldest_c=coldest_c, hottest_c=hottest_c))
    assert (found["cells_cold"].verdict, found["cells_hot"].verdict) == (cold, hot)
    assert not list(CLAUSE.charged_cold(BOOK, chemistry="lead", coldest_c=coldest_c, hottest_c=hottest_c))


@pytest.mark.parametrize(
    ("voltage_v", "warns"), [(57.6, False), (120.0, False), (120.1, True), (800.0, True)]
)
def test_the_cable_is_doubly_insulated_and_above_touch_voltage_it_says_why(
    voltage_v: float, warns: bool
) -> None:
    (single,) = CLAUSE.insulation(BOOK, doubled=False, voltage_v=voltage_v)
    (double,) = CLAUSE.insulation(BOOK, doubled=True, voltage_v=voltage_v)
    assert (single.verdict, double.verdict) == (Verdict.FAIL, Verdict.PASS)
    assert ("kill" in single.text) is warns


def test_only_sizes_with_a_printed_capacity_are_offered() -> None:
    """Table B.52.12 begins at 25 mm² for single cores in air, table B.52.3 at 1.5 mm²."""
    in_air = CLAUSE.sizes(BOOK, cable=FLEX, stretches=laid())
    on_wall = CLAUSE.sizes(BOOK, cable=FLEX, stretches=laid("C"))
    solar = CLAUSE.sizes(BOOK, cable=PV, stretches=laid())
    assert (str(in_air[0]), str(on_wall[0]), str(solar[0])) == ("25 mm²", "1.5 mm²", "4 mm²")
    aluminium = FLEX._replace(conductor="al")
    assert CLAUSE.sizes(BOOK, cable=aluminium, stretches=laid())  # so that the finding tells why
