"""Fault currents against an IEC 60909 solver and against published calculation sheets."""

import math
from typing import Any

import pandapower
import pandapower.shortcircuit
import pytest

from ferrule.physics.conductor import cable_resistance, resistance_per_km
from ferrule.physics.fault import (
    fault_current_single_phase,
    fault_current_three_phase,
    impedance_behind,
    reactive_part,
    resistive_part,
)

LINE_TO_NEUTRAL_V = 400 / math.sqrt(3)

#: supply's fault level in MVA, its R/X, cable length in m, Ω/km of R and X, ratio of return to line conductor
NETWORKS = [
    (10.0, 0.4, 30.0, 1.83, 0.08, 1.0),
    (4.0, 1.0, 60.0, 3.08, 0.08, 1.0),
    (1.5, 2.0, 25.0, 7.41, 0.09, 1.63),
    (25.0, 0.1, 10.0, 0.524, 0.075, 2.19),
    (0.7, 5.0, 100.0, 1.15, 0.08, 1.0),
]
each_network = pytest.mark.parametrize("network", NETWORKS)


def _solve(network: tuple[float, ...], fault: str, case: str) -> tuple[float, float]:
    """The solver's initial symmetrical fault current at the supply and at the cable's end, in amperes."""
    fault_level_mva, r_over_x, length_m, r_ohm_per_km, x_ohm_per_km, return_ratio = network
    net: Any = pandapower.create_empty_network()
    supply, end = (pandapower.create_bus(net, 0.4) for _ in range(2))
    pandapower.create_ext_grid(
        net, supply, s_sc_max_mva=fault_level_mva, s_sc_min_mva=fault_level_mva,
        rx_max=r_over_x, rx_min=r_over_x, x0x_max=1.0, x0x_min=1.0, r0x0_max=r_over_x, r0x0_min=r_over_x,
    )  # fmt: skip
    zero_sequence = 1 + 3 * return_ratio  # Z0 of a line conductor whose current comes back through the return
    pandapower.create_line_from_parameters(
        net, supply, end, length_m / 1000, r_ohm_per_km, x_ohm_per_km, c_nf_per_km=0, max_i_ka=1,
        r0_ohm_per_km=zero_sequence * r_ohm_per_km, x0_ohm_per_km=zero_sequence * x_ohm_per_km,
        c0_nf_per_km=0, endtemp_degree=70,
    )  # fmt: skip
    pandapower.shortcircuit.calc_sc(net, fault=fault, case=case, lv_tol_percent=10)
    at_supply, at_end = (1000 * float(current) for current in net.res_bus_sc.ikss_ka)
    return at_supply, at_end


def _source(fault_level_mva: float, r_over_x: float, voltage_factor: float) -> dict[str, float]:
    fault_a = fault_level_mva * 1e6 / (math.sqrt(3) * 400)
    impedance = impedance_behind(voltage_v=LINE_TO_NEUTRAL_V, voltage_factor=voltage_factor, fault_a=fault_a)
    reactance = reactive_part(impedance_ohm=impedance, r_over_x=r_over_x)
    return {
        "line_to_neutral_v": LINE_TO_NEUTRAL_V,
        "voltage_factor": voltage_factor,
        "source_r_ohm": resistive_part(reactance_ohm=reactance, r_over_x=r_over_x),
        "source_x_ohm": reactance,
    }


@each_network
@pytest.mark.parametrize(("case", "voltage_factor", "hot"), [("max", 1.1, 1.0), ("min", 0.9, 1.2)])
def test_three_phase_fault(network: tuple[float, ...], case: str, voltage_factor: float, hot: float) -> None:
    """IEC 60909-0:2016 as worked by pandapower: highest current cold, lowest with the conductors at 70 °C
    (0.004 a kelvin).
    """
    fault_level_mva, r_over_x, length_m, r_ohm_per_km, x_ohm_per_km, _ = network
    source = _source(fault_level_mva, r_over_x, voltage_factor)
    at_supply, at_end = _solve(network, "3ph", case)
    assert fault_current_three_phase(**source, cable_r_ohm=0, cable_x_ohm=0) == pytest.approx(
        at_supply, rel=1e-9
    )
    r_ohm = hot * cable_resistance(resistance_ohm_per_km=r_ohm_per_km, length_m=length_m)
    x_ohm = cable_resistance(resistance_ohm_per_km=x_ohm_per_km, length_m=length_m)
    ours = fault_current_three_phase(**source, cable_r_ohm=r_ohm, cable_x_ohm=x_ohm)
    assert ours == pytest.approx(at_end, rel=1e-9)


@each_network
def test_single_phase_fault(network: tuple[float, ...]) -> None:
    """IEC 60909-0:2016 line-to-earth fault by symmetrical components, as worked by pandapower."""
    fault_level_mva, r_over_x, length_m, r_ohm_per_km, x_ohm_per_km, return_ratio = network
    r_ohm, x_ohm = length_m / 1000 * r_ohm_per_km, length_m / 1000 * x_ohm_per_km
    ours = fault_current_single_phase(
        **_source(fault_level_mva, r_over_x, 1.1),
        line_r_ohm=r_ohm,
        line_x_ohm=x_ohm,
        return_r_ohm=return_ratio * r_ohm,
        return_x_ohm=return_ratio * x_ohm,
    )
    assert ours == pytest.approx(_solve(network, "1ph", "max")[1], rel=1e-9)


def test_calculation_sheet_of_a_main_board() -> None:
    """Published sheet "Sample short circuit calculation" (scribd.com document 341834748): 1500 kVA, 400 V
    taken as 420 V; 70 m of 95 mm² copper at 0.023 Ω·mm²/m and 0.08 mΩ/m, two breakers of 0.15 mΩ: 16.95 and
    5.90 mΩ, 13.51 kA.
    """
    per_km = resistance_per_km(resistivity_ohm_mm2_per_m=0.023, area_mm2=95)
    r_ohm = cable_resistance(resistance_ohm_per_km=per_km, length_m=70)
    assert round(1000 * r_ohm, 2) == 16.95
    current = fault_current_three_phase(
        line_to_neutral_v=LINE_TO_NEUTRAL_V,
        voltage_factor=1.05,
        source_r_ohm=0,
        source_x_ohm=2 * 0.15e-3,
        cable_r_ohm=r_ohm,
        cable_x_ohm=cable_resistance(resistance_ohm_per_km=0.08, length_m=70),
    )
    assert round(current / 1000, 2) == 13.51


@pytest.mark.parametrize(
    ("r_mohm", "x_mohm", "printed_ka"), [(0, 4.4403, 49.41), (0.1015, 4.5528, 48.18), (2.5375, 7.2528, 28.55)]
)
def test_calculation_sheet_of_a_distribution(r_mohm: float, x_mohm: float, printed_ka: float) -> None:
    """Published sheet "Short circuit calculations" (scribd.com document 867618935): 380 V board, resistance
    and reactance summed along the way.
    """
    current = fault_current_three_phase(
        line_to_neutral_v=380 / math.sqrt(3),
        voltage_factor=1,
        source_r_ohm=0,
        source_x_ohm=0,
        cable_r_ohm=r_mohm / 1000,
        cable_x_ohm=x_mohm / 1000,
    )
    assert round(current / 1000, 2) == printed_ka
