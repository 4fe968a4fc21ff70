"""Findings about strings against the single-diode model of real modules.

The open CEC module table (California Energy Commission, as bundled with pvlib) gives for each module the
figures of its datasheet and the parameters of De Soto's model (Solar Energy 80 (2006) 78). Its datasheet goes
into the demo house as a part; twelve of its model stand beside the findings.
"""

from typing import Any

import pytest
from pvlib import pvsystem, temperature

from ferrule.answering import Answer
from houses import REMOVED, answered, constraint, finding

MODULE = "parts.example-mono-430"


def sample() -> list[Any]:
    """Forty crystalline modules of today's kind, whose model does not bend their datasheet's coefficients."""
    table = pvsystem.retrieve_sam("CECMod").T
    silicon = table[table.Technology.isin(["Mono-c-Si", "Multi-c-Si"])]
    numbers = silicon.drop(columns=["Technology", "BIPV", "Version", "Date"]).astype(float)
    pct_per_k = 100 * numbers.beta_oc / numbers.V_oc_ref
    chosen = numbers[
        (numbers.STC > 280)
        & numbers.N_s.isin([60, 72, 120, 144])
        & (numbers.Adjust.abs() <= 15)
        & pct_per_k.between(-0.40, -0.25)
    ]
    return [module for _, module in chosen.iloc[:: len(chosen) // 39].iterrows()]


SAMPLE = sample()


def model(module: Any, cell_c: float) -> Any:
    """Voltages of one module in full sun by the single-diode model."""
    return pvsystem.singlediode(
        *pvsystem.calcparams_cec(
            1000.0, cell_c, module.alpha_sc, module.a_ref, module.I_L_ref, module.I_o_ref, module.R_sh_ref,
            module.R_s, module.Adjust,
        )
    )  # fmt: skip


def house(module: Any) -> Answer:
    """The demo house with twelve of this module, at −20 °C and at 25 °C; close to the roof that makes 75."""
    return answered(
        {
            f"{MODULE}.voc": f"{module.V_oc_ref} V",
            f"{MODULE}.vmp": f"{module.V_mp_ref} V",
            f"{MODULE}.isc": f"{module.I_sc_ref} A",
            f"{MODULE}.imp": f"{module.I_mp_ref} A",
            f"{MODULE}.voc_coefficient": f"{module.beta_oc} V/K",
            f"{MODULE}.isc_coefficient": f"{module.alpha_sc} A/K",
            f"{MODULE}.power_coefficient": f"{module.gamma_r} %/K",
            f"{MODULE}.vmp_coefficient": REMOVED,
            "site.coldest": "-20 °C",
            "site.hottest": "25 °C",
        }
    )


@pytest.mark.parametrize("module", SAMPLE, ids=range(len(SAMPLE)))
def test_a_string_of_twelve(module: Any) -> None:
    """Cold, open: the model lies 0.8 % below to 1.9 % above the finding. Hot, loaded, by the steepest
    that the coefficient of Vmp can be: 0.7 to 4.8 % above. Cold, loaded: 1.9 % below to no more.
    """
    result = house(module)

    def above(question: str, name: str, by_model_v: float) -> float:
        """How far the model is above the finding, in per cent."""
        value = constraint(finding(result, question, "string/S1"), name).value
        assert value is not None
        return 100 * (12 * by_model_v / value - 1)

    cold, hot = model(module, -20), model(module, 75)
    assert -0.8 < above("string.cold_voltage", "inverter_input", cold["v_oc"]) < 1.9
    assert 0.7 < above("string.hot_voltage", "tracking_low", hot["v_mp"]) < 4.8
    assert -1.9 < above("string.cold_operating_voltage", "tracking_high", cold["v_mp"]) < 0


@pytest.mark.parametrize(
    ("mounting", "build"),
    [("close-roof", "close_mount_glass_glass"), ("rack", "open_rack_glass_glass")],
)
def test_the_cell_is_as_hot_as_the_sandia_model_has_it(mounting: str, build: str) -> None:
    """SAND2004-3535 in pvlib, full sun, 1 m/s of wind, 34 °C: less than a kelvin below the finding."""
    result = answered({"faces.south.mounting": mounting})
    found = constraint(finding(result, "string.hot_voltage", "string/S1"), "tracking_low")
    assert found.value is not None
    cell_c = 25 + (found.value / 12 - 32.6) / -0.10106
    by_model_c = temperature.sapm_cell(1000, 34, 1, **temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"][build])
    assert by_model_c <= cell_c < by_model_c + 1
