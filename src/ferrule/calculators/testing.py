"""What instruments are set to and what they must show."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.calculators.words import Strands, copper_ohm_per_km
from ferrule.physics import instrument, scale
from ferrule.quantity import (
    ApparentPowerVa,
    CurrentA,
    LengthM,
    Ratio,
    ResistanceOhm,
    SharePct,
    Size,
    Unit,
    VoltageV,
)
from ferrule.working import Trace


class InsulationTest(NamedTuple):
    test_v: Annotated[VoltageV, About("direct voltage to test with")]
    least_ohm: Annotated[ResistanceOhm, About("least insulation resistance", "up")]


def array_insulation(
    t: Trace,
    *,
    voc_v: Annotated[
        float, Unit("V", 1, 2_000), About("open-circuit voltage of the string at standard conditions")
    ],
) -> InsulationTest:
    """Voltage and limit for the insulation test of a string or array up to 10 kW.

    Never above the highest system voltage of its modules.
    """
    by_v = t.calculate(
        scale.scaled_voltage, voltage_v=voc_v, factor=t.figure("array_insulation_voltage_factor")
    )
    return InsulationTest(
        t.read("array_insulation_test_voltage", by_v), t.read("array_insulation_least", by_v)
    )


def circuit_insulation(
    t: Trace,
    *,
    circuit: Annotated[
        Literal["selv", "upto_500", "above_500"], About("extra-low voltage, up to 500 V, above 500 V")
    ],
) -> InsulationTest:
    """Voltage and limit for the insulation test of an alternating-current circuit."""
    return InsulationTest(t.read("insulation_test_voltage", circuit), t.read("insulation_least", circuit))


class CurrentTransformer(NamedTuple):
    ratio: Annotated[Ratio, About("to set in the meter")]
    burden_va: Annotated[ApparentPowerVa, About("meter and lead", "up")]
    share_pct: Annotated[SharePct, About("what the load makes of the primary current")]
    sure: Annotated[bool, About("whether the load is large enough for a sure reading")]


def current_transformer(
    t: Trace,
    *,
    primary_a: Annotated[CurrentA, About("rated primary current")],
    secondary_a: Annotated[CurrentA, About("rated secondary current")],
    load_a: Annotated[CurrentA, About("current of the load to test with")],
    meter_va: Annotated[ApparentPowerVa, About("burden of the meter's input")],
    length_m: Annotated[LengthM, About("length of the lead, one way")],
    size: Annotated[Size, About("size of the lead, copper")],
    strands: Strands = "class5",
) -> CurrentTransformer:
    """Ratio and burden of a current transformer, and whether a load is large enough to judge it by."""
    share_pct = t.calculate(instrument.share_of_primary, load_a=load_a, primary_a=primary_a)
    return CurrentTransformer(
        t.calculate(instrument.transformer_ratio, primary_a=primary_a, secondary_a=secondary_a),
        t.calculate(
            instrument.connected_burden,
            meter_va=meter_va,
            secondary_a=secondary_a,
            length_m=length_m,
            resistance_ohm_per_km=copper_ohm_per_km(t, size, strands),
        ),
        share_pct,
        share_pct >= t.figure("ct_low_share"),
    )


CALCULATORS = (
    Calculator(
        "array-insulation-test",
        array_insulation,
        "IEC 62446-1:2016 clause 6.7",
        {"voc": "466.8 V"},
        tables=True,
    ),
    Calculator(
        "circuit-insulation-test",
        circuit_insulation,
        "IEC 60364-6:2016 table 6.1",
        {"circuit": "upto_500"},
        tables=True,
    ),
    Calculator(
        "current-transformer",
        current_transformer,
        "IEC 61869-2:2012 clause 5.5",
        {
            "primary": "100 A",
            "secondary": "5 A",
            "load": "8.7 A",
            "meter": "0.5 VA",
            "length": "3 m",
            "size": "2.5 mm²",
        },
        tables=True,
    ),
)
