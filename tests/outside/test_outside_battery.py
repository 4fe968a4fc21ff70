"""Battery circuits against printed examples, a network solved another way, and what must always hold."""

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ferrule import rules
from ferrule.clauses.iec60364.battery import ShortAndFused
from ferrule.clauses.values import CableKind, Laid
from ferrule.constraint import Verdict
from ferrule.physics.battery import (
    battery_current,
    battery_fault_current,
    branch_resistance,
    pack_share,
    parallel_resistance,
)
from ferrule.quantity import Size
from houses import answered, constraint, finding

BOOK = rules.load("iec-2024")
FLEX = CableKind("xlpe", "cu", "class5", "single-core")


# Printed examples


def test_current_and_fuse_of_a_24_volt_inverter() -> None:
    """Wire sizing between inverter and battery, a syllabus for installers of photovoltaic systems (2010)
    after the practice of NEC article 690: 2500 W, 85 % and 22 V draw 134 A; the circuit is sized for 167 A.
    """
    drawn_a = battery_current(power_w=2_500, efficiency_pct=85, voltage_v=22)
    assert round(drawn_a) == 134
    (_, spare) = ShortAndFused().rating(BOOK, rating_a=200, design_a=drawn_a)
    assert spare.limit is not None
    assert round(spare.limit) == 167


def test_current_and_fuse_of_a_12_volt_inverter() -> None:
    """Rule for the branch circuit of an inverter, printed in a digest of an off-grid forum: 1200 W through
    85 % at a cut-off of 10.5 V times 1.25 make 168 A.
    """
    drawn_a = battery_current(power_w=1_200, efficiency_pct=85, voltage_v=10.5)
    (_, spare) = ShortAndFused().rating(BOOK, rating_a=200, design_a=drawn_a)
    assert spare.limit is not None
    assert round(spare.limit) == 168


def test_fuse_between_the_current_and_what_the_cable_carries() -> None:
    """What size fuse between battery and inverter (renewablewise.com): 30 A on a cable for 40 A want 40 A."""
    clause = ShortAndFused()
    ratings_a = clause.ratings_a(BOOK)
    fitting = [
        rating_a
        for rating_a in ratings_a
        if rating_a <= 40
        and all(c.verdict is Verdict.PASS for c in clause.rating(BOOK, rating_a=rating_a, design_a=30))
    ]
    assert fitting == [40]


def test_fault_current_of_seven_rows_of_blocks() -> None:
    """Engineering forum eng-tips, thread 345438 on bolted faults in direct-current systems: blocks of
    12 V that drive 3800 A have 3.16 mΩ, seven in parallel drive 26.6 kA; four blocks in series with three
    links of 1.5 mΩ, two cables of 3.5 mΩ and a breaker of 1.2 mΩ make a row of about 25 mΩ.
    """
    each_ohm = 12 / 3_800
    assert round(each_ohm * 1e3, 2) == 3.16
    together = battery_fault_current(
        voltage_v=12, internal_ohm=parallel_resistance(each_ohm=each_ohm, count=7), cable_ohm=0
    )
    assert together == pytest.approx(26_600, abs=50)
    row_ohm = branch_resistance(internal_ohm=4 * each_ohm, lead_ohm=3 * 1.5e-3 + 2 * 3.5e-3 + 1.2e-3)
    assert round(row_ohm, 3) == 0.025


def test_a_battery_of_one_ohm() -> None:
    """Solved problem 1.14 of a circuit-theory course (holooly.com): 12 V over 1 Ω drive 12 A at most."""
    assert battery_fault_current(voltage_v=12, internal_ohm=1, cable_ohm=0) == 12


# Another way


@given(
    leads=st.lists(st.floats(0.5e-3, 20e-3), min_size=2, max_size=6),
    internal_ohm=st.floats(2e-3, 50e-3),
    current_a=st.floats(1, 400),
)
def test_no_pack_carries_more_than_the_shared_estimate(
    leads: list[float], internal_ohm: float, current_a: float
) -> None:
    """The network of all packs solved as linear equations: the pack with the shortest leads carries what
    `pack_share` says if all others are alike, and never more than with the longest leads in all the others.
    """
    branches = [internal_ohm + lead for lead in leads]
    count = len(branches)
    # unknowns: the current of each pack, and the voltage they lose alike
    matrix = numpy.zeros((count + 1, count + 1))
    for at, branch in enumerate(branches):
        matrix[at, at], matrix[at, count] = branch, -1.0
    matrix[count, :count] = 1.0
    *shares_a, _ = numpy.linalg.solve(matrix, numpy.array([0.0] * count + [current_a]))
    bound_pct = pack_share(own_ohm=min(branches), other_ohm=max(branches), others=count - 1)
    assert max(shares_a) <= current_a * bound_pct / 100 * (1 + 1e-9)
    if count == 2:
        assert max(shares_a) == pytest.approx(current_a * bound_pct / 100)


# What must always hold


@given(
    at=st.integers(0, 4),
    length_m=st.floats(0.5, 20),
    current_a=st.floats(1, 200),
    voltage_v=st.sampled_from([51.2, 409.6, 800.0]),
)
def test_a_thicker_or_shorter_cable_never_loses_more(
    at: int, length_m: float, current_a: float, voltage_v: float
) -> None:
    clause = ShortAndFused()
    sizes = clause.sizes(BOOK, cable=FLEX, stretches=(Laid(length_m, "F", 30, 1, "bunched"),))

    def lost_pct(size: Size, length_m: float) -> float:
        (found,) = clause.drops(
            BOOK, length_m=length_m, current_a=current_a, voltage_v=voltage_v, size=size, cable=FLEX
        )
        assert found.value is not None
        return found.value

    assert lost_pct(sizes[at + 1], length_m) < lost_pct(sizes[at], length_m)
    assert lost_pct(sizes[at], length_m / 2) < lost_pct(sizes[at], length_m)


@given(power_w=st.floats(500, 20_000), voltage_v=st.floats(10, 900), efficiency_pct=st.floats(60, 99))
def test_an_emptier_battery_gives_more_current(
    power_w: float, voltage_v: float, efficiency_pct: float
) -> None:
    full_a = battery_current(power_w=power_w, efficiency_pct=efficiency_pct, voltage_v=voltage_v)
    empty_a = battery_current(power_w=power_w, efficiency_pct=efficiency_pct, voltage_v=0.8 * voltage_v)
    assert empty_a > full_a
    assert full_a * voltage_v >= power_w  # what is lost in the inverter comes from the battery as well


def test_units_spelled_differently_answer_alike() -> None:
    plain = finding(answered(), "battery.protection", "battery/BAT")
    other = {
        "parts.example-lfp-10k.internal": "0.012 Ω",
        "parts.example-lfp-10k.short_circuit": "4200 A",
        "parts.example-lfp-10k.voltage_high": "57600 mV",
        "parts.example-hybrid-6k-single.backup.power": "6000 VA",
        "devices.BAT.protection_distance": "150 mm",
    }
    spelled = finding(answered(other), "battery.protection", "battery/BAT")
    for ours in plain.constraints:
        theirs = constraint(spelled, ours.name)
        assert theirs.verdict is ours.verdict
        if ours.limit is not None:
            assert theirs.limit == pytest.approx(ours.limit, rel=1e-12)
