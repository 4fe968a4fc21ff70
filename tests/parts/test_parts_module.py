"""A module's datasheet: slips of the pen that would turn a danger into a pass are refused."""

from typing import Any

import pytest

from ferrule.document import Unreadable
from ferrule.fact import known
from houses import loaded

MODULE = "parts.example-mono-430"


@pytest.mark.parametrize(
    ("key", "value", "allowed"),
    [
        ("voc_coefficient", "0.26 %/K", "minus sign"),
        ("voc_coefficient", "0.1 V/K", "minus sign"),
        ("vmp_coefficient", "0.3 %/K", "minus sign"),
        ("power_coefficient", "0.31 %/K", "minus sign"),
        ("voc_coefficient", "-0.26 A/K", "'-0.137 V/K'"),
        ("power_coefficient", "-0.31 V/K", "'-0.35 %/K'"),
        ("isc_coefficient", "0.05 V/K", "'5.9 mA/K'"),
        ("vmp", "38.9 V", "less than voc"),
        ("vmp", "39 V", "less than voc"),
        ("imp", "13.9 A", "less than isc"),
        ("isc", "0 A", "not below 0.1"),
        ("voc", "0 V", "not below 1"),
        ("power", "0 W", "not below 1"),
        ("rear_gain", "-5 %", "not below 0"),
    ],
)
def test_a_slip_on_the_datasheet_is_refused_where_it_stands(key: str, value: Any, allowed: str) -> None:
    """With the wrong sign a cold morning would lower the voltage, and any string would pass."""
    with pytest.raises(Unreadable) as refused:
        loaded({f"{MODULE}.{key}": value})
    (problem,) = refused.value.problems
    assert value in problem.found
    assert allowed in problem.allowed
    assert problem.line > 1


def test_what_only_just_makes_sense_is_read() -> None:
    module = next(
        part
        for part in loaded(
            {
                f"{MODULE}.vmp": "38.8 V",
                f"{MODULE}.imp": "13.8 A",
                f"{MODULE}.voc_coefficient": "-137 mV/K",
                f"{MODULE}.vmp_coefficient": "0 V/K",
                f"{MODULE}.isc_coefficient": "-2 mA/K",
            }
        ).job.parts
        if part.kind == "module"
    )
    assert known(module.voc_coefficient).absolute(38.9) == pytest.approx(-0.137)
    assert known(module.isc_coefficient).absolute(13.9) == pytest.approx(-0.002)
