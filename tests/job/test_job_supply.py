"""A supply and a site that contradict themselves or what hangs on them are refused."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from houses import loaded

THREE = [{"name": f"L{n}", "voltage": "230 V", "angle": f"{-120 * (n - 1)}°"} for n in (1, 2, 3)]
SPLIT = [{"name": "L1", "voltage": "120 V"}, {"name": "L2", "voltage": "120 V", "angle": "180°"}]
CIRCUIT = "boards.MB.circuits.C-inverter.phases"


@pytest.mark.parametrize(
    ("edits", "house", "found", "allowed"),
    [
        ({"site.hottest": "-16 °C"}, "meter-led", "'-16 °C'", "more than coldest"),
        ({"supply.highest": "229 V"}, "meter-led", "'229 V'", "not below the voltage of the lines"),
        ({"supply.highest": "0 V"}, "meter-led", "'0 V'", "not below the voltage of the lines"),
        ({"supply.live.0.voltage": "0 V"}, "meter-led", "'0 V'", "not below 50"),
        ({"supply.fault_current_max": "0 A"}, "meter-led", "'0 A'", "not below 50"),
        ({"supply.loop_max": "0 Ω"}, "meter-led", "'0 Ω'", "not below 0.001"),
        ({"supply.fault_current_max": "60 A"}, "meter-led", "Ω'", "through it, more than fault_current_max"),
        (
            {"supply.loop_max": "0.03 Ω"},
            "meter-led",
            "'0.03 Ω'",
            "not below 0.0548 Ω: 230 V would drive 7,667 A",
        ),
        ({"supply.neutral_loop_max": "0.03 Ω"}, "meter-led", "'0.03 Ω'", "not below 0.0548 Ω"),
        (
            {"supply.live": [*THREE, {"name": "L4", "voltage": "230 V"}]},
            "changeover-led",
            "list",
            "at most 3",
        ),
        ({"supply.live": [dict(THREE[0]), dict(THREE[0])]}, "meter-led", "id 'L1' again", "another id"),
        ({"supply.live": THREE, CIRCUIT: ["L1", "L2", "L3"]}, "meter-led", "line conductors: 3", "1, as"),
        ({"supply.live": THREE, CIRCUIT: ["L1", "L2"]}, "meter-led", "line conductors: 2", "1, as"),
        ({"boards.MB.circuits.C-INV1.phases": ["L1"]}, "changeover-led", "line conductors: 1", "3, as"),
        ({"boards.MB.circuits.C-INV1.phases": ["L1"] * 3}, "changeover-led", "line conductors: 1", "3, as"),
    ],
)
def test_a_contradiction_is_refused_where_it_stands(
    edits: dict[str, Any], house: str, found: str, allowed: str
) -> None:
    with pytest.raises(Unreadable) as refused:
        loaded(edits, house)
    (problem,) = refused.value.problems
    assert found in problem.found
    assert allowed in problem.allowed
    assert problem.line > 1


def test_a_three_phase_inverter_finds_no_three_lines_in_a_house_of_one() -> None:
    with pytest.raises(Unreadable) as refused:
        loaded({"supply.live": SPLIT}, "changeover-led")
    assert any("line conductors to it: 2" in problem.found for problem in refused.value.problems)


@pytest.mark.parametrize("phases", [["L1"], ["L1", "L2"]])
def test_a_single_phase_inverter_takes_one_line_or_both_of_a_split_phase(phases: list[str]) -> None:
    assert loaded({"supply.live": SPLIT, CIRCUIT: phases}).job.supply.live[1].name == "L2"


def test_figures_that_an_enquiry_rounds_do_not_contradict_each_other() -> None:
    rounded = {"supply.loop_max": "0.28 Ω", "supply.fault_current_max": "800 A"}  # 230 V / 0.28 Ω: 821 A
    assert loaded(rounded).job.supply.loop_max_ohm == 0.28
