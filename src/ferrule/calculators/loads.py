"""Loads on several phases, and motors that start."""

from typing import Annotated, Literal, NamedTuple

from ferrule.calculators.calculator import About, Calculator
from ferrule.physics import motor, threephase
from ferrule.quantity import AngleDeg, ApparentPowerVa, CurrentA
from ferrule.working import Bound, Trace


class NeutralCurrent(NamedTuple):
    current_a: Annotated[CurrentA, About("in the neutral, harmonics left out", "up")]


def neutral_current(
    t: Trace,
    *,
    line_1_a: CurrentA,
    line_2_a: CurrentA,
    line_3_a: CurrentA,
    angle_1_deg: Annotated[AngleDeg, About("angle of the first line's current")] = 0.0,
    angle_2_deg: Annotated[AngleDeg, About("angle of the second line's current")] = -120.0,
    angle_3_deg: Annotated[AngleDeg, About("angle of the third line's current")] = -240.0,
) -> NeutralCurrent:
    """Current in the neutral that three unevenly loaded lines share."""
    return NeutralCurrent(
        t.calculate(
            threephase.neutral_current,
            line_1_a=line_1_a,
            line_1_deg=angle_1_deg,
            line_2_a=line_2_a,
            line_2_deg=angle_2_deg,
            line_3_a=line_3_a,
            line_3_deg=angle_3_deg,
        )
    )


class MotorStart(NamedTuple):
    low_va: Annotated[ApparentPowerVa, About("an easy start", "down")]
    high_va: Annotated[ApparentPowerVa, About("a hard start", "up")]
    together_va: Annotated[ApparentPowerVa, About("all loads while it starts hard", "up")]


def motor_start(
    t: Trace,
    *,
    running_va: Annotated[ApparentPowerVa, About("apparent power of the running motor")],
    start: Annotated[Literal["direct", "soft_starter", "drive"], About("how it is started")],
    others_va: Annotated[ApparentPowerVa, About("all other loads that run meanwhile")] = 0.0,
) -> MotorStart:
    """What a motor takes while it starts, alone and on top of what else runs."""

    def starting_va(bound: Bound) -> float:
        return t.calculate(
            motor.starting_power,
            running_va=running_va,
            start_multiple=t.read("motor_start_multiple", start, bound),
        )

    low_va, high_va = starting_va("low"), starting_va("high")
    together_va = t.calculate(
        motor.power_at_largest_start,
        running_va=others_va + running_va,
        motor_running_va=running_va,
        motor_start_va=high_va,
    )
    return MotorStart(low_va, high_va, together_va)


CALCULATORS = (
    Calculator(
        "neutral-current",
        neutral_current,
        "sum of the lines' phasors",
        {"line_1": "16 A", "line_2": "10 A", "line_3": "4 A"},
    ),
    Calculator(
        "lost-neutral",
        threephase.voltage_with_lost_neutral,
        "Millman's theorem for a balanced supply",
        {"own": "200 W", "second": "2 kW", "third": "1 kW", "line_to_neutral": "230 V"},
        result="voltage_v",
        about={
            "own_w": About("load of the line asked for"),
            "second_w": About("load of the second line"),
            "third_w": About("load of the third line"),
            "line_to_neutral_v": About("nominal voltage, line to neutral"),
            "return": About("across that load while the neutral is broken", "up"),
        },
    ),
    Calculator(
        "motor-start",
        motor_start,
        "IEC 60034-12:2016 and engineering pages on starting currents",
        {"running": "1.5 kVA", "start": "direct", "others": "2 kVA"},
        tables=True,
    ),
)
